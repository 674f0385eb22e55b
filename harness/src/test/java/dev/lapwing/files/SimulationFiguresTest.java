package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.fixture.Fixture;
import dev.lapwing.fixture.Simulation.ControllerKind;
import dev.lapwing.fixture.Simulation.Spread;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.fixture.SimulationFigure.Scope;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.source.Mistake;
import dev.lapwing.unit.ControllerUnderTest;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Every figure of a simulation, one by one. */
class SimulationFiguresTest {
    @TempDir
    private Path folder;

    @ParameterizedTest
    @EnumSource(SimulationFigure.class)
    void isMissedWhereTheControllerNeedsIt(SimulationFigure figure) throws IOException {
        List<Mistake> mistakes =
                load(line(figure).matcher(good()).replaceFirst("")).mistakes();
        boolean needed = figure.scope() != Scope.UNIT
                || ControllerUnderTest.figures(ControllerKind.CLASSIC).contains(figure);
        if (needed) {
            assertThat(mistakes)
                    .singleElement()
                    .satisfies(mistake -> assertThat(mistake.found())
                            .isEqualTo("'" + key(figure) + "' is missing in '" + block(figure) + "'"));
        } else {
            assertThat(mistakes).isEmpty();
        }
    }

    @ParameterizedTest
    @EnumSource(SimulationFigure.class)
    void isRefusedBeyondItsSaneRange(SimulationFigure figure) throws IOException {
        Unit unit = Unit.of(figure.dimension()).get(0);
        String tooMuch = new Quantity(figure.most() * 1.5, figure.dimension()).print(unit, 6);
        String text = line(figure)
                .matcher(good())
                .replaceFirst(Matcher.quoteReplacement("    " + key(figure) + ": " + tooMuch + "\n"));
        assertThat(load(text).mistakes()).singleElement().satisfies(mistake -> {
            assertThat(mistake.found()).isEqualTo("'" + tooMuch + "' is out of range");
            assertThat(mistake.place().line()).isEqualTo(lineOf(text, "    " + key(figure) + ": " + tooMuch));
            assertThat(mistake.place().column()).isEqualTo(key(figure).length() + 7);
        });
    }

    @Test
    void aHalfWidthInPercentIsAShareOfTheNominal() throws IOException {
        Spread length = spread("pipe-length", "22 m ± 1 %");
        assertThat(length.nominal()).isEqualTo(22);
        assertThat(length.halfWidth()).isEqualTo(0.22);
        assertThat(spread("lap-drift", "-2 psi/min ± 10 %").halfWidth()).isPositive();
    }

    @Test
    void aHalfWidthOfAShareIsAbsolute() throws IOException {
        assertThat(spread("critical-pressure-ratio", "30 % ± 2 %").halfWidth()).isEqualTo(0.02);
    }

    @Test
    void plusMinusMayBeWrittenInThreeWays() throws IOException {
        Spread due = spread("valve-pick-up-time", "45 ms ± 5 ms");
        assertThat(spread("valve-pick-up-time", "45 ms +- 5 ms")).isEqualTo(due);
        assertThat(spread("valve-pick-up-time", "45 ms +/- 5 ms")).isEqualTo(due);
        assertThat(due.halfWidth()).isEqualTo(0.005);
    }

    @Test
    void withoutATolerancTheHalfWidthIsZero() throws IOException {
        assertThat(spread("pipe-length", "22 m").halfWidth()).isZero();
    }

    private Spread spread(String key, String written) throws IOException {
        Pattern line = Pattern.compile("^    " + key + ":.*\n", Pattern.MULTILINE);
        String text = line.matcher(good()).replaceFirst("    " + key + ": " + written + "\n");
        Fixture fixture = load(text).value().orElseThrow();
        return fixture.simulation().figures().entrySet().stream()
                .filter(entry -> entry.getKey().path().endsWith("." + key))
                .findFirst()
                .orElseThrow()
                .getValue();
    }

    private Loaded<Fixture> load(String text) throws IOException {
        return FixtureFiles.load(Files.writeString(folder.resolve("fixture.yaml"), text, UTF_8));
    }

    private static String good() throws IOException {
        return Files.readString(Good.FIXTURE, UTF_8);
    }

    private static Pattern line(SimulationFigure figure) {
        return Pattern.compile("^    " + key(figure) + ":.*\n", Pattern.MULTILINE);
    }

    private static int lineOf(String text, String start) {
        return (int) text.substring(0, text.indexOf(start)).lines().count() + 1;
    }

    private static String key(SimulationFigure figure) {
        return figure.path().substring(figure.path().indexOf('.') + 1);
    }

    private static String block(SimulationFigure figure) {
        return figure.path().substring(0, figure.path().indexOf('.'));
    }
}
