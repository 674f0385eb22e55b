package dev.lapwing.transport.linked;

import static dev.lapwing.Patience.await;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.bench.LivePoints;
import dev.lapwing.time.MonotonicClock;
import java.util.List;

/** A served bench that was just switched on, and what is watched of it apart from its own code. */
public record WatchedBench(ServedBench served, WatchedTerminals terminals) implements AutoCloseable {
    /** @param speed how much faster than real time it goes */
    public static WatchedBench serve(BenchCard card, LivePoints points, BenchCarrier carrier, double speed) {
        return serve(card, points, carrier, speed, List.of());
    }

    /** @param faults of the bench itself; those of its line are the carrier's */
    public static WatchedBench serve(
            BenchCard card, LivePoints points, BenchCarrier carrier, double speed, List<TimedFault> faults) {
        WatchedTerminals watched = new WatchedTerminals(points, card);
        ServedBench served =
                new ServedBench(card, watched, watched.watched(carrier), speed, MonotonicClock.system(), faults);
        watched.follow(served.clock());
        served.start();
        return new WatchedBench(served, watched);
    }

    public boolean armed() {
        return served.armed();
    }

    /** It becomes safe, and by its own clock was never live for longer than the contract allows. */
    public void endsSafe() {
        await("the bench is safe").until(() -> !served.armed() && terminals.allSafe());
        assertThat(terminals.unsafe()).isEmpty();
    }

    /** As above, for that reason, in the contract's word. */
    public void endsSafe(String why) {
        endsSafe();
        await("the bench says why").until(() -> !terminals.whySafe().isEmpty());
        assertThat(terminals.whySafe()).isEqualTo(why);
    }

    @Override
    public void close() {
        served.close();
    }
}
