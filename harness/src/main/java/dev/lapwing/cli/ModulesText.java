package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LineTiming;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Point;
import dev.lapwing.bench.Polled;
import dev.lapwing.bench.Register;
import dev.lapwing.bench.RoundTrips;
import dev.lapwing.link.LinkPoint;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** What was seen of Modbus modules, as people read it. */
record ModulesText(BenchFile file, LinkChoice.Modbus link) {

    List<String> lines(Map<Polled, RoundTrips> seen) {
        List<String> lines = new ArrayList<>();
        lines.add("Bench:      " + file.name() + ", modules at " + link.device() + ", " + link.baud() + " baud, "
                + (link.parity() == LinkChoice.Parity.NONE
                        ? "no"
                        : link.parity().text()) + " parity");
        lines.add(line("Clock:      this computer's; the file claims %.0f ppm at most", file.clockRateBound() * 1e6));
        lines.add(line(
                "Polled:     every %.1f ms; the characters alone take %.1f ms",
                link.pollUs() * 1e-3, new LineTiming(link.baud()).pollUs(seen.keySet()) * 1e-3));
        lines.add(line(
                "            so stamps of inputs are good to %.1f ms, those of outputs to %.1f ms and their relays",
                link.arrivalDoubtUs() * 1e-3, link.driveDoubtUs(Map.of()) * 1e-3));
        seen.forEach((polled, trips) -> lines.add(trips(polled, trips)));
        lines.add("Watchdog:   none that is known of: outputs keep their last state when this computer or the cable"
                + " fails");
        lines.add("Points:     " + link.registers().size());
        link.registers().forEach(register -> lines.add(point(register)));
        return lines;
    }

    private String trips(Polled polled, RoundTrips trips) {
        String what = polled.wires()
                ? "wires of module " + polled.blocks().get(0).module()
                : "'" + polled.stream().name() + "'";
        String beyond = trips.percentileMs(99) * 1e3 > link.roundTripUs()
                ? line("; the file allows %.1f ms", link.roundTripUs() * 1e-3)
                : "";
        return "Round trip: " + what + ": " + LinkText.answers(trips) + beyond;
    }

    private String point(Register register) {
        Point point = file.points().stream()
                .filter(each -> each.name().equals(register.point()))
                .findFirst()
                .orElseThrow();
        return LinkText.point(
                LinkPoint.of(point),
                line("module %d, %s %d", register.module(), register.table().text(), register.address()));
    }

    private static String line(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }
}
