package dev.lapwing.transport.linked;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.host.HostEvent;
import java.util.Optional;
import java.util.function.Function;

/** How a link's end is told to the user. */
final class Failures {
    private static final String LOST =
            ". An armed bench makes itself safe then. 'lapwing bench show' tells whether it answers; if it does not,"
                    + " look at its power and at the cable or the broker";

    private Failures() {}

    static void throwIf(Optional<String> broken) throws BenchFailure {
        if (broken.isPresent()) {
            throw lost(broken.get());
        }
    }

    private static BenchFailure lost(String why) {
        return new BenchFailure("the link to the bench is lost: " + why + LOST);
    }

    static BenchFailure unanswered(String what) {
        return new BenchFailure("the bench did not answer to " + what + LOST);
    }

    /** Nothing of an order of outputs was done, and the run ends. */
    static BenchFailure notDriven(String why) {
        return new BenchFailure("the bench did not drive its outputs: "
                + inWords(why, word -> switch (word) {
                    case NOT_ARMED ->
                        "it is not armed, and they are at their safe values. Look at what ended the"
                                + " arming, then run again";
                    case LATE ->
                        "again and again the order came too late. Look for what keeps this computer or"
                                + " the link busy, then run again";
                    case STALE, BUSY, NO_SESSION ->
                        "another host has it, or it started anew. Look who else uses it,"
                                + " and at its supply, then run again";
                    case UNKNOWN_POINT, WRONG_KIND, OUT_OF_RANGE ->
                        word.word() + ". Compare the bench file with what 'lapwing bench show' tells of its points";
                    default -> word.word() + ". Nothing of that order was done; look at the bench before running again";
                }));
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

    /** Limits in ms of the host's clock. */
    static BenchFailure beat(BenchFile file, long askedMs, long mostMs) {
        return new BenchFailure("the bench takes heartbeat limits up to " + mostMs + " ms; " + file.file()
                + " asks for " + askedMs + " ms; write 'beat: " + mostMs + " ms' at its link");
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
            case LINK_LOST -> lost(ended.why());
            case TAKEN_OVER ->
                new BenchFailure("the bench is taken over: " + ended.why()
                        + ", and this one drives nothing any more. Look who else uses it, then run again");
            case TWO_VOICES ->
                new BenchFailure("somebody else speaks as the bench: " + ended.why() + ", and nobody knows whose"
                        + " readings were told. Look who may publish on its topics, or what else is on its line, and"
                        + " set the broker's access rules");
            case REBOOTED ->
                new BenchFailure("the bench started anew: " + ended.why()
                        + ". Its outputs are at their safe values. Look at its supply and watchdog, then run again");
        };
    }

    /** What the bench itself has said about it stays behind the words. */
    private static String inWords(String why, Function<Refusal, String> words) {
        int colon = why.indexOf(':');
        String said = colon < 0 ? "" : " (" + why.substring(colon + 1).strip() + ")";
        return Refusal.of(why).map(word -> words.apply(word) + said).orElse(why);
    }
}
