package dev.lapwing.plan;

import static dev.lapwing.plan.Mistaken.at;
import static dev.lapwing.plan.Mistaken.expecting;
import static dev.lapwing.plan.Mistaken.mistakes;
import static dev.lapwing.plan.Mistaken.only;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Output;
import dev.lapwing.bench.Stream;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.Stimulus;
import dev.lapwing.source.Mistake;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Every mistake between a sequence and what it is connected to once, with the place that it is told of. */
class BenchMistakesTest {

    private final Written w = new Written();

    @Test
    void aMistypedWireIsToldWithTheNearestOne() {
        Mistake mistake = only(expecting(
                w,
                new Expectation.PulsesAtMost(
                        (SignalRef.Wire) w.signal("wire aplication"),
                        w.operand("lapping-pulses"),
                        Optional.of(w.operand("5 s")))));

        assertThat(mistake.found()).isEqualTo("the unit has no wire 'aplication'");
        assertThat(mistake.hint()).isEqualTo("did you mean 'application'?");
        assertThat(mistake.place()).isEqualTo(at(1));
    }

    @Test
    void whatTheBenchDoesNotCarryIsToldWithWhatItDoes() {
        List<String> inputs = new ArrayList<>(Models.inputs());
        inputs.remove("brake-cylinder@3");
        BenchFile bench = Models.bench(inputs, List.of("handle"));

        Mistake mistake = only(mistakes(
                bench,
                Written.sequence(w.expect("full", w.settlesAt("brake-cylinder at every", "charged-band", null)))));

        assertThat(mistake.found())
                .isEqualTo("bench 'small-bench' does not read the brake cylinder at vehicle 3 (brake-cylinder@3)");
        assertThat(mistake.hint()).isEqualTo("it reads brake-cylinder@1, brake-cylinder@2, brake-cylinder@4");
        assertThat(mistake.place()).isEqualTo(at(1));
    }

    @Test
    void aSignalThatNoStreamSamplesCannotBeMeasured() {
        BenchFile all = Models.bench();
        BenchFile bench = new BenchFile(
                all.file(),
                all.name(),
                all.link(),
                all.clockRateBound(),
                all.points(),
                all.inputs(),
                all.outputs(),
                List.of(new Stream("quick", List.of("I5"), 2000)));

        Mistake mistake = only(mistakes(
                bench, Written.sequence(w.expect("charged", w.settlesAt("brake-pipe at last", "charged-band", null)))));

        assertThat(mistake.found())
                .contains("brake pipe at vehicle 4 is at point")
                .contains("no stream samples");
    }

    @Test
    void aVehicleBeyondTheTrainIsAMistake() {
        Mistake mistake = only(expecting(w, w.settlesAt("brake-pipe at 5", "charged-band", null)));

        assertThat(mistake.found()).isEqualTo("the train has no vehicle 5");
        assertThat(mistake.expected()).isEqualTo("a vehicle from 1 to 4");
    }

    @Test
    void aShareIsNoVehicle() {
        Mistake mistake = only(mistakes(w.forEach(
                "vehicle",
                List.of("10 %"),
                w.expect("charged", w.settlesAt("brake-pipe at <vehicle>", "charged-band", null)))));

        assertThat(mistake.found()).startsWith("<vehicle> is used as a vehicle at ");
    }

    @Test
    void aWireHasNoLevel() {
        Mistake mistake = only(expecting(w, w.risesAbove("wire application", "45 psi", "ep-rise-time")));

        assertThat(mistake.found()).isEqualTo("wire 'application' is on or off and has no level");
    }

    @Test
    void aLevelBeyondTheTransducerIsAMistake() {
        Mistake mistake = only(expecting(w, w.risesAbove("brake-cylinder at last", "160 psi", "ep-rise-time")));

        assertThat(mistake.found())
                .isEqualTo("160 psi is outside of what the transducer of brake-cylinder@4 is calibrated for");
        assertThat(mistake.expected()).isEqualTo("between 0 psi and 150 psi");
        assertThat(mistake.place()).isEqualTo(at(2));
    }

    @Test
    void aLimitBeyondTheTransducerIsAMistake() {
        assertThat(only(expecting(w, w.stays("brake-pipe at last", "beyond-the-gauge", "5 s")))
                        .found())
                .startsWith("200 psi (beyond-the-gauge) is outside of what the transducer of brake-pipe@4");
        assertThat(only(expecting(
                                w,
                                new Expectation.Moves(
                                        w.signal("brake-pipe at last"),
                                        w.operand("beyond-the-gauge"),
                                        w.operand("3 s"),
                                        w.operand("2 s"))))
                        .found())
                .startsWith("200 psi (beyond-the-gauge) is outside");
    }

    @Test
    void aMeanNeedsSeveralSamples() {
        Mistake mistake = only(expecting(
                w,
                new Expectation.SettlesAt(
                        w.signal("brake-pipe at last"),
                        w.operand("charged-band"),
                        w.operand("3 s"),
                        w.operand("4 ms"),
                        Optional.empty())));

        assertThat(mistake.found()).isEqualTo("a mean over 4 ms of brake-pipe@4, which the bench samples every 2 ms");
    }

