package dev.lapwing.sequence;

import dev.lapwing.source.Place;
import java.util.Optional;

/** Something that the bench does to the unit or the train. */
public sealed interface Stimulus {
    Place place();

    /** Handle to a position, at once or over a time. */
    record MoveHandle(String position, Optional<Operand> over, Place place) implements Stimulus {}

    /** Handle to a share of an arc, at once or over a time. */
    record MoveHandleAlong(Operand share, String arc, Optional<Operand> over, Place place) implements Stimulus {}

    /** Deadman held or released. */
    record Deadman(boolean held, Place place) implements Stimulus {}

    /** Acknowledgement pressed or let go. */
    record Acknowledgement(boolean pressed, Place place) implements Stimulus {}

    /** Master switch on or off. */
    record MasterSwitch(boolean on, Place place) implements Stimulus {}

    /** Reverser. */
    record Reverser(Direction direction, Place place) implements Stimulus {}

    /** Power handle to a notch, 0 for off. */
    record PowerHandle(int notch, Place place) implements Stimulus {}

    /** The speed that the unit is told. */
    record Speed(Operand speed, Place place) implements Stimulus {}

    /** A supply ({@code ep}, {@code control}) to a level in V or Un; on is 1 Un, off 0 Un. */
    record Supply(String name, Operand level, Place place) implements Stimulus {}

    /** A train wire fed, or no longer fed, from another cab. */
    record WireFeed(String wire, boolean on, Place place) implements Stimulus {}

    /** Passenger alarm valve at a vehicle. */
    record AlarmValve(VehicleRef vehicle, boolean open, Place place) implements Stimulus {}

    /** Crew's emergency valve at a vehicle. */
    record CrewValve(VehicleRef vehicle, boolean open, Place place) implements Stimulus {}

    /** A hose burst behind a vehicle, or mended. */
    record HoseBurst(PipeName pipe, VehicleRef behind, boolean burst, Place place) implements Stimulus {}

    /** The train parted behind a vehicle, or joined again. */
    record Parting(VehicleRef behind, boolean parted, Place place) implements Stimulus {}

    /** A cock behind a vehicle shut or opened. */
    record Cock(PipeName pipe, VehicleRef behind, boolean shut, Place place) implements Stimulus {}

    /** The other cab left charging the pipe, or no longer. */
    record OtherCabCharge(boolean charging, Place place) implements Stimulus {}

    /** Positions of the reverser. */
    enum Direction {
        FORWARD,
        OFF,
        REVERSE
    }

    /** Pipes that run through the train. */
    enum PipeName {
        BRAKE_PIPE("brake-pipe"),
        MAIN_RESERVOIR_PIPE("main-reservoir-pipe");

        private final String text;

        PipeName(String text) {
            this.text = text;
        }

        public String text() {
            return text;
        }
    }
}
