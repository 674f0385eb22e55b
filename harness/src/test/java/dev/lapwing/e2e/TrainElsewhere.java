package dev.lapwing.e2e;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Point;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.simulated.SimulatedTerminals;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The simulated train and unit behind the reference bench, in step with its clock (see elsewhere.h): what the bench
 * drives acts on the train, what the train does stands at the bench's inputs. Sessions, arming, sets, ramps, sampling
 * and stamps are the bench's alone.
 */
final class TrainElsewhere implements AutoCloseable {
    /** What the bench's converters see changes so often, in us. */
    private static final long SEEN_EVERY_US = 1_000;

    private final ReferenceBench bench;
    private final SimulatedTerminals terminals;
    private final List<String> analog;
    private final Map<String, Integer> safe = new HashMap<>();
    private final Map<String, Integer> told = new HashMap<>();
    private final Map<String, Integer> driven = new TreeMap<>();
    private final Thread thread = new Thread(this::run, "train elsewhere");
    private long nowUs;
    private long stretches;
    private long safeSinceUs;
    private Optional<Exception> failed = Optional.empty();

    /** The shipped simulated bench's wiring, and a unit. */
    static TrainElsewhere start(ReferenceBench bench, Path unit, long seed) throws BenchFailure {
        BenchFile file =
                BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();
        Fixture fixture = FixtureFiles.load(unit).value().orElseThrow();
        SimulatedTerminals terminals = SimulatedTerminals.open(file, fixture.wiring(), fixture.simulation(), seed);
        TrainElsewhere train = new TrainElsewhere(bench, file, terminals);
        train.thread.setDaemon(true);
        train.thread.start();
        return train;
    }

    private TrainElsewhere(ReferenceBench bench, BenchFile file, SimulatedTerminals terminals) {
        this.bench = bench;
        this.terminals = terminals;
        analog = file.points().stream()
                .filter(point -> !point.kind().output() && !point.kind().digital())
                .map(Point::name)
                .toList();
        file.points().stream()
                .filter(point -> point.kind().output())
                .forEach(point -> safe.put(point.name(), point.safe()));
    }

    /** The bench's clock at the end of the last stretch, in us. */
    synchronized long nowUs() {
        return nowUs;
    }

    /** How many stretches of time it has gone on for. */
    synchronized long stretches() {
        return stretches;
    }

    /** Since when every output is at its safe value, in us of the bench's clock; -1 while one is not. */
    synchronized long safeSinceUs() {
        return safeSinceUs;
    }

    /** What ended it, if it was not the bench. */
    synchronized Optional<Exception> failed() {
        return failed;
    }

    private void run() {
        try {
            for (String line = bench.out().readLine();
                    line != null;
                    line = bench.out().readLine()) {
                bench.in().write(step(line.split(" ")));
                bench.in().write('\n');
                bench.in().flush();
            }
        } catch (IOException | RuntimeException e) {
            synchronized (this) {
                failed = Optional.of(e);
            }
        }
    }

    private synchronized String step(String[] words) {
        StringBuilder answer = new StringBuilder();
        for (int i = 1; i < words.length; i++) {
            drive(words[i].split("[=@]"), answer);
        }
        long untilUs = Long.parseLong(words[0]);
        for (long us = nowUs + SEEN_EVERY_US; us < untilUs; us += SEEN_EVERY_US) {
            see(us, answer);
        }
        see(untilUs, answer);
        nowUs = untilUs;
        stretches++;
        return answer.toString();
    }

    /** What the analogue inputs are at that time, where it has changed. */
    private void see(long us, StringBuilder answer) {
        passUntil(us, answer);
        for (String point : analog) {
            int counts = terminals.read(point, us);
            if (!Integer.valueOf(counts).equals(told.put(point, counts))) {
                answer.append(' ')
                        .append(point)
                        .append('=')
                        .append(counts)
                        .append('@')
                        .append(us);
            }
        }
    }

    /** NAME, value and time of one output. */
    private void drive(String[] parts, StringBuilder answer) {
        long atUs = Long.parseLong(parts[2]);
        int value = Integer.parseInt(parts[1]);
        passUntil(atUs, answer);
        terminals.drive(Map.of(parts[0], value), atUs);
        driven.put(parts[0], value);
        boolean allSafe = driven.equals(new TreeMap<>(safe));
        safeSinceUs = !allSafe ? -1 : safeSinceUs < 0 ? atUs : safeSinceUs;
    }

    private void passUntil(long us, StringBuilder answer) {
        List<String> edges = new ArrayList<>();
        terminals.passUntil(us, (point, level, atUs) -> {
            int to = level ? 1 : 0;
            // An input of the bench stands at 0 until it is told otherwise.
            if (told.getOrDefault(point, 0) != to) {
                told.put(point, to);
                edges.add(" " + point + "=" + to + "@" + Math.min(atUs, us));
            }
        });
        edges.forEach(answer::append);
    }

    @Override
    public void close() {
        bench.close();
        try {
            thread.join(2_000);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
