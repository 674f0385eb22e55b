package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.Input;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.NewCalibration;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.quantity.Unit;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class CalibrationDialogueTest {
    private static final BenchFile FILE =
            BenchFiles.load(Path.of("bench-config/simulated.yaml")).value().orElseThrow();
    private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

    private final ReferenceRig rig = new ReferenceRig("BP1");
    private final StringWriter said = new StringWriter();

    @Test
    void aTransducerThatReadsLowIsPutRight() throws Exception {
        Optional<NewCalibration> made = calibrated(
                "0 psi",
                "75 psi",
                "150 psi",
                "75 psi",
                "0 psi",
                "done",
                "line",
                "0.1 psi",
                "HLR-REF-3",
                "2027-11-25",
                "J. Miller",
                "write");

        assertThat(made).isPresent();
        assertThat(made.get().points().get(0).counts()).isCloseTo(2100, within(1.0));
        assertThat(made.get().points().get(1).counts()).isCloseTo(62100, within(1.0));
        assertThat(made.get().standard()).isBetween(Unit.PSI.toBase(0.05), Unit.PSI.toBase(0.06));
        // 0.05 psi of the reference and 0.05 psi of drift, opposite at both ends, and a little of the readings.
        assertThat(made.get().span()).isBetween(Unit.PSI.toBase(0.1414), Unit.PSI.toBase(0.16));
        assertThat(made.get().noise()).isCloseTo(Unit.PSI.toBase(10 * 150 / 60000.0), within(Unit.PSI.toBase(0.005)));
        assertThat(made.get().date()).isEqualTo(TODAY);
        assertThat(made.get().operator()).isEqualTo("J. Miller");
        assertThat(said.toString())
                .contains("off by 0.25 psi", "reference: 0.05 psi", "nothing is armed")
                .contains("of the difference between both ends of the range, with the drift in the file: 0.1");
        assertThat(rig.armed()).isFalse();
    }

    @Test
    void aCurveIsKeptWhereItIsChosen() throws Exception {
        Optional<NewCalibration> made = calibrated(
                "0 psi",
                "50 psi",
                "100 psi",
                "150 psi",
                "100 psi",
                "0 psi",
                "done",
                "curve 3",
                "curve 2",
                "0.1 psi",
                "HLR-REF-3",
                "2027-11-25",
                "J. Miller",
                "write");

        assertThat(made).isPresent();
        assertThat(made.get().points().get(0).counts()).isCloseTo(2100, within(1.0));
        assertThat(said.toString())
                .contains("curve 2 0", "No curve of degree 3: a curve of degree 3 wants 5 different values")
                .contains("'curve 3' is no answer to that");
    }

    @Test
    void nothingIsFittedBeforeItFellToo() throws Exception {
        assertThat(calibrated("0 psi", "100 psi", "done", "stop")).isEmpty();

        assertThat(said.toString()).contains("Not yet", "no reading was taken while falling");
    }

    @Test
    void whatIsNoPressureIsAskedAgain() throws Exception {
        assertThat(calibrated("50", "20 V", "50 psi", "back", "back", "stop")).isEmpty();

        assertThat(said.toString())
                .contains("'50' has no unit", "'20 V' is of another kind", "Dropped 50.00 psi", "There is none.");
    }

    @Test
    void aPressureThatStillMovesIsNotTaken() throws Exception {
        rig.creep(1_000);

        assertThat(calibrated("50 psi", "stop")).isEmpty();

        assertThat(said.toString()).contains("Not taken: it still moves");
    }

    @Test
    void aRangeThatIsNarrowerThanBeforeAndAReferenceThatIsFarOffAreSaid() throws Exception {
        assertThat(calibrated("0 psi", "10 psi", "0 psi", "done", "line", "20 psi", "stop"))
                .isEmpty();

        assertThat(said.toString())
                .contains("! The readings reach from 0.00 psi to 10.00 psi, the calibration in force from 0.00 psi to"
                        + " 150.00 psi. What will be read far beyond the new ends passes nothing.")
                .contains("'20 psi' is no answer to that; write it above zero and below the calibrated range")
                .doesNotContain("That is far off");
    }

    @Test
    void aValueThatIsNotWhatWasAppliedIsSaid() throws Exception {
        rig.applyOtherwise(20);

        assertThat(calibrated("50 psi", "stop")).isEmpty();

        assertThat(said.toString()).contains("! That is far off: look at the reference and at what was typed");
    }

    @Test
    void readingsThatWereTakenOutliveTheCable() throws Exception {
        rig.pulledAfter("done");

        assertThat(calibrated(
                        "0 psi",
                        "150 psi",
                        "0 psi",
                        "done",
                        "line",
                        "0.1 psi",
                        "HLR-REF-3",
                        "2027-11-25",
                        "J. Miller",
                        "write"))
                .isPresent();

        assertThat(said.toString()).contains("the cable is off. The readings are taken; go on.");
    }

    @Test
    void withoutTheWordNothingIsConfirmed() throws Exception {
        assertThat(calibrated(
                        "0 psi",
                        "100 psi",
                        "0 psi",
                        "done",
                        "table",
                        "-1 psi",
                        "0.1 psi",
                        "HLR-REF-3",
                        "2020-01-01",
                        "2027-11-25",
                        "J. Miller",
                        "yes",
                        "stop"))
                .isEmpty();

        assertThat(said.toString())
                .contains("'-1 psi' is no answer", "'2020-01-01' is no answer", "'yes' is no answer to that");
    }

    private Optional<NewCalibration> calibrated(String... answers) throws Exception {
        Input input = FILE.inputs().stream()
                .filter(candidate -> candidate.signal().key().equals("brake-pipe@1"))
                .findFirst()
                .orElseThrow();
        Operator operator = new Operator(rig.operator(answers), new PrintWriter(said, true), () -> false);
        return new CalibrationDialogue(FILE, input, PressureDisplay.PSI, operator, TODAY).on(rig);
    }
}
