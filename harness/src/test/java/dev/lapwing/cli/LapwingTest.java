package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

class LapwingTest {

    @Test
    void theVersionIsOneLineOnStandardOutput() {
        for (String[] command : new String[][] {{"--version"}, {"run", "--version"}, {"bench", "show", "--version"}}) {
            StringWriter out = new StringWriter();
            int exit = Lapwing.execute(command, new PrintWriter(out, true), new PrintWriter(out, true));

            assertThat(exit).isZero();
            assertThat(out.toString().lines()).singleElement().asString().startsWith("lapwing ");
        }
    }

    @Test
    void aMistakeInTheCommandIsNamedInOneLineWithWhatWasPerhapsMeant() {
        assertThat(refused("rn"))
                .startsWith("lapwing: there is no command 'rn'")
                .contains("did you mean 'run'?");
        assertThat(refused("run", "--sed", "3", "x"))
                .startsWith("lapwing: there is no option '--sed'; did you mean '--seed'?");
        assertThat(refused("judge", "a", "b")).startsWith("lapwing: one argument too many: 'b'");
        assertThat(refused("run", "--pressures", "torr", "x")).contains("'torr' is none of psi, bar, kPa");
        assertThat(refused("run", "--seed", "x", "y")).contains("'x' is no whole number");
        assertThat(refused("run")).contains("'SEQUENCE'").contains("'lapwing run --help'");
    }

    @Test
    void aFileOfAnotherKindIsOneMistake() {
        assertThat(refused("run", "fixtures/classic.yaml"))
                .contains("this is a fixture; expected a sequence")
                .hasLineCount(2);
    }

    @Test
    void aFolderWithoutFilesNamesTheFoldersThatHaveSome() {
        assertThat(refused("run", "sequences")).contains("overhaul").contains("nothing was run");
    }

    @Test
    void aFileThatIsNotThereIsCalledByItsNeighboursName() {
        assertThat(refused("run", "--unit", "fixtures/clasic.yaml", "sequences/overhaul/05-lap.yaml"))
                .contains("did you mean 'classic.yaml'?");
    }

    @Test
    void aSimulatedRunIsNeverEvidence() {
        assertThat(refused("run", "--class", "evidence", "sequences/overhaul/05-lap.yaml"))
                .contains("a simulated run is dry");
    }

    private static String refused(String... arguments) {
        StringWriter err = new StringWriter();
        int exit = Lapwing.execute(arguments, new PrintWriter(new StringWriter(), true), new PrintWriter(err, true));
        assertThat(exit).isEqualTo(ExitCode.USAGE.code());
        return err.toString();
    }
}
