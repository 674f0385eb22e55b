package dev.lapwing.report;

import dev.lapwing.evidence.RunRecord;
import dev.lapwing.finding.Finding;
import dev.lapwing.naming.Signal;
import dev.lapwing.plan.Check;
import dev.lapwing.plan.Course;
import dev.lapwing.plan.PlanStep;
import dev.lapwing.plan.PlannedExpectation;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.Trace;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** One record as its reader wants it, with what charts and tables look up in it. */
final class RunView {
    private final RunRecord record;
    private final PressureDisplay display;
    private final Course course;
    private final Map<String, PlannedExpectation> asked = new HashMap<>();
    private final Map<String, Course.ExpectationWindow> windows = new HashMap<>();
    private final Map<String, Signal> signals = new LinkedHashMap<>();
    private final Map<String, Trace> traces = new HashMap<>();
    private final Map<String, Edges> edges = new LinkedHashMap<>();

    RunView(RunRecord record, PressureDisplay display) {
        this.record = record;
        this.display = display;
        this.course = record.course();
        gather(record.plan().steps());
        course.windows().forEach(window -> windows.put(window.id(), window));
        record.traces().forEach((signal, trace) -> {
            signals.put(signal.key(), signal);
            traces.put(signal.key(), trace);
        });
        record.edges().forEach((signal, levels) -> {
            signals.put(signal.key(), signal);
            edges.put(signal.key(), levels);
        });
    }

    private void gather(List<PlanStep> steps) {
        for (PlanStep step : steps) {
            if (step instanceof PlanStep.Expect expect) {
                expect.expectations().forEach(one -> asked.put(one.id(), one));
            } else if (step instanceof PlanStep.While around) {
                around.expectations().forEach(one -> asked.put(one.id(), one));
                gather(around.steps());
            }
        }
    }

    /** The unit in which its reader wants pressures. */
    PressureDisplay display() {
        return display;
    }

    RunRecord record() {
        return record;
    }

    Course course() {
        return course;
    }

    List<Finding> findings() {
        return record.findings();
    }

    /** What a finding's expectation measures; empty for one that no step asked. */
    Optional<Check> check(Finding finding) {
        return Optional.ofNullable(asked.get(finding.id())).map(PlannedExpectation::check);
    }

    /** Bench time that a finding's times count from, in µs. */
    Optional<Long> originUs(Finding finding) {
        return Optional.ofNullable(windows.get(finding.id())).map(Course.ExpectationWindow::originUs);
    }

    /** Sampled signals, then wires, in the order of the bench file. */
    List<Signal> signals() {
        return List.copyOf(signals.values());
    }

    Optional<Trace> trace(String key) {
        return Optional.ofNullable(traces.get(key));
    }

    Optional<Edges> edges(String key) {
        return Optional.ofNullable(edges.get(key));
    }

    /** Wires of which the level is known: those that the unit has, and any other that was on nonetheless. */
    List<Signal> wires() {
        return edges.keySet().stream()
                .map(signals::get)
                .filter(wire -> belongs(wire) || wasOn(edges.get(wire.key())))
                .toList();
    }

    private boolean belongs(Signal signal) {
        return !(signal instanceof Signal.Wire wire) || record.plan().wires().contains(wire.name());
    }

    private static boolean wasOn(Edges levels) {
        return levels.size() > 0 || levels.at(levels.fromUs());
    }

    /** Bench time at which the record begins, in µs. */
    double beginUs() {
        return record.firstUs();
    }

    /** Bench time at which the record ends, in µs; never where it begins, so that there is an axis to draw. */
    double endUs() {
        return Math.max(beginUs() + 1e5, record.lastUs());
    }
}
