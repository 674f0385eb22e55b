package dev.lapwing.files;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/** Reads one bench file. */
final class BenchReader {
    private static final Range CLOCK = new Range(0, 0.001);

    private final Path path;
    private final Mistakes mistakes = new Mistakes();
    private final Reading reading = new Reading(mistakes);
    private final Figures figures = new Figures(reading);

    BenchReader(Path path) {
        this.path = path;
    }

    Loaded<BenchFile> read() {
        String file = path.toString();
        Supplier<BenchFile> bench = TextFile.read(path, new Place(file, 1, 1), mistakes)
                .flatMap(text -> YamlTree.of(file, text, mistakes))
                .flatMap(root -> reading.form(root, Shapes.BENCH))
                .map(this::bench)
                .orElse(Loaded.never());
        return Loaded.of(mistakes, List.of(path), bench);
    }

    private Supplier<BenchFile> bench(Form form) {
        String name = form.text("bench", "the bench's name");
        LinkReader links = new LinkReader(path, reading);
        Optional<LinkChoice> link = form.value("link").flatMap(links::read);
        double clock = figure(form, "clock", CLOCK, Dimension.CLOCK_RATE);
        RegisterReader registers = new RegisterReader(reading, link);
        PointReader points = new PointReader(reading, registers);
        form.value("points").ifPresent(points::read);
        boolean real =
                link.filter(way -> !(way instanceof LinkChoice.Simulated)).isPresent();
        CalibrationReader calibrations = new CalibrationReader(reading, real);
        form.value("calibrations").ifPresent(calibrations::read);
        InputReader inputs = new InputReader(reading, points, calibrations);
        form.value("inputs").ifPresent(inputs::read);
        LimitReader limits = new LimitReader(reading, inputs);
        form.value("limits").ifPresent(limits::read);
        if (form.has("limits")
                && link.filter(LinkChoice.Modbus.class::isInstance).isPresent()) {
            reading.mistake(
                    form.place("limits"), "Modbus modules hold no limits", "a relief valve or a pressure switch", "");
        }
        OutputReader outputs = new OutputReader(reading, points);
        form.value("outputs").ifPresent(outputs::read);
        StreamReader streams = new StreamReader(reading, points, link);
        form.value("streams").ifPresent(streams::read);
        if (form.has("streams")) {
            inputs.checkSampled(streams.sampled());
        }
        checkPolls(links, registers, streams);
        return () -> new BenchFile(
                path.toString(),
                name,
                registers.link().orElseThrow(),
                clock,
                points.points(),
                inputs.inputs(),
                outputs.outputs(),
                streams.streams(),
                limits.limits());
    }

    private void checkPolls(LinkReader links, RegisterReader registers, StreamReader streams) {
        if (registers.link().orElse(null) instanceof LinkChoice.Modbus modbus && modbus.pollUs() > 0) {
            Place poll = links.modbusPlace("poll").orElseThrow();
            Place roundTrip = links.modbusPlace("round-trip").orElseThrow();
            new PollCheck(reading, modbus).check(streams.streams(), poll, roundTrip);
        }
    }

    private double figure(Form form, String key, Range range, Dimension dimension) {
        return form.value(key)
                .flatMap(node -> figures.figure(node, range, dimension))
                .map(Quantity::base)
                .orElse(0.0);
    }
}
