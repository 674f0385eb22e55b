package dev.lapwing.judge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.bench.Input;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.HandMade;
import dev.lapwing.measure.Recording;
import dev.lapwing.naming.Keys;
import dev.lapwing.plan.Plan;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.source.Place;
import dev.lapwing.uncertainty.Estimate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What must be so of every always-on property and of each of the bench's own checks, on runs drawn by seed. */
class ThroughoutPropertiesTest {
    private static final double END = 140;
    private static final int SEEDS = 4;
    private static final String ONE = "brake-cylinder@1";
    private static final String TWIN = "brake-cylinder@1/twin";

    /** Charges, brakes by the pipe at 10 s, laps, is released at 90 s and dumped at 120 s; the EP brake at 95 s. */
    private static HandMade run(int seed, double twinOff) {
        SplittableRandom random = new SplittableRandom(seed);
        double pipe = 68 + 3 * random.nextDouble();
        double full = 28 + 3 * random.nextDouble();
        HandMade run = new HandMade(END, seed)
                .supply("supply/ep", t -> 110)
                .pressure("main-reservoir-pipe@1", t -> 95)
                .pressure("main-reservoir-pipe@4", t -> 95)
                .pressure("supply-reservoir@1", t -> 95)
                .wire("application", 95.01, 97)
                .wire("holding", 95, 102)
                .wire("traction", 1, 7)
                .wire("ep-supply-lamp", 0.5)
                .wire("warning-light", 40, 43, 60, 65)
                .wire("warning-sounder", 62.5, 65);
        for (int vehicle = 1; vehicle <= 4; vehicle++) {
            run.pressure("brake-pipe@" + vehicle, t -> pipe(t, pipe));
            run.pressure("auxiliary-reservoir@" + vehicle, t -> t < 120 ? pipe(t, pipe) : pipe);
            run.pressure("brake-cylinder@" + vehicle, t -> cylinder(t, full));
        }
        return run.pressure(TWIN, t -> cylinder(t, full) + twinOff);
    }

    private static double pipe(double t, double charged) {
        double braked = t > 10 && t < 90 ? charged - 10 : charged;
        return t < 120 ? Math.min(braked, 20 * t) : charged * StrictMath.exp(-(t - 120) / 0.9);
    }

    private static double cylinder(double t, double full) {
        double automatic = t > 10 && t < 90 ? Math.min(full, 15 * (t - 10)) : 0;
        double electric = t > 95 && t < 102 ? Math.min(full, 15 * (t - 95)) : 0;
        return t > 120 ? Math.min(50, 15 * (t - 120)) : Math.max(automatic, electric);
    }

    private static Bench course(double later) {
        return new Bench()
                .drives(0.2 + later, "master-switch", 1)
                .drives(0.3 + later, "deadman", 1)
                .drives(0.4 + later, "reverser/forward", 1)
                .drives(0.5 + later, "handle", Bench.RELEASE)
                .drives(8 + later, "deadman", 0)
                .drives(9 + later, "deadman", 1)
                .drives(9.9 + later, "handle", Bench.LAP)
                .drives(90 + later, "handle", Bench.RELEASE)
                .drives(120 + later, "handle", Bench.EMERGENCY);
    }

    private static List<Finding> judge(Recording run, double later, PressureDisplay display) {
        List<Input> inputs = new ArrayList<>();
        for (String key : List.of(ONE, TWIN)) {
            inputs.add(new Input(
                    Keys.signal(key).orElseThrow(),
                    "P-" + key,
                    Optional.empty(),
                    new Place("b", inputs.size() + 1, 1)));
        }
        Plan plan = Bench.plan(inputs, List.of(), AlwaysProperty.values());
        return new Judge(display).judge(plan, run, course(later).course());
    }

