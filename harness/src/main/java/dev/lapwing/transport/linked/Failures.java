package dev.lapwing.transport.linked;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.link.Refusal;
import dev.lapwing.link.host.HostEvent;
import java.util.Optional;

/** How a link's end is told to the user. */
final class Failures {
    private Failures() {}

    static void throwIf(Optional<String> broken) throws BenchFailure {
        if (broken.isPresent()) {
            throw new BenchFailure("the link to the bench is lost: " + broken.get());
        }
    }

    static BenchFailure refused(String what, String why) {
        String because = Refusal.of(why)
                .map(word -> switch (word) {
                    case STOP_BUTTON -> "its stop button is pressed; let it out when everybody is clear";
                    case LIMIT -> "a reading is outside its safety limits already";
                    case FAULT -> "it has a fault of its own";
                    default -> why;
                })
                .orElse(why);
        return new BenchFailure("the bench refused " + what + ": " + because);
    }

    static BenchFailure ended(HostEvent.Ended ended) {
        return new BenchFailure(
                switch (ended.reason()) {
                    case REFUSED -> "the bench let nobody in: " + ended.why();
                    case LINK_LOST -> "the link to the bench is lost: " + ended.why();
                    case TAKEN_OVER -> "the bench is taken over: " + ended.why();
                    case REBOOTED -> "the bench started anew: " + ended.why();
                });
    }
}
