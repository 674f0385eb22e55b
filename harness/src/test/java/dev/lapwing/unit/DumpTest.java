package dev.lapwing.unit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

class DumpTest {
    private static final double COMPLETE = 9 * TestUnits.PSI;

    /** What can happen between two steps. */
    private enum Event {
        HOLD(in -> in.deadmanHeld = true),
        LET_GO(in -> in.deadmanHeld = false),
        PRESS(in -> in.acknowledgementPressed = true),
        UNPRESS(in -> in.acknowledgementPressed = false),
        BRAKE(in -> {}),
        BACK(in -> {}),
        EMPTY(in -> in.brakePipePascals = 0);

        private final Consumer<UnitInputs> does;

        Event(Consumer<UnitInputs> does) {
            this.does = does;
        }
    }

    /** A dump that has just been opened, deadman released, handle in release, pipe charged. */
    private static final class Played {
        final UnitInputs in = new UnitInputs();
        final Dump dump;
        boolean braking;

        Played(Dump.Cause cause, boolean holdingStopsIt) {
            dump = new Dump(holdingStopsIt, COMPLETE);
            in.brakePipePascals = 70 * TestUnits.PSI;
            dump.step(false, in);
            dump.open(cause);
            dump.step(false, in);
        }

        Played then(Event event) {
            event.does.accept(in);
            braking = event == Event.BRAKE || braking && event != Event.BACK;
            dump.step(braking, in);
            return this;
        }
    }

    /** All sequences of six events, without those that change nothing. */
    private static List<List<Event>> sequences() {
        List<List<Event>> all = new ArrayList<>(List.of(List.of()));
        for (int length = 0; length < 6; length++) {
            List<List<Event>> longer = new ArrayList<>();
            for (List<Event> sequence : all) {
                for (Event event : Event.values()) {
                    List<Event> next = new ArrayList<>(sequence);
                    next.add(event);
                    longer.add(next);
                }
            }
            all = longer;
        }
        return all;
    }

    /**
     * The rule said another way, over the whole story: the dump of a deadman ends at the first moment at which the
     * pipe is empty and deadman and handle are both where they belong, both having got there since it opened; that of
     * vigilance where, besides, the press came while they were.
     */
    private static boolean ended(Dump.Cause cause, List<Event> story) {
        boolean held = false;
        boolean braking = false;
        boolean pressed = false;
        boolean empty = false;
        boolean pressedThere = false;
        for (Event event : story) {
            held = event == Event.HOLD || held && event != Event.LET_GO;
            braking = event == Event.BRAKE || braking && event != Event.BACK;
            empty |= event == Event.EMPTY;
            boolean there = held && braking;
            pressedThere = there && (pressedThere || event == Event.PRESS && !pressed);
            pressed = event == Event.PRESS || pressed && event != Event.UNPRESS;
            if (empty && there && (cause == Dump.Cause.DEADMAN || pressedThere)) {
                return true;
            }
        }
        return false;
    }

    @Test
    void onlyTheStatedOrderEndsADump() {
        for (Dump.Cause cause : new Dump.Cause[] {Dump.Cause.DEADMAN, Dump.Cause.VIGILANCE}) {
            for (List<Event> story : sequences()) {
                Played played = new Played(cause, false);
                story.forEach(played::then);
                assertThat(played.dump.isOpen()).as("%s: %s", cause, story).isEqualTo(!ended(cause, story));
            }
        }
    }

    @Test
    void whereTheDesignLetsItTheDeadmanStopsItsOwnDumpAndNoOther() {
        assertThat(new Played(Dump.Cause.DEADMAN, true).then(Event.HOLD).dump.isOpen())
                .isFalse();
        for (Dump.Cause cause : new Dump.Cause[] {Dump.Cause.VIGILANCE, Dump.Cause.RESTART, Dump.Cause.FAULT}) {
            assertThat(new Played(cause, true).then(Event.HOLD).dump.isOpen())
                    .as("%s", cause)
                    .isTrue();
        }
    }

    @Test
    void nothingButAStartEndsTheDumpOfAFault() {
        for (List<Event> story : sequences()) {
            Played played = new Played(Dump.Cause.FAULT, true);
            story.forEach(played::then);
            assertThat(played.dump.isOpen()).as("%s", story).isTrue();
        }
    }

    @Test
    void whatIsFoundInPlaceAtTheStartHasToBePutThereAnew() {
        UnitInputs in = new UnitInputs();
        in.deadmanHeld = true;
        in.acknowledgementPressed = true;
        Dump dump = new Dump(false, COMPLETE);
        dump.open(Dump.Cause.RESTART);
        dump.step(true, in);
        dump.step(true, in);
        assertThat(dump.isOpen()).isTrue();
        in.deadmanHeld = false;
        dump.step(true, in);
        in.deadmanHeld = true;
        dump.step(true, in);
        assertThat(dump.isOpen()).isFalse();
    }

    @Test
    void twoCausesAreResetEachInItsWay() {
        Played played = new Played(Dump.Cause.DEADMAN, false);
        played.dump.open(Dump.Cause.VIGILANCE);
        played.then(Event.EMPTY).then(Event.HOLD).then(Event.BRAKE);
        assertThat(played.dump.isOpenBy(Dump.Cause.DEADMAN)).isFalse();
        assertThat(played.dump.isOpenBy(Dump.Cause.VIGILANCE)).isTrue();
        assertThat(played.then(Event.PRESS).dump.isOpen()).isFalse();
    }
}
