package dev.lapwing.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.judge.EveryKind.Asked;
import dev.lapwing.measure.Measurement;
import dev.lapwing.measure.Measurement.Measured;
import dev.lapwing.measure.Measuring;
import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Remembered;
import dev.lapwing.measure.Words;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.CheckKinds;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.uncertainty.Component;
import dev.lapwing.uncertainty.Estimate;
import java.lang.reflect.RecordComponent;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** What must be so of every kind of check, on runs drawn by seed. */
class PropertiesTest {
    private static final int SEEDS = 8;
    private static final List<String> COMMON = List.of("calibration/", "drift/", "clock/", "stamp/", "stimulus");

    private static Measurement measure(Recording run, Asked asked, Map<String, Remembered> before, long laterUs) {
        long originUs = Math.round(asked.origin() * 1e6) + laterUs;
        long closedUs = Math.round(EveryKind.END * 1e6) + laterUs;
        ExpectationWindow seen = new ExpectationWindow("x", originUs, originUs, closedUs, true);
        return new Measuring(run, new Words(PressureDisplay.PSI)).measure(asked.check(), seen, 50, before);
    }

    private static Finding judged(Measurement measurement, Limit limit, PressureDisplay display) {
        return new Findings(new Words(display)).finding("x", "it is so", "t:1:1", limit, measurement);
    }

    private static Estimate estimate(Measurement measurement, Asked asked, int seed) {
        assertThat(measurement).as("seed %d: %s", seed, asked.check()).isInstanceOf(Measured.class);
        return ((Measured) measurement).estimate();
    }

    @Test
    void everyKindOfCheckIsTried() {
        Set<Class<?>> tried = EveryKind.of(0).cases().stream()
                .map(asked -> asked.check().getClass())
                .collect(Collectors.toSet());
        assertThat(tried).containsAll(CheckKinds.all());
        Set<Object> terms = EveryKind.of(0).cases().stream()
                .map(Asked::check)
                .map(check -> check instanceof Check.Response response
                        ? response.term()
                        : check instanceof Check.Staircase staircase ? staircase.term() : check.getClass())
                .collect(Collectors.toSet());
        assertThat(terms).contains((Object[]) ResponseTerm.values()).contains((Object[]) StaircaseTerm.values());
    }

    @Test
    void aShiftOfTheTimeOriginChangesNothing() {
        for (int seed = 0; seed < SEEDS; seed++) {
            EveryKind kinds = EveryKind.of(seed);
            long laterUs = 123_456_789L * (seed + 1);
            for (Asked asked : kinds.cases()) {
                Measurement here = measure(kinds.run(), asked, kinds.before(), 0);
                Measurement later = measure(new Altered(kinds.run(), laterUs, 1), asked, kinds.before(), laterUs);
                Estimate one = estimate(here, asked, seed);
                Estimate other = estimate(later, asked, seed);
                double room = 1e-9 * Math.max(1, Math.abs(one.value()));
                assertThat(other.value()).as("seed %d: %s", seed, asked).isCloseTo(one.value(), within(room));
                assertThat(other.standardUncertainty())
                        .as("seed %d: %s", seed, asked)
                        .isCloseTo(one.standardUncertainty(), within(1e-6 * one.standardUncertainty() + 1e-12));
                Limit limit = asked.check().limit();
                assertThat(judged(later, limit, PressureDisplay.PSI).verdict())
                        .as("seed %d: %s", seed, asked)
                        .isEqualTo(judged(here, limit, PressureDisplay.PSI).verdict());
            }
        }
    }

