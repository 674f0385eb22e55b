package dev.lapwing.judge;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Limit;
import dev.lapwing.finding.Verdict;
import dev.lapwing.measure.Always;
import dev.lapwing.measure.Driven;
import dev.lapwing.measure.Measurement;
import dev.lapwing.measure.Measuring;
import dev.lapwing.measure.Recording;
import dev.lapwing.measure.Remembered;
import dev.lapwing.measure.WaitedFor;
import dev.lapwing.measure.Words;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.Course.ExpectationWindow;
import dev.lapwing.plan.Course.Trouble;
import dev.lapwing.plan.Plan;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.plan.Throughout;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.DecisionRule;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Judges a run.
 *
 * @param display the unit in which sentences print pressures; figures in findings stay in base units
 */
public record Judge(PressureDisplay display) {
    /** By verdict, and among equals by margin: what has least to spare, or is furthest outside, comes first. */
    private static final Comparator<Relied> WORST_FIRST = Comparator.comparing(
            Relied::finding,
            Comparator.comparing(Finding::verdict)
                    .reversed()
                    .thenComparingDouble(finding -> finding.margin().orElse(Double.POSITIVE_INFINITY)));

    /**
     * One finding for each expectation of the plan in its order, then for each always-on property, each part left out,
     * each channel whose calibration no longer held where that matters, and each trouble.
     */
    public List<Finding> judge(Plan plan, Recording recording, Course course) {
        Words words = new Words(display);
        Map<String, List<Finding>> cases = throughout(plan, recording, course, words);
        Trust trust = Trust.of(
                plan.throughout().stream()
                        .filter(one -> one.property().ofBench())
                        .flatMap(one -> cases.getOrDefault(one.id(), List.of()).stream())
                        .toList(),
                Overdue.of(plan.bench(), course.day()));
        CalibratedRange range = new CalibratedRange(plan.bench(), recording, words);
        List<Relied> relied = new ArrayList<>(expectations(plan, recording, course, words, trust, range));
        for (Throughout one : plan.throughout()) {
            List<Relied> ofOne = cases.getOrDefault(one.id(), List.of()).stream()
                    .map(found -> relied(one, found, recording, trust, range))
                    .toList();
            relied.add(worst(one, ofOne, plan.bench()));
        }
        List<Finding> findings = relied.stream().map(Relied::finding).collect(Collectors.toCollection(ArrayList::new));
        plan.left()
                .forEach(left -> findings.add(Findings.notRun(
                        left.id(), left.sentence(), left.place(), Optional.empty(), Words.sentence(left.why()))));
        findings.addAll(trust.overdue().told(relied));
        findings.addAll(troubles(plan, course));
        return List.copyOf(findings);
    }

    private List<Relied> expectations(
            Plan plan, Recording recording, Course course, Words words, Trust trust, CalibratedRange range) {
        Map<String, ExpectationWindow> windows = course.windows().stream()
                .collect(Collectors.toMap(ExpectationWindow::id, Function.identity(), (first, again) -> first));
        Driven driven = new Driven(plan.bench(), course);
        Origins origins = new Origins(plan);
        WaitedFor events = new WaitedFor(recording);
        Measuring measuring = new Measuring(recording, words);
        Findings told = new Findings(words);
        Map<String, Remembered> remembered = new HashMap<>();
        Map<String, List<Signal>> read = new HashMap<>();
        List<Relied> findings = new ArrayList<>();
        for (PlannedExpectation expectation : expectations(plan.steps())) {
            ExpectationWindow seen = windows.get(expectation.id());
            if (seen == null) {
                findings.add(Relied.asItIs(notReached(expectation, course)));
                continue;
            }
            long bound = origins.boundUs(expectation, seen.originUs(), driven, events);
            Measurement measurement = measuring.measure(expectation.check(), seen, bound, remembered);
            if (measurement instanceof Measurement.Measured measured) {
                remember(expectation, measured, remembered);
            }
            Finding finding = told.finding(
                    expectation.id(),
                    expectation.sentence(),
                    expectation.place(),
                    expectation.check().limit(),
                    measurement);
            List<Signal> looked = looked(expectation.check(), read);
            read.put(expectation.id(), looked);
            findings.add(trust.of(range.of(finding, expectation.check(), looked), looked, looked));
        }
        return findings;
    }

    /** All that a check looks at; a comparison looks at what both of its expectations looked at. */
    private static List<Signal> looked(Check check, Map<String, List<Signal>> read) {
        return check instanceof Check.Comparison compared
                ? Stream.of(compared.expectation(), compared.with())
                        .flatMap(id -> read.getOrDefault(id, List.of()).stream())
                        .toList()
                : check.signals();
    }

    private static void remember(
            PlannedExpectation expectation, Measurement.Measured measured, Map<String, Remembered> remembered) {
        Remembered figure = new Remembered(measured.estimate(), measured.marks());
        if (expectation.check() instanceof Check.SettledLevel level) {
            figure = new Remembered(measured.estimate().plus(level.target()), measured.marks());
            if (level.rememberAs().isPresent()) {
                remembered.put(level.rememberAs().get(), figure);
            }
        }
        remembered.put(Remembered.ofExpectation(expectation.id()), figure);
    }

