package dev.lapwing.link.host;

import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.link.BenchMessage.Edge;
import dev.lapwing.link.HostMessage.Safe;
import dev.lapwing.link.Samples;
import dev.lapwing.link.host.HostEvent.EndReason;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A stranger who knows session and number says what the bench does not: its report comes under a number of his. */
class TwoVoicesTest {
    private final HostRig rig = new HostRig();

    @Test
    void twoReportsUnderOneNumberEndTheRunAndEverythingIsMadeSafe() {
        rig.armed();
        long n = rig.next++;
        long us = rig.benchUs();
        rig.hear(new Samples(HostRig.MINE, n, "a", 1, us - 10_000, 1_000, List.of("P1"), new int[] {7, 7}));
        rig.hear(new Edge(HostRig.MINE, n, us, "D1", false));
        rig.poll();

        HostEvent.Ended ended = rig.ended().orElseThrow();
        assertThat(ended.reason()).isEqualTo(EndReason.TWO_VOICES);
        assertThat(ended.why()).endsWith("under the number " + n);
        assertThat(rig.events)
                .filteredOn(HostEvent.Lost.class::isInstance)
                .singleElement()
                .satisfies(event -> {
                    HostEvent.Lost lost = (HostEvent.Lost) event;
                    assertThat(lost.fromUs()).isLessThanOrEqualTo(us - 10_000);
                    assertThat(lost.toUs()).isGreaterThanOrEqualTo(us);
                });
        assertThat(rig.said).anyMatch(Safe.class::isInstance);
    }

    @Test
    void aReportThatIsDoubledOnItsWayIsOne() {
        rig.armed();
        Edge edge = new Edge(HostRig.MINE, rig.next++, rig.benchUs(), "D1", true);
        rig.hear(edge);
        rig.hear(edge);

        assertThat(rig.ended()).isEmpty();
    }
}
