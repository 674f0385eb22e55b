package dev.lapwing.report;

import dev.lapwing.finding.Finding;
import dev.lapwing.finding.Verdict;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.naming.Signal;
import java.util.List;
import java.util.function.Predicate;

/**
 * The whole run of a sequence on one time axis: pressures, handle, supplies, wires, with limits and measured points.
 */
final class Overview {
    /** Half a pixel: finer than the eye, and a quiet trace takes a few letters. */
    private static final int GRAIN = 5;

    private final RunView view;
    private final Chart chart;
    private final List<DrawnLimit> limits;

    private Overview(RunView view) {
        this.view = view;
        this.limits = view.findings().stream()
                .flatMap(finding -> DrawnLimit.of(finding, view).stream())
                .toList();
        this.chart = new Chart(view, new Axis(view.beginUs(), view.endUs(), Chart.LEFT, Chart.RIGHT));
    }

    static Markup of(RunView view) {
        return new Overview(view).draw();
    }

    private Markup draw() {
        panel("brake pipe", 120, pressure(PressureKind.BRAKE_PIPE));
        panel("brake cylinders", 120, pressure(PressureKind.BRAKE_CYLINDER));
        panel(
                "reservoirs",
                100,
                pressure(PressureKind.AUXILIARY_RESERVOIR)
                        .or(pressure(PressureKind.SUPPLY_RESERVOIR))
                        .or(pressure(PressureKind.MAIN_RESERVOIR_PIPE)));
        panel("handle", 56, Signal.HandleAngle.class::isInstance);
        panel("supplies", 56, Signal.SupplyVoltage.class::isInstance);
        chart.wires(view.wires());
        view.course()
                .executed()
                .forEach(command -> chart.moment(command.atUs().orElse(command.dueUs()), command.text()));
        List<Finding> findings = view.findings();
        for (Finding finding : findings) {
            DrawnLimit.of(finding, view).forEach(limit -> chart.limit(limit, finding.verdict(), ""));
        }
        for (int i = 0; i < findings.size(); i++) {
            Finding finding = findings.get(i);
            String label = finding.verdict() == Verdict.PASS ? "" : Integer.toString(i + 1);
            finding.marks().forEach(mark -> chart.mark(mark, finding, label));
        }
        return chart.close("bench time, s", 0, "Pressures, handle, supplies and wires over the whole run");
    }

    private static Predicate<Signal> pressure(PressureKind kind) {
        return signal -> signal instanceof Signal.Pressure pressure && pressure.kind() == kind;
    }

    private void panel(String title, double height, Predicate<Signal> of) {
        List<Signal> signals = view.signals().stream()
                .filter(of)
                .filter(signal -> view.trace(signal.key()).isPresent())
                .toList();
        if (!signals.isEmpty()) {
            List<Double> levels = limits.stream()
                    .filter(limit -> signals.contains(limit.signal()))
                    .filter(DrawnLimit.Level.class::isInstance)
                    .map(limit -> ((DrawnLimit.Level) limit).start())
                    .toList();
            chart.panel(title, signals, levels, height, true, GRAIN);
        }
    }
}
