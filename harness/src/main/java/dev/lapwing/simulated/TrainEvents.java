package dev.lapwing.simulated;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.naming.Actuator;
import dev.lapwing.naming.SwitchKind;
import dev.lapwing.plant.CabValve;
import dev.lapwing.plant.Train;
import dev.lapwing.plant.TrainPipe;
import dev.lapwing.plant.TrainWire;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What the bench does to the train past the unit under test: valves, hoses, couplings, cocks, and another cab. */
final class TrainEvents {
    private static final Pattern VEHICLE = Pattern.compile("vehicle-(\\d+)");
    private static final Pattern BEHIND = Pattern.compile("behind-(\\d+)");
    private static final Pattern PIPE_BEHIND = Pattern.compile("(brake-pipe|main-reservoir-pipe)-behind-(\\d+)");
    private static final String OTHER_CAB = "far";

    /** Does it or undoes it. */
    interface Event {
        void happens(boolean on);
    }

    private final Train train;
    private final int vehicles;
    private final double feedPascals;
    private final double feedVolts;
    private final double sourceOhms;

    /**
     * @param feedPascals pressure to which another cab charges the pipe
     * @param feedVolts   voltage with which another cab feeds a train wire
     * @param sourceOhms  resistance of that source
     */
    TrainEvents(Train train, double feedPascals, double feedVolts, double sourceOhms) {
        this.train = train;
        this.vehicles = train.spec().vehicles().size();
        this.feedPascals = feedPascals;
        this.feedVolts = feedVolts;
        this.sourceOhms = sourceOhms;
    }

    /**
     * What a switch of the bench does to the train.
     *
     * @throws BenchFailure if this train has nothing there to be switched
     */
    Event of(Actuator.Switch actuator) throws BenchFailure {
        return switch (actuator.kind()) {
            case WIRE_FEED -> wireFeed(actuator);
            case ALARM_VALVE -> {
                int at = vehicle(actuator, VEHICLE, 1, vehicles);
                yield on -> train.alarm(at, on ? 1 : 0);
            }
            case CREW_VALVE -> {
                int at = vehicle(actuator, VEHICLE, 1, vehicles);
                yield on -> train.crewValve(at, on ? 1 : 0);
            }
            case HOSE_BURST -> {
                int behind = vehicle(actuator, PIPE_BEHIND, 2, vehicles);
                TrainPipe pipe = pipe(actuator);
                yield on -> train.burst(pipe, behind, on);
            }
            case COCK -> {
                int behind = vehicle(actuator, PIPE_BEHIND, 2, vehicles - 1);
                TrainPipe pipe = pipe(actuator);
                yield on -> train.cock(pipe, behind, on);
            }
            case PARTING -> parting(vehicle(actuator, BEHIND, 1, vehicles - 1));
            case OTHER_CAB_CHARGE -> otherCab(actuator);
            case DEADMAN, ACKNOWLEDGEMENT, MASTER_SWITCH, REVERSER ->
                throw new IllegalArgumentException(actuator.key() + " is the unit's, not the train's");
        };
    }

    /** Whether a switch acts on the train rather than on the unit under test. */
    static boolean onTheTrain(SwitchKind kind) {
        return switch (kind) {
            case DEADMAN, ACKNOWLEDGEMENT, MASTER_SWITCH, REVERSER -> false;
            case WIRE_FEED, ALARM_VALVE, CREW_VALVE, HOSE_BURST, PARTING, COCK, OTHER_CAB_CHARGE -> true;
        };
    }

    private Event parting(int behind) {
        return on -> {
            if (on) {
                train.part(behind);
            } else {
                train.couple(behind);
            }
        };
    }

    private Event wireFeed(Actuator.Switch actuator) throws BenchFailure {
        TrainWire wire = Connector.trainWire(actuator.of())
                .orElseThrow(() -> no(actuator, "a train wire: application, holding, traction or ep-supply-lamp"));
        int cab = otherCabVehicle(actuator);
        return on -> {
            if (on) {
                train.energise(wire, cab, feedVolts, sourceOhms);
            } else {
                train.deenergise(wire, cab);
            }
        };
    }

    private Event otherCab(Actuator.Switch actuator) throws BenchFailure {
        if (!actuator.of().equals(OTHER_CAB)) {
            throw no(actuator, "the cab '" + OTHER_CAB + "'");
        }
        int cab = otherCabVehicle(actuator);
        return on -> train.drive(cab, on ? CabValve.feeding(feedPascals) : CabValve.LAP);
    }

    private int otherCabVehicle(Actuator.Switch actuator) throws BenchFailure {
        if (vehicles < 2) {
            throw no(actuator, "a train of two vehicles or more, which has another cab");
        }
        return vehicles - 1;
    }

    private static TrainPipe pipe(Actuator.Switch actuator) {
        return actuator.of().startsWith("brake-pipe") ? TrainPipe.BRAKE : TrainPipe.MAIN;
    }

    private static int vehicle(Actuator.Switch actuator, Pattern written, int group, int most) throws BenchFailure {
        Matcher matcher = written.matcher(actuator.of());
        int vehicle =
                matcher.matches() && matcher.group(group).length() < 4 ? Integer.parseInt(matcher.group(group)) : 0;
        if (vehicle < 1 || vehicle > most) {
            throw no(actuator, "a vehicle from 1 to " + most + " of this train");
        }
        return vehicle - 1;
    }

    private static BenchFailure no(Actuator.Switch actuator, String due) {
        return new BenchFailure("'" + actuator.key() + "' moves nothing on the simulated train: it needs " + due);
    }
}