    @Test
    void aChangeOfUnitChangesNothing() throws Exception {
        for (int seed = 0; seed < 3; seed++) {
            EveryKind kinds = EveryKind.of(seed);
            for (Asked asked : kinds.cases()) {
                Measurement measured = measure(kinds.run(), asked, kinds.before(), 0);
                Finding psi = judged(measured, asked.check().limit(), PressureDisplay.PSI);
                for (PressureDisplay display : PressureDisplay.values()) {
                    Finding other = judged(measured, asked.check().limit(), display);
                    assertThat(other.verdict()).isEqualTo(psi.verdict());
                    assertThat(other.margin()).isEqualTo(psi.margin());
                }
                for (Unit unit : Unit.of(asked.check().limit().dimension())) {
                    Finding other = judged(measured, written(asked.check().limit(), unit), PressureDisplay.PSI);
                    String which = "seed " + seed + ", limit in '" + unit.symbol() + "': " + asked;
                    assertThat(other.verdict()).as(which).isEqualTo(psi.verdict());
                    double margin = psi.margin().orElseThrow();
                    assertThat(other.margin().orElseThrow())
                            .as(which)
                            .isCloseTo(margin, within(1e-9 * Math.max(1, Math.abs(margin))));
                }
            }
        }
        // A figure written in another unit is the same figure, to what a double carries.
        assertThat(base("3.4 bar")).isCloseTo(base("340 kPa"), within(1e-9 * 340_000));
        assertThat(base("50 psi")).isCloseTo(base("3.4473786465841805 bar"), within(1e-9 * 340_000));
    }

    /** The same limit as a fixture would state it in that unit, in as many digits as it takes. */
    private static Limit written(Limit limit, Unit unit) throws Exception {
        return between(limit, written(limit.lower(), unit), written(limit.upper(), unit));
    }

    private static OptionalDouble written(OptionalDouble end, Unit unit) throws Exception {
        if (end.isEmpty() || unit.symbol().isEmpty()) {
            return end;
        }
        String figure = BigDecimal.valueOf(unit.fromBase(end.getAsDouble())).toPlainString();
        return OptionalDouble.of(base(figure + " " + unit.symbol()));
    }

    private static double base(String text) throws Exception {
        return Quantity.parse(text).base();
    }

