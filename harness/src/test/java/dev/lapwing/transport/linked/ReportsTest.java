package dev.lapwing.transport.linked;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SelectiveListener;
import dev.lapwing.bench.Stream;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.BenchMessage.Fault;
import dev.lapwing.link.BenchMessage.State;
import dev.lapwing.link.Samples;
import dev.lapwing.link.host.HostEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What the runner hears of wires, and of a bench that became safe, when reports were lost. */
class ReportsTest {
    private static final String MINE = "5be1c07d";

    private final List<String> heard = new ArrayList<>();
    private final Reports reports = new Reports(FarCab.IN_THIS_PROCESS);
    private final BenchListener listener = new Ears();

    private static State state(long n, long tUs, boolean level) {
        return new State(MINE, n, tUs, true, false, 0, Map.of("D1", level, "W1", true));
    }

    @Test
    void aStateTellsOfAWireOnceAndThenEdgesDo() {
        reports.tell(state(0, 1_000, false), listener);
        reports.tell(new Edge(MINE, 1, 2_000, "D1", true), listener);
        reports.tell(state(2, 3_000, true), listener);
        assertThat(heard).containsExactly("D1 false at 1000", "D1 true at 2000");
    }

    @Test
    void afterALossTheNextStateTellsHowTheWiresAre() {
        reports.tell(state(0, 1_000, false), listener);
        reports.lost(new HostEvent.Lost(1, 2, 1_500, 2_500), listener);
        heard.clear();
        reports.tell(state(3, 2_400, false), listener);
        reports.tell(state(4, 3_000, true), listener);
        reports.tell(state(5, 4_000, true), listener);
        assertThat(heard).containsExactly("D1 true at 3000");
    }

    @Test
    void aLossBeforeTheRunIsToldInIt() {
        reports.forget(List.of(new HostEvent.Reported(state(0, 1_000, false)), new HostEvent.Lost(1, 1, 1_500, 2_500)));
        reports.greet(listener);
        assertThat(heard).contains("D1 false at 1000", "D1 lost from 1500 to 2500");
    }

    @Test
    void aLossBeforeTheRunIsInDoubtInItThoughOtherReportsCameSince() {
        reports.forget(List.of(
                new HostEvent.Reported(state(0, 1_000, false)),
                new HostEvent.Lost(1, 1, 1_500, 2_500),
                new HostEvent.Reported(new Edge(MINE, 2, 3_000, "D2", true))));
        reports.greet(listener);
        assertThat(heard).contains("D1 false at 3000", "D1 lost from 1500 to 3001");
    }

    @Test
    void whatWasWrongBeforeTheRunIsToldInItUnlessItsSamplesOrAnEdgeTellMore() {
        reports.forget(List.of(
                new HostEvent.Reported(state(0, 1_000, false)),
                new HostEvent.Reported(new Fault(MINE, 1, 1_100, "BC1", "open-loop")),
                new HostEvent.Reported(new Fault(MINE, 2, 1_100, "D1", "not-readable")),
                new HostEvent.Reported(new Fault(MINE, 3, 1_100, "D2", "not-readable")),
                new HostEvent.Reported(new Fault(MINE, 4, 1_100, "BC1", "not-readable")),
                new HostEvent.Reported(new Fault(MINE, 5, 1_100, "", "overrun")),
                new HostEvent.Reported(new Edge(MINE, 6, 1_200, "D2", true))));
        reports.greet(listener);
        assertThat(heard)
                .containsExactly(
                        "D1 false at 1200", "D2 true at 1200", "BC1 open-loop at 1200", "D1 not-readable at 1200");
    }

    @Test
    void samplesThatAreNotAsOrderedAreLostAndThoseOfAnotherOrderNothing() {
        Stream stream = FarCab.IN_THIS_PROCESS.streams().get(0);
        List<String> points = stream.points();
        int[] counts = new int[2 * points.size()];
        long every = stream.everyUs();
        reports.streams(stream, 7);
        reports.tell(new Samples(MINE, 1, stream.name(), 6, 1_000, every, points, counts), listener);
        assertThat(heard).isEmpty();
        reports.tell(new Samples(MINE, 2, stream.name(), 7, 1_000, every + 1, points, counts), listener);
        assertThat(heard).containsExactly(stream.name() + " lost from 1000 to " + (1_000 + every + 1));
    }

    @Test
    void anEdgeThatComesAfterALaterOneChangesNothingButWhatIsKnownBetweenThem() {
        reports.tell(state(0, 1_000, true), listener);
        reports.tell(new Edge(MINE, 2, 3_000, "D1", true), listener);
        reports.tell(new Edge(MINE, 1, 2_000, "D1", false), listener);
        assertThat(heard).containsExactly("D1 true at 1000", "D1 true at 3000", "D1 lost from 2000 to 3000");
    }

    @Test
    void aLossBeforeTheRunThatAStateHasSettledIsForgotten() {
        reports.forget(List.of(new HostEvent.Lost(1, 1, 1_500, 2_500), new HostEvent.Reported(state(2, 3_000, true))));
        reports.greet(listener);
        assertThat(heard).containsExactly("D1 true at 3000");
    }

    @Test
    void aBenchThatIsFoundDisarmedBecameSafeThoughItsReportOfThatIsMissing() {
        reports.armed(5);
        reports.tell(disarmed(4, 900), listener);
        reports.tell(state(5, 1_000, false), listener);
        reports.lost(new HostEvent.Lost(6, 6, 1_500, 2_500), listener);
        heard.clear();
        reports.tell(disarmed(7, 3_000), listener);
        reports.tell(disarmed(8, 4_000), listener);
        assertThat(heard).containsExactly("D1 false at 3000", "safe at 3000: untold");
    }

    @Test
    void aBenchThatSaidThatItIsSafeIsNotFoundSoAgain() {
        reports.armed(5);
        reports.tell(new BenchMessage.Safe(MINE, 6, 2_000, "limit", ""), listener);
        reports.tell(disarmed(7, 2_100), listener);
        assertThat(heard).startsWith("safe at 2000: limit").noneMatch(line -> line.contains("untold"));
    }

    private static State disarmed(long n, long tUs) {
        return new State(MINE, n, tUs, false, false, 0, Map.of("D1", false));
    }

    private final class Ears implements SelectiveListener {
        @Override
        public void edge(String point, long atUs, boolean level) {
            heard.add(point + " " + level + " at " + atUs);
        }

        @Override
        public void safe(long atUs, String why) {
            heard.add("safe at " + atUs + ": " + why);
        }

        @Override
        public void fault(long atUs, String point, String why) {
            heard.add(point + " " + why + " at " + atUs);
        }

        @Override
        public void lost(String streamOrPoint, long fromUs, long toUs) {
            heard.add(streamOrPoint + " lost from " + fromUs + " to " + toUs);
        }
    }
}
