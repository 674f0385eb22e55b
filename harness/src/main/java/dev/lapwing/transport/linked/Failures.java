package dev.lapwing.transport.linked;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.host.HostEvent;
import java.util.Optional;
import java.util.function.Function;

/** How a link's end is told to the user. */
final class Failures {
    private Failures() {}

    static void throwIf(Optional<String> broken) throws BenchFailure {
        if (broken.isPresent()) {
            throw new BenchFailure("the link to the bench is lost: " + broken.get());
        }
    }

    static BenchFailure refused(String what, String why) {
        return new BenchFailure("the bench refused " + what + ": "
                + inWords(why, word -> switch (word) {
                    case STOP_BUTTON -> "its stop button is pressed; let it out when everybody is clear";
                    case LIMIT -> "a reading is outside its safety limits already";
                    case FAULT -> "it has a fault of its own";
                    case UNSUPPORTED -> "unsupported; sample fewer points or less often, or take a faster line";
                    default -> word.word();
                }));
    }

    /** To a hello. */
    static BenchFailure notLetIn(String why) {
        return new BenchFailure("a bench is there, but lets nobody in: "
                + inWords(why, word -> switch (word) {
                    case BUSY -> "another host has armed it, or it checks itself; wait until that is over";
                    case WRONG_LINK -> "it speaks another version of the bench link than this host";
                    default -> word.word();
                }));
    }

    static BenchFailure ended(HostEvent.Ended ended) {
        return switch (ended.reason()) {
            case REFUSED -> notLetIn(ended.why());
            case LINK_LOST -> new BenchFailure("the link to the bench is lost: " + ended.why());
            case TAKEN_OVER -> new BenchFailure("the bench is taken over: " + ended.why());
            case REBOOTED -> new BenchFailure("the bench started anew: " + ended.why());
        };
    }

    /** What the bench itself has said about it stays behind the words. */
    private static String inWords(String why, Function<Refusal, String> words) {
        int colon = why.indexOf(':');
        String said = colon < 0 ? "" : " (" + why.substring(colon + 1).strip() + ")";
        return Refusal.of(why).map(word -> words.apply(word) + said).orElse(why);
    }
}