    private static Finding notReached(PlannedExpectation expectation, Course course) {
        String why = course.troubles().isEmpty()
                ? "the run ended before it was watched"
                : "not run: " + course.troubles().get(0).why();
        // A run that came to its end without watching it was not recorded whole; that is no reason not to ask.
        boolean due = course.troubles().isEmpty() && course.ending() == Course.Ending.COMPLETE;
        return Finding.unmeasured(
                expectation.id(),
                expectation.sentence(),
                expectation.place(),
                due ? Verdict.INCONCLUSIVE : Verdict.NONE,
                clause(due ? "the run came to its end and nothing says that this was watched" : why),
                Optional.of(expectation.check().limit()),
                Optional.empty());
    }

    /** All expectations of the steps, in the order of the plan. */
    static List<PlannedExpectation> expectations(List<PlanStep> steps) {
        List<PlannedExpectation> found = new ArrayList<>();
        for (PlanStep step : steps) {
            if (step instanceof PlanStep.Expect expect) {
                found.addAll(expect.expectations());
            } else if (step instanceof PlanStep.While during) {
                found.addAll(during.expectations());
                found.addAll(expectations(during.steps()));
            }
        }
        return found;
    }

    /** What came of every case of the always-on properties, by id. */
    private static Map<String, List<Finding>> throughout(Plan plan, Recording recording, Course course, Words words) {
        Always always = new Always(plan, recording, course, words);
        Findings told = new Findings(words);
        Map<String, List<Finding>> findings = new HashMap<>();
        for (Throughout throughout : plan.throughout()) {
            findings.put(
                    throughout.id(),
                    always.measure(throughout).stream()
                            .map(one -> told.finding(
                                    throughout.id(),
                                    throughout.property().sentence(),
                                    one.limit().place(),
                                    agreed(throughout, one.limit()),
                                    one.measurement()))
                            .toList());
        }
        return findings;
    }

    /** A case of a property as what it can be relied upon. */
    private static Relied relied(
            Throughout throughout, Finding told, Recording recording, Trust trust, CalibratedRange range) {
        List<Signal> read = throughout.read(told.marks(), recording.signals());
        Finding found = range.of(told, read);
        return throughout.property().ofBench() ? trust.suspicion(found, read) : trust.of(found, List.of(), read);
    }

    private static Relied worst(Throughout throughout, List<Relied> cases, BenchFile bench) {
        Optional<Limit> first = throughout.property().figures().stream()
                .findFirst()
                .map(figure -> throughout.limits().get(figure));
        return cases.stream()
                .min(WORST_FIRST)
                .orElseGet(() -> Relied.asItIs(Findings.notRun(
                        throughout.id(),
                        throughout.property().sentence(),
                        first.map(Limit::place).orElse(bench.file()),
                        first,
                        "It did not arise in this run.")));
    }

    /** The simple rule is never for a dump time. */
    private static Limit agreed(Throughout throughout, Limit limit) {
        if (throughout.property() != AlwaysProperty.DUMP_EMPTIES_THE_PIPE) {
            return limit;
        }
        return new Limit(
                limit.figure(),
                limit.dimension(),
                limit.lower(),
                limit.upper(),
                limit.rule().guards() ? limit.rule() : DecisionRule.GUARDED,
                limit.largestUncertainty(),
                limit.source(),
                limit.place());
    }

    private static List<Finding> troubles(Plan plan, Course course) {
        List<Finding> findings = new ArrayList<>();
        int number = 1;
        for (Trouble trouble : course.troubles()) {
            Verdict verdict = trouble.kind() == Trouble.Kind.NOT_REACHED ? Verdict.INCONCLUSIVE : Verdict.ERROR;
            findings.add(trouble(plan, number++, sentence(trouble.kind()), verdict, trouble.why(), trouble.atUs()));
        }
        if (course.ending() == Course.Ending.CUT_SHORT && course.troubles().isEmpty()) {
            findings.add(trouble(
                    plan,
                    number,
                    "the run goes to its end",
                    Verdict.ERROR,
                    "it was cut short and nothing says why",
                    0));
        }
        return findings;
    }

    private static String sentence(Trouble.Kind kind) {
        return switch (kind) {
            case BENCH -> "bench, link and harness work";
            case OPERATOR -> "nobody stops the run";
            case NOT_REACHED -> "what a step waits for is reached";
        };
    }

    private static Finding trouble(Plan plan, int number, String sentence, Verdict verdict, String why, long atUs) {
        String id = number == 1 ? "run" : "run[" + number + "]";
        return Finding.unmeasured(
                id,
                sentence,
                plan.sequence(),
                verdict,
                clause(why),
                Optional.empty(),
                Optional.of(new Window(atUs, atUs)));
    }

    private static String clause(String why) {
        return why.endsWith(".") ? why : Words.sentence(why);
    }
}
