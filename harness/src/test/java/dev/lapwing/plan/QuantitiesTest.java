package dev.lapwing.plan;

import static dev.lapwing.plan.Mistaken.expecting;
import static dev.lapwing.plan.Mistaken.mistakes;
import static dev.lapwing.plan.Mistaken.only;
import static dev.lapwing.plan.Planned.expectations;
import static dev.lapwing.plan.Planned.plan;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.naming.PressureKind;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.sequence.StaircaseTerm;
import dev.lapwing.sequence.Step;
import dev.lapwing.source.Mistake;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Expectations of defined quantities: what is planned, what people read, and which mistakes are told. */
class QuantitiesTest {
    private static final String CYLINDER = "brake-cylinder at last";

    private final Written w = new Written();

    @Test
    void aTermOfAResponseIsSaidWithItsStates() {
        assertThat(said(responds(ResponseTerm.TIME_TO_SHARE, "ep-rise-time", "90 %", null)))
                .isEqualTo("time to 90 % of the change of brake cylinder at vehicle 4 is at most 3 s (ep-rise-time),"
                        + " change from just before the stimulus to the mean over 500 ms from 6 s after the stimulus");
        assertThat(said(responds(ResponseTerm.SETTLING_DURATION, "ep-rise-time", null, "5 %")))
                .startsWith("settling duration from 50 % into 5 % of the change either way of brake cylinder");
        assertThat(said(new Expectation.Begins(w.signal("brake-pipe at 1"), false, w.operand("ep-rise-time"))))
                .isEqualTo("brake pipe at vehicle 1 begins to fall within 3 s (ep-rise-time)");
    }

    @Test
    void aTermIsWatchedToTheEndOfItsLastState() {
        Check check = check(responds(ResponseTerm.OVERSHOOT, "lapping-tolerance", null, null));

        assertThat(check.watchSeconds()).hasValue(6.5);
        assertThat(((Check.Response) check).states().before()).isEqualTo(0.5);
    }

    @Test
    void aTermIsHeldAgainstALimitOfItsKind() {
        assertThat(only(expecting(w, responds(ResponseTerm.OVERSHOOT, "ep-rise-time", null, null)))
                        .found())
                .contains("ep-rise-time")
                .contains("is a time");
        assertThat(only(expecting(w, responds(ResponseTerm.TRANSITION_DURATION, "step-up", null, null)))
                        .found())
                .contains("is a pressure");
    }

    @Test
    void aRateIsOfAPressureOverAWidthThatIsWatched() {
        Expectation ofAVoltage = new Expectation.Steepest(
                w.signal("supply ep"), false, w.operand("pipe-leak"), w.operand("300 ms"), w.operand("5 s"));
        assertThat(only(expecting(w, ofAVoltage)).found()).contains("is no pressure");
        Expectation tooShort = new Expectation.Steepest(
                w.signal(CYLINDER), false, w.operand("pipe-leak"), w.operand("3 s"), w.operand("1 s"));
        assertThat(only(expecting(w, tooShort)).found()).isEqualTo("'over' (1 s) is shorter than 'width' (3 s)");
    }

    @Test
    void aSpacingIsKnownBetterThanByItsOwnLength() {
        Subject unit = Models.with(Models.unit(), Models.atLeast("wave-speed", "250 m/s"));
        Plan plan = plan(unit, Written.sequence(w.expect("wave", travels(Optional.of("500 mm")))), PressureDisplay.PSI);
        assertThat(((Check.Travel) Planned.only(plan).check()).spacingWithin()).isEqualTo(0.5);
        assertThat(mistakes(w.expect("wave", travels(Optional.of("22 m")))).toString())
                .contains("a spacing of 22 m that may be off by 22 m");
    }

    @Test
    void aWaveGoesPastEveryVehicle() {
        Subject unit = Models.with(Models.unit(), Models.atLeast("wave-speed", "250 m/s"));
        Plan plan = plan(unit, Written.sequence(w.expect("wave", travels())), PressureDisplay.PSI);
        PlannedExpectation wave = Planned.only(plan);

        assertThat(wave.check().signals()).hasSize(4);
        assertThat(((Check.Travel) wave.check()).spacingWithin()).isCloseTo(0.22, within(1e-12));
        assertThat(wave.sentence())
                .isEqualTo("speed at which the fall of the brake pipe goes along the train is at least 250 m/s"
                        + " (wave-speed)");
    }

    @Test
    void aStaircaseHasTheLevelsThatWereRememberedUnderItsName() {
        Plan plan = plan(climb("going up"), w.expect("straight", graduates("going up", StaircaseTerm.LINEARITY)));
        Check.Staircase check = (Check.Staircase)
                expectations(plan).reduce((a, b) -> b).orElseThrow().check();

        assertThat(check.levels())
                .extracting(Check.Plateau::remembered)
                .containsExactly("going up, 10 %", "going up, 50 %", "going up, 100 %");
        assertThat(check.levels().get(1).degrees()).isCloseTo(20, within(1e-9));
    }

    @Test
    void aStaircaseThatNobodyClimbedIsAMistake() {
        Mistake mistake = only(
                mistakes(climb("going up"), w.expect("straight", graduates("going upp", StaircaseTerm.LINEARITY))));

        assertThat(mistake.found())
                .isEqualTo("no level was remembered under a name that begins with 'going upp,' before this");
        assertThat(mistake.hint()).isEqualTo("did you mean 'going up'?");
    }

    @Test
    void whatRecoversWasRememberedBefore() {
        Expectation back =
                new Expectation.Recovers(w.signal(CYLINDER), "before", w.operand("1 psi"), w.operand("ep-rise-time"));
        assertThat(only(expecting(w, back)).found()).isEqualTo("no level was remembered as 'before' before this");
        Expectation noBand =
                new Expectation.Recovers(w.signal(CYLINDER), "up", w.operand("0 psi"), w.operand("ep-rise-time"));
        assertThat(only(mistakes(
                                w.handle("full-ep"),
                                w.expect("full", w.settlesAtLaw("self-lapping", "up")),
                                w.expect("back", noBand)))
                        .found())
                .isEqualTo("a band of 0 psi");
    }

    private Step climb(String name) {
        return w.forEach(
                "demand",
                List.of("10 %", "50 %", "100 %"),
                w.along("<demand>", "ep-application"),
                w.expect("laps", w.settlesAtLaw("self-lapping", name + ", <demand>")));
    }

    private Expectation graduates(String levels, StaircaseTerm term) {
        return new Expectation.Graduates(
                levels, term, Optional.empty(), Optional.empty(), w.operand("lapping-tolerance"), w.place());
    }

    private Expectation travels() {
        return travels(Optional.empty());
    }

    private Expectation travels(Optional<String> spacingWithin) {
        return new Expectation.Travels(
                PressureKind.BRAKE_PIPE,
                false,
                w.operand("22 m"),
                spacingWithin.map(w::operand),
                w.operand("wave-speed"),
                w.operand("3 s"),
                w.place());
    }

    private Expectation responds(ResponseTerm term, String limit, String share, String band) {
        return new Expectation.Responds(
                w.signal(CYLINDER),
                term,
                Optional.ofNullable(share).map(w::operand),
                Optional.ofNullable(band).map(w::operand),
                Optional.empty(),
                Optional.empty(),
                false,
                w.operand(limit),
                w.operand("6 s"),
                w.operand("500 ms"));
    }

    private String said(Expectation expectation) {
        return Planned.only(plan(w.expect("it", expectation))).sentence();
    }

    private Check check(Expectation expectation) {
        return Planned.only(plan(w.expect("it", expectation))).check();
    }
}
