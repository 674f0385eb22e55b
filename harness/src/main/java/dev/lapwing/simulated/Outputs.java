package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Output;
import java.util.HashMap;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.DoubleConsumer;

/** The output side of the bench: counts of points, and what of train and unit each of them drives. */
final class Outputs {
    private static final DoubleConsumer NOTHING = value -> {};

    private final OutputPoints points;
    private final Output[] outputs;
    private final DoubleConsumer[] acting;
    private final int[] positions;
    private final int[] acted;
    private final Map<String, String> unconnected = new HashMap<>();
    private final SplittableRandom random;

    Outputs(BenchFile file, World world, SplittableRandom random) throws BenchFailure {
        this.random = random;
        points = new OutputPoints(file.points());
        outputs = file.outputs().toArray(Output[]::new);
        acting = new DoubleConsumer[outputs.length];
        positions = new int[outputs.length];
        acted = new int[outputs.length];
        for (int i = 0; i < outputs.length; i++) {
            positions[i] = points.position(outputs[i].point());
            acting[i] = acting(outputs[i], world);
            acted[i] = points.counts(positions[i]);
            acting[i].accept(outputs[i].value(acted[i]));
        }
    }

    private DoubleConsumer acting(Output output, World world) {
        try {
            return world.acting(output.actuator());
        } catch (BenchFailure e) {
            // A bench may have more outputs than this train has things to drive; that is no fault until one is driven.
            unconnected.put(output.point(), e.getMessage());
            return NOTHING;
        }
    }

    /** The number of a point that may be driven to that count. */
    int accept(String point, int counts) throws BenchFailure {
        int position = points.position(point);
        points.requireInRange(position, counts);
        String why = unconnected.get(point);
        if (why != null && counts != points.point(position).safe()) {
            throw new BenchFailure("output '" + point + "': " + why);
        }
        return position;
    }

    /** Executes a command and gives the instant as the bench measures it, µs. */
    long drive(CommandQueue.Command command, long nowNs, long nowUs) {
        int stampUs = 0;
        for (int i = 0; i < command.points().length; i++) {
            points.drive(command.points()[i], command.counts()[i], command.overNs(), nowNs);
            stampUs = Math.max(stampUs, points.point(command.points()[i]).stampUs());
        }
        act();
        int error = stampUs == 0 ? 0 : random.nextInt(2 * stampUs + 1) - stampUs;
        // Nothing is ever measured before it was due.
        return Math.max(command.dueUs(), nowUs + error);
    }

    /** Drives points of this bench at once; one that nothing is connected to puts out its count all the same. */
    void driveNow(Map<String, Integer> counts) {
        counts.forEach((point, count) -> points.drive(points.known(point), count, 0, 0));
        act();
    }

    /** What a point puts out now; 0 if it is no output. */
    int counts(String point) {
        return points.isOutput(point) ? points.counts(points.known(point)) : 0;
    }

    /** Moves what is on a ramp. */
    void move(long nowNs) {
        points.move(nowNs);
        act();
    }

    void safe() {
        points.safe();
        act();
    }

    boolean allSafe() {
        return points.allSafe();
    }

    private void act() {
        if (points.takeChanged()) {
            for (int i = 0; i < outputs.length; i++) {
                int counts = points.counts(positions[i]);
                if (counts != acted[i]) {
                    acted[i] = counts;
                    acting[i].accept(outputs[i].value(counts));
                }
            }
        }
    }
}