    private static Finding same(List<Finding> among, Finding finding) {
        return among.stream()
                .filter(other -> other.id().equals(finding.id()))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void allOfThemArise() {
        Set<AlwaysProperty> asked = EnumSet.noneOf(AlwaysProperty.class);
        List<Finding> findings = judge(run(0, 0), 0, PressureDisplay.PSI);
        for (AlwaysProperty property : AlwaysProperty.values()) {
            findings.stream()
                    .filter(one -> one.id().equals("throughout/" + property.text()))
                    .filter(one -> one.measured().isPresent() && one.verdict() == Verdict.PASS)
                    .forEach(one -> asked.add(property));
        }
        assertThat(asked).containsExactlyInAnyOrder(AlwaysProperty.values());
    }

    @Test
    void aShiftOfTheTimeOriginAndAChangeOfUnitChangeNothing() {
        for (int seed = 0; seed < SEEDS; seed++) {
            HandMade run = run(seed, 0);
            List<Finding> here = judge(run, 0, PressureDisplay.PSI);
            double later = 123.456789 * (seed + 1);
            List<Finding> there = judge(new Altered(run, Math.round(later * 1e6), 1), later, PressureDisplay.BAR);
            for (Finding finding : here) {
                Finding other = same(there, finding);
                assertThat(other.verdict()).as("seed %d: %s", seed, finding).isEqualTo(finding.verdict());
                assertThat(other.margin().isPresent())
                        .isEqualTo(finding.margin().isPresent());
                finding.margin()
                        .ifPresent(margin -> assertThat(other.margin().getAsDouble())
                                .as(finding.id())
                                .isCloseTo(margin, within(1e-9 * Math.max(1, Math.abs(margin)))));
            }
        }
    }

    @Test
    void fewerSamplesAgreeWithinTheUncertainties() {
        int compared = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            HandMade run = run(seed, 0);
            List<Finding> all = judge(run, 0, PressureDisplay.PSI);
            for (int every : new int[] {2, 5}) {
                for (Finding finding : judge(new Altered(run, 0, every), 0, PressureDisplay.PSI)) {
                    Optional<Estimate> full = same(all, finding).measured();
                    if (finding.measured().isPresent() && full.isPresent()) {
                        Estimate some = finding.measured().get();
                        double room = full.get().expanded() + some.expanded() + 1e-9;
                        assertThat(some.value())
                                .as("seed %d, one in %d: %s", seed, every, finding.id())
                                .isCloseTo(full.get().value(), within(room));
                        compared++;
                    }
                }
            }
        }
        assertThat(compared).isGreaterThan(SEEDS * 20);
    }

    /** What may be apart is what both claim: further apart never passes again, and the margin only falls. */
    @Test
    void twinsThatAreFurtherApartNeverAgreeAgain() {
        double margin = Double.POSITIVE_INFINITY;
        Verdict verdict = Verdict.PASS;
        for (double off = 0.15; off < 1; off += 0.05) {
            Finding twins = judge(run(1, off), 0, PressureDisplay.PSI).stream()
                    .filter(one -> one.id().equals("throughout/bench-twins-agree"))
                    .findFirst()
                    .orElseThrow();
            assertThat(twins.margin().orElseThrow()).as("off by %s", off).isLessThan(margin);
            assertThat(twins.verdict()).as("off by %s", off).isGreaterThanOrEqualTo(verdict);
            margin = twins.margin().orElseThrow();
            verdict = twins.verdict();
        }
        assertThat(verdict).isEqualTo(Verdict.INCONCLUSIVE);
    }

    /** However long both are compared, what each transducer gets wrong stays whole. */
    @Test
    void whatATwinGetsWrongNeverAveragesAway() {
        Estimate apart = judge(run(2, 0), 0, PressureDisplay.PSI).stream()
                .filter(one -> one.id().equals("throughout/bench-twins-agree"))
                .findFirst()
                .flatMap(Finding::measured)
                .orElseThrow();
        for (String key : List.of(ONE, TWIN)) {
            double claimed = HandMade.instrument(Keys.signal(key).orElseThrow()).calibration();
            assertThat(apart.components())
                    .filteredOn(part -> part.source().equals("calibration/P-" + key))
                    .singleElement()
                    .satisfies(part -> assertThat(Math.abs(part.standard())).isEqualTo(claimed));
        }
    }
}
