package dev.lapwing.plan;

import static dev.lapwing.plan.Planned.only;
import static dev.lapwing.plan.Planned.plan;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.Stimulus;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** What people read of a plan. */
class SentencesTest {

    private final Written w = new Written();

    @Test
    void aCrossingIsSaidWithItsLevelAndItsLimit() {
        Expectation fills = w.risesAbove("brake-cylinder at last", "ep-rise-level", "ep-rise-time");

        assertThat(said(fills)).isEqualTo("brake cylinder at vehicle 4 rises above 45 psi within 3 s (ep-rise-time)");
        assertThat(said(w.risesAbove("brake-pipe at 2", "5 psi", "not-too-soon")))
                .isEqualTo("brake pipe at vehicle 2 rises above 5 psi not before 2 s (not-too-soon)");
    }

    @Test
    void pressuresAreSaidInTheReadersUnit() {
        Plan plan = plan(
                Models.unit(),
                Written.sequence(w.expect("it", w.risesAbove("brake-cylinder at 1", "45 psi", "ep-rise-time"))),
                PressureDisplay.BAR);

        assertThat(only(plan).sentence()).contains("rises above 3.103 bar");
    }

    @Test
    void theLawIsSaidWithItsPressureHere() {
        Plan plan = plan(w.along("50 %", "ep-application"), w.expect("laps", w.settlesAtLaw("self-lapping")));

        assertThat(only(plan).sentence())
                .isEqualTo("brake cylinder at vehicle 4 settles within ± 2 psi (lapping-tolerance) of the"
                        + " self-lapping law, 25 psi, 3 s after the stimulus, mean over 2 s");
    }

    @Test
    void levelsAreSaidAsTheyStand() {
        assertThat(said(w.settlesAt("brake-cylinder at 1", "released-level", null)))
                .isEqualTo("brake cylinder at vehicle 1 settles at or below 1 psi (released-level), 3 s after the"
                        + " stimulus, mean over 2 s");
        assertThat(said(w.stays("brake-pipe at 1", "charged-band", "5 s")))
                .isEqualTo("brake pipe at vehicle 1 stays between 69 psi and 71.5 psi (charged-band), watched for 5 s");
        assertThat(said(new Expectation.Holds(
                        w.signal("brake-pipe at last"), w.operand("pipe-leak"), w.operand("60 s"), w.operand("2 min"))))
                .isEqualTo("fall of brake pipe at vehicle 4 is at most 1 psi/min (pipe-leak), from 60 s on over 2 min");
    }

    @Test
    void risesAndFallsAreSaidAsSuch() {
        assertThat(said(moves("step-up")))
                .startsWith("brake cylinder at vehicle 1 rises by at least 1.5 psi (step-up)");
        assertThat(said(moves("step-down")))
                .startsWith("brake cylinder at vehicle 1 falls by at least 1.5 psi (step-down)");
        assertThat(said(moves("lapping-tolerance")))
                .startsWith("brake cylinder at vehicle 1 changes by at most 2 psi either way (lapping-tolerance)");
        assertThat(said(moves("lapping-hysteresis")))
                .startsWith("brake cylinder at vehicle 1 changes by at most 2 psi (lapping-hysteresis)");
    }

    @Test
    void wiresAreSaidToSwitch() {
        SignalRef.Wire wire = (SignalRef.Wire) w.signal("wire ep-supply-lamp");

        assertThat(said(new Expectation.Switches(wire, false, w.operand("ep-rise-time"))))
                .isEqualTo("ep supply lamp wire switches off within 3 s (ep-rise-time)");
        assertThat(said(new Expectation.PulsesAtMost(wire, w.operand("lapping-pulses"), Optional.of(w.operand("5 s")))))
                .isEqualTo("ep supply lamp wire switches on at most 2 times (lapping-pulses), watched for 5 s");
    }