    @Test
    void onlyLikeIsComparedWithLike() {
        assertThat(only(expecting(w, agrees("brake-pipe at last", "supply ep"))).found())
                .isEqualTo("brake pipe at vehicle 4 and ep supply voltage cannot be compared");
        assertThat(only(expecting(w, agrees("brake-pipe at last", "brake-pipe at 4")))
                        .found())
                .isEqualTo("brake pipe at vehicle 4 is compared with itself");
        assertThat(expecting(w, agrees("brake-pipe at every", "brake-pipe at every")))
                .hasSize(4)
                .allSatisfy(mistake -> assertThat(mistake.found()).endsWith("is compared with itself"));
    }

    @Test
    void theHandleGoesWhereItHasAPlace() {
        Mistake position = only(mistakes(w.handle("ful-ep"), w.check()));
        assertThat(position.found()).isEqualTo("the handle has no position 'ful-ep'");
        assertThat(position.hint()).isEqualTo("did you mean 'full-ep'?");

        Mistake arc = only(mistakes(w.along("10 %", "dynamic"), w.check()));
        assertThat(arc.found()).isEqualTo("the handle has no arc 'dynamic'");
        assertThat(arc.expected()).isEqualTo("one of automatic-application, ep-application");

        assertThat(only(mistakes(w.along("110 %", "ep-application"), w.check())).found())
                .isEqualTo("the handle is moved to 110 % of an arc");
    }

    @Test
    void whatTheBenchDoesNotDriveIsToldWithWhatItDoes() {
        Mistake mistake = only(mistakes(
                Models.bench(Models.inputs(), List.of("handle")),
                Written.sequence(w.doing(new Stimulus.Deadman(true, w.place())), w.check())));

        assertThat(mistake.found()).isEqualTo("bench 'small-bench' does not drive 'deadman'");
        assertThat(mistake.hint()).isEqualTo("it drives handle");
    }

    @Test
    void aValueBeyondItsPointIsAMistake() {
        Mistake mistake = only(mistakes(w.doing(new Stimulus.Supply("ep", w.operand("10 Un"), w.place())), w.check()));

        assertThat(mistake.found()).startsWith("supply/ep at 1100 V is beyond what point");
        assertThat(mistake.expected()).isEqualTo("between 0 V and 1000 V");
    }

    @Test
    void oneThingIsDrivenOnceAtAnInstant() {
        Mistake mistake = only(mistakes(
                w.doing(new Stimulus.Deadman(true, w.place()), new Stimulus.Deadman(false, w.place())), w.check()));

        assertThat(mistake.found()).isEqualTo("'deadman' is driven twice at the same instant");
        assertThat(mistake.place()).isEqualTo(at(2));
    }

    @Test
    void aMoveOverATimeStandsAlone() {
        Stimulus ramp = new Stimulus.MoveHandle("full-ep", Optional.of(w.operand("2 s")), w.place());

        Mistake mistake = only(mistakes(w.doing(ramp, new Stimulus.Deadman(true, w.place())), w.check()));

        assertThat(mistake.found()).isEqualTo("a handle moved over a time stands together with what happens at once");
        assertThat(mistake.place()).isEqualTo(at(1));
    }

    @Test
    void aPointThatKnowsOnlyOnAndOffCannotBeMovedOverATime() {
        BenchFile all = Models.bench();
        List<Output> outputs = new ArrayList<>(all.outputs());
        Output handle = outputs.remove(0);
        String digital = outputs.get(outputs.size() - 1).point();
        outputs.add(new Output(handle.actuator(), digital, 0, 0.01, handle.place()));
        BenchFile bench = new BenchFile(
                all.file(),
                all.name(),
                all.link(),
                all.clockRateBound(),
                all.points(),
                all.inputs(),
                outputs,
                all.streams());
        Stimulus ramp = new Stimulus.MoveHandle("full-ep", Optional.of(w.operand("2 s")), w.place());

        Mistake mistake = only(mistakes(bench, Written.sequence(w.doing(ramp), w.check())));

        assertThat(mistake.found()).contains("'handle' is at digital-out point").contains("only on and off");
        assertThat(mistake.hint()).isEqualTo("leave out 'over'");
    }

    @Test
    void aNotchThatIsNotThereIsAMistake() {
        Mistake mistake = only(mistakes(w.doing(new Stimulus.PowerHandle(7, w.place())), w.check()));

        assertThat(mistake.found()).isEqualTo("the power handle has no notch 7");
        assertThat(mistake.expected()).isEqualTo("off or a notch from 1 to 4");
    }

    @Test
    void behindTheLastVehicleThereIsNothingToPart() {
        Mistake mistake =
                only(mistakes(w.doing(new Stimulus.Parting(Written.vehicle("last"), true, w.place())), w.check()));

        assertThat(mistake.found()).isEqualTo("behind vehicle 4 there is no coupling");
    }

    @Test
    void aStimulusNamesItsVehicle() {
        Mistake mistake =
                only(mistakes(w.doing(new Stimulus.AlarmValve(Written.vehicle("every"), true, w.place())), w.check()));

        assertThat(mistake.found()).isEqualTo("'every' vehicle stands where one is due");
    }

    private Expectation agrees(String signal, String with) {
        return new Expectation.Agrees(
                w.signal(signal), w.signal(with), w.operand("lapping-tolerance"), w.operand("3 s"), w.operand("2 s"));
    }
}
