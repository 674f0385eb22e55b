package dev.lapwing.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

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

    @ParameterizedTest
    @ValueSource(strings = {"show", "listen", "exercise", "calibrate --signal brake-pipe@1"})
    void aBenchThatIsThereOnlyWhileARunLastsIsRefusedByEveryCommissioningCommand(String command) {
        String words = "bench " + command + " bench-config/simulated.yaml";
        assertThat(refused(words.split(" ")))
                .startsWith("lapwing: bench-config/simulated.yaml: the link of this bench is 'simulated'")
                .contains("'lapwing bench serve --serial'")
                .hasLineCount(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "bench show --serial x --baud 5       | '5' is no number of bits a second from 1200 to 12000000",
                "bench show --serial x --speed 0.5    | '0.5' is no speed from 1 to 100 times",
                "bench show --serial x --pings 0      | '0' is no number of round trips from 1 to 100000",
                "bench serve --own-broker 70000       | '70000' is no TCP port from 1 to 65535",
                "bench listen x --for 10              | '10' is no time above 0 s up to a day; write 10s",
                "bench listen x --for 25000min        | '25000min' is no time above 0 s up to a day",
                "coverage --runs 0                    | '0' is no number of runs from 1 to 1000000"
            })
    void aFigureOutsideItsRangeIsRefusedWithTheRange(String command, String why) {
        assertThat(refused(command.split(" "))).contains(why);
    }

    @Test
    void theHelpOfEveryBenchCommandGivesEachFigureItsRange() {
        assertThat(inOneLine(help(List.of("bench", "serve"))))
                .contains("1200 to 12000000; 921600 by default")
                .contains("1 to 100, as far as the line carries")
                .contains("1883 unless another is given, 1 to 65535")
                .contains("0 s to a day, such as 250ms or 2s");
        assertThat(inOneLine(help(List.of("bench", "show")))).contains("timed, 1 to 100000; 200 by default");
        assertThat(inOneLine(help(List.of("bench", "listen")))).contains("at most a day. Until Ctrl-C by default");
    }

    private static String inOneLine(String text) {
        return text.replaceAll("\\s+", " ");
    }

    @Test
    void everyCommandSaysInItsHelpWhatItsExitCodesMean() {
        List<List<String>> commands = commands(new CommandLine(new Lapwing()), List.of());
        assertThat(commands).hasSizeGreaterThan(10);
        for (List<String> command : commands) {
            assertThat(help(command))
                    .as("help of %s", command)
                    .containsOnlyOnce("Exit codes:")
                    .containsPattern("\n  64   \\w")
                    .containsPattern("\n  70   a bug of the harness");
            // 'bench' alone does nothing but show its own help.
            assertThat(help(command).contains("\n  0    ")).isEqualTo(!command.equals(List.of("bench")));
        }
        assertThat(help(List.of("report"))).contains("whatever the verdict: 'lapwing judge' ends with that");
    }

    private static List<List<String>> commands(CommandLine line, List<String> named) {
        List<List<String>> all = new ArrayList<>(List.of(named));
        line.getSubcommands().forEach((name, below) -> {
            List<String> words = new ArrayList<>(named);
            words.add(name);
            all.addAll(commands(below, words));
        });
        return all;
    }

    private static String help(List<String> command) {
        List<String> words = new ArrayList<>(command);
        words.add("--help");
        StringWriter out = new StringWriter();
        Lapwing.execute(words.toArray(String[]::new), new PrintWriter(out, true), new PrintWriter(out, true));
        return out.toString();
    }

    private static String refused(String... arguments) {
        StringWriter err = new StringWriter();
        int exit = Lapwing.execute(arguments, new PrintWriter(new StringWriter(), true), new PrintWriter(err, true));
        assertThat(exit).isEqualTo(ExitCode.USAGE.code());
        return err.toString();
    }
}
