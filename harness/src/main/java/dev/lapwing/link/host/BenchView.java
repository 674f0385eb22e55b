package dev.lapwing.link.host;

import dev.lapwing.link.BenchCard;
import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.BenchMessage.Answer;
import dev.lapwing.link.BenchMessage.Greeting;
import dev.lapwing.link.BenchMessage.Pong;
import dev.lapwing.link.BenchMessage.Report;
import dev.lapwing.link.HostMessage.Stream;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** What a host knows of the bench that has answered it: who it is, its time, what has come of its reports. */
final class BenchView {
    /** Reports that are kept: more than come in the second for which one that is missing is waited for. */
    private static final int RECENT = 512;

    private final @Nullable Report[] recent = new Report[RECENT];
    private final BenchCard card;
    private final BenchClock clock;
    private final NumberTrack numbers;
    private final Coverage coverage;
    private long seenUs;
    private long repeated;

    /** @param saidNanos when its hello was first said */
    BenchView(Greeting greeting, HostSettings settings, long saidNanos, long nowNanos) {
        card = greeting.card();
        clock = new BenchClock(card.clockPpm(), settings.hostPpm(), settings.speed());
        clock.exchange(saidNanos, nowNanos, greeting.nowUs());
        seenUs = greeting.nowUs();
        numbers = new NumberTrack(greeting.next());
        coverage = new Coverage(card, seenUs);
    }

    BenchCard card() {
        return card;
    }

    BenchClock clock() {
        return clock;
    }

    /** Greatest bench time that has come. */
    long seenUs() {
        return seenUs;
    }

    /** Reports that came once too often, or after they had been given up. */
    long repeated() {
        return repeated;
    }

    /** What an answer tells besides answering. */
    void saw(Answer answer, long nowNanos) {
        seenUs = Math.max(seenUs, answer.latestUs());
        if (answer.next() != BenchMessage.NONE) {
            numbers.reach(answer.next(), moment(nowNanos));
        }
        if (answer instanceof Pong pong) {
            coverage.saw(pong);
        }
    }

    /** What is in doubt where another report came under that number not long ago: somebody else speaks as the bench. */
    Optional<HostEvent.Lost> contradicted(Report report) {
        Report before = recent[(int) (report.n() % RECENT)];
        if (before == null || before.n() != report.n() || before.equals(report)) {
            return Optional.empty();
        }
        long fromUs = Math.min(before.earliestUs(), report.earliestUs());
        return Optional.of(new HostEvent.Lost(report.n(), report.n(), fromUs, seenUs));
    }

    /** Whether a report cannot be of this boot, its time being still to come. */
    boolean isAhead(Report report, long nowNanos) {
        return clock.isAhead(report.latestUs(), nowNanos);
    }

    /** Whether a report is news. */
    boolean isNews(Report report, long nowNanos) {
        seenUs = Math.max(seenUs, report.latestUs());
        if (!numbers.accept(report.n(), moment(nowNanos))) {
            repeated++;
            return false;
        }
        recent[(int) (report.n() % RECENT)] = report;
        coverage.saw(report);
        return true;
    }

    void ordered(Stream order) {
        coverage.ordered(order, seenUs);
    }

    void answered(Stream order, boolean done) {
        coverage.answered(order, done);
    }

    List<String> streams() {
        return coverage.streams();
    }

    List<NumberTrack.Gap> lost(long nowNanos) {
        return numbers.lost(nowNanos);
    }

    List<NumberTrack.Gap> giveUp() {
        return numbers.giveUp();
    }

    /** Whether a report about that bench time or an earlier one may still come. */
    boolean awaits(long us) {
        return numbers.awaits(us) || coverage.fromUs() <= us;
    }

    boolean nothingAwaited() {
        return numbers.complete();
    }

    long dueNanos() {
        return numbers.dueNanos();
    }

    /** What a message that is missing now can have been about. */
    private NumberTrack.Moment moment(long nowNanos) {
        return new NumberTrack.Moment(coverage.fromUs(), clock.latestUs(nowNanos), nowNanos);
    }
}