    @Test
    void conditionsAreSaidWithAndAndOr() {
        Condition both = new Condition.AllOf(List.of(
                w.wire("application", true),
                new Condition.AnyOf(List.of(w.wire("holding", false), w.above("brake-pipe at 1", "charged-level")))));

        assertThat(said(new Expectation.Never(both, Optional.of(w.operand("20 ms")), Optional.of(w.operand("5 s")))))
                .isEqualTo("never application wire on and (holding wire off or brake pipe at vehicle 1 above 65 psi)"
                        + " for longer than 20 ms, watched for 5 s");
        assertThat(said(new Expectation.ComesBefore(
                        w.wire("holding", true),
                        w.wire("application", true),
                        w.operand("ep-rise-time"),
                        w.operand("9 s"))))
                .isEqualTo("holding wire on comes before application wire on by at most 3 s (ep-rise-time)");
    }

    @Test
    void whatTheBenchDoesIsSaidInTheWordsOfTheTrade() {
        assertThat(done(new Stimulus.MoveHandle("full-ep", Optional.empty(), w.place())))
                .isEqualTo("handle to full-ep");
        assertThat(done(new Stimulus.MoveHandleAlong(
                        w.operand("30 %"), "ep-application", Optional.of(w.operand("500 ms")), w.place())))
                .isEqualTo("handle to 30 % of ep-application over 500 ms");
        assertThat(done(new Stimulus.Deadman(false, w.place()), new Stimulus.Acknowledgement(true, w.place())))
                .isEqualTo("deadman released, acknowledgement pressed");
        assertThat(done(new Stimulus.MasterSwitch(true, w.place()), new Stimulus.PowerHandle(3, w.place())))
                .isEqualTo("master switch on, power handle to notch 3");
        assertThat(done(new Stimulus.Reverser(Stimulus.Direction.FORWARD, w.place())))
                .isEqualTo("reverser forward");
        assertThat(done(new Stimulus.Speed(w.operand("30 km/h"), w.place()))).isEqualTo("speed 30 km/h");
        assertThat(done(supply("0 Un"))).isEqualTo("ep supply off");
        assertThat(done(supply("0.7 Un"))).isEqualTo("ep supply at 0.7 Un");
    }

    @Test
    void whatHappensToTheTrainIsSaidWithItsPlace() {
        assertThat(done(new Stimulus.WireFeed("application", true, w.place())))
                .isEqualTo("application wire fed from another cab");
        assertThat(done(new Stimulus.AlarmValve(Written.vehicle("2"), true, w.place())))
                .isEqualTo("alarm valve at vehicle 2 open");
        assertThat(done(new Stimulus.CrewValve(Written.vehicle("last"), false, w.place())))
                .isEqualTo("crew valve at vehicle 4 shut");
        assertThat(done(new Stimulus.HoseBurst(Stimulus.PipeName.BRAKE_PIPE, Written.vehicle("2"), true, w.place())))
                .isEqualTo("brake pipe hose behind vehicle 2 burst");
        assertThat(done(new Stimulus.Parting(Written.vehicle("2"), true, w.place())))
                .isEqualTo("train parted behind vehicle 2");
        assertThat(done(new Stimulus.Cock(Stimulus.PipeName.BRAKE_PIPE, Written.vehicle("2"), true, w.place())))
                .isEqualTo("brake pipe cock behind vehicle 2 shut");
        assertThat(done(new Stimulus.OtherCabCharge(true, w.place()))).isEqualTo("other cab charging");
    }

    @Test
    void figuresInIdsDoNotDependOnTheReader() {
        assertThat(List.of("0.5 psi", "250 ms", "12 s", "30 km/h", "3 times", "0.7 Un", "7.5 %", "2 min"))
                .allSatisfy(text -> assertThat(FigureText.inId(w.operand(text))).isEqualTo(text.replace(" times", "")));
    }

    private Stimulus supply(String level) {
        return new Stimulus.Supply("ep", w.operand(level), w.place());
    }

    private Expectation moves(String change) {
        return new Expectation.Moves(
                w.signal("brake-cylinder at 1"), w.operand(change), w.operand("3 s"), w.operand("2 s"));
    }

    private String said(Expectation expectation) {
        return only(plan(w.expect("it", expectation))).sentence();
    }

    private String done(Stimulus... stimuli) {
        return plan(w.doing(stimuli), w.check()).steps().get(0).text();
    }
}