    /** Both owe to the same transducers, so that they agree within what both claim is the least that is due. */
    @Test
    void fewerSamplesAgreeWithinTheUncertainties() {
        int compared = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            EveryKind kinds = EveryKind.of(seed);
            for (Asked asked : kinds.cases()) {
                Estimate all = estimate(measure(kinds.run(), asked, kinds.before(), 0), asked, seed);
                for (int every : new int[] {2, 5}) {
                    Measurement some = measure(new Altered(kinds.run(), 0, every), asked, kinds.before(), 0);
                    if (some instanceof Measured measured) {
                        double room = all.expanded() + measured.estimate().expanded() + 1e-9;
                        assertThat(measured.estimate().value())
                                .as("seed %d, one in %d: %s", seed, every, asked)
                                .isCloseTo(all.value(), within(room));
                        compared++;
                    }
                }
            }
        }
        assertThat(compared).isGreaterThan(SEEDS * 40);
    }

    @Test
    void aMarginGrowsAsTheLimitIsLoosened() throws Exception {
        for (int seed = 0; seed < SEEDS; seed++) {
            EveryKind kinds = EveryKind.of(seed);
            for (Asked asked : kinds.cases()) {
                Limit tight = asked.check().limit();
                double step = Math.max(
                                Math.abs(tight.upper().orElse(0)),
                                Math.abs(tight.lower().orElse(1)))
                        * 0.3;
                double margin = Double.NEGATIVE_INFINITY;
                Verdict verdict = Verdict.FAIL;
                for (int i = -3; i <= 3; i++) {
                    double by = i * step;
                    if (tight.lower().isPresent()
                            && tight.upper().isPresent()
                            && tight.lower().getAsDouble() - by >= tight.upper().getAsDouble() + by) {
                        continue;
                    }
                    Check loosened = with(asked.check(), moved(tight, by));
                    Measurement measured = measure(kinds.run(), new Asked(loosened, asked.origin()), kinds.before(), 0);
                    Finding finding = judged(measured, loosened.limit(), PressureDisplay.PSI);
                    String which = "seed " + seed + ", by " + by + ": " + loosened;
                    assertThat(finding.margin().orElseThrow()).as(which).isGreaterThanOrEqualTo(margin);
                    assertThat(finding.verdict()).as(which).isLessThanOrEqualTo(verdict);
                    margin = finding.margin().orElseThrow();
                    verdict = finding.verdict();
                }
            }
        }
    }

    private static Limit moved(Limit limit, double by) {
        OptionalDouble lower =
                limit.lower().isPresent() ? OptionalDouble.of(limit.lower().getAsDouble() - by) : limit.lower();
        OptionalDouble upper =
                limit.upper().isPresent() ? OptionalDouble.of(limit.upper().getAsDouble() + by) : limit.upper();
        return between(limit, lower, upper);
    }

    private static Limit between(Limit limit, OptionalDouble lower, OptionalDouble upper) {
        return new Limit(
                limit.figure(),
                limit.dimension(),
                lower,
                upper,
                limit.rule(),
                limit.largestUncertainty(),
                limit.source(),
                limit.place());
    }

    /** The same check with another limit, whatever its kind. */
    private static Check with(Check check, Limit limit) throws ReflectiveOperationException {
        RecordComponent[] parts = check.getClass().getRecordComponents();
        List<Object> values = new ArrayList<>();
        for (RecordComponent part : parts) {
            values.add(
                    part.getName().equals("limit") ? limit : part.getAccessor().invoke(check));
        }
        Class<?>[] types = Arrays.stream(parts).map(RecordComponent::getType).toArray(Class<?>[]::new);
        return (Check) check.getClass().getDeclaredConstructor(types).newInstance(values.toArray());
    }

    /** The mean of many runs on one bench: its noise averages away, its transducers and its clock do not. */
    @Test
    void whatOneTransducerAndOneClockGetWrongNeverAveragesAway() {
        Map<Integer, Estimate> means = new HashMap<>();
        Map<Integer, Map<String, Double>> least = new HashMap<>();
        for (int seed = 0; seed < SEEDS; seed++) {
            EveryKind kinds = EveryKind.of(seed);
            for (int i = 0; i < kinds.cases().size(); i++) {
                Asked asked = kinds.cases().get(i);
                Estimate one = estimate(measure(kinds.run(), asked, kinds.before(), 0), asked, seed);
                means.merge(i, one.times(1.0 / SEEDS, one.dimension()), (sum, next) -> sum.combine(1, 1, next));
                for (Component part : one.components()) {
                    least.computeIfAbsent(i, any -> new HashMap<>())
                            .merge(part.source(), part.standard(), PropertiesTest::nearerToNothing);
                }
            }
        }
        int held = 0;
        for (int i : means.keySet()) {
            for (Component part : means.get(i).components()) {
                double alone = least.get(i).get(part.source());
                if (COMMON.stream().anyMatch(part.source()::startsWith) && alone != 0) {
                    assertThat(Math.abs(part.standard()))
                            .as("%s of case %d", part.source(), i)
                            .isGreaterThanOrEqualTo(0.999 * Math.abs(alone));
                    held++;
                }
            }
        }
        assertThat(held).isGreaterThan(20);
    }

    /** The smaller of both, or 0 where they have different signs: such a source need not add. */
    private static double nearerToNothing(double one, double other) {
        if (Math.signum(one) != Math.signum(other)) {
            return 0;
        }
        return Math.abs(one) < Math.abs(other) ? one : other;
    }

    @Test
    void aTransducerThatReadsHighReadsHighHoweverOftenItIsAsked() {
        Estimate one = new Estimate(1, Dimension.PRESSURE, List.of(new Component("calibration/P1", 0.1)));
        Estimate mean = one.combine(0.5, 0.5, one);
        assertThat(mean.standardUncertainty()).isCloseTo(0.1, within(1e-15));
        assertThat(one.minus(one).standardUncertainty()).isZero();
    }
}
