package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.fixture.Figure;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.fixture.Simulation.Spread;
import dev.lapwing.fixture.Simulation.WireFault;
import dev.lapwing.fixture.SimulationFigure;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.source.Place;
import dev.lapwing.uncertainty.DecisionRule;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a fixture's file says is what its model holds. */
class FixtureFilesTest {
    @TempDir
    private Path folder;

    @Test
    void wiringIsReadAsWritten() {
        Fixture fixture = load(Good.FIXTURE);
        assertThat(fixture.name()).isEqualTo("fixture");
        assertThat(fixture.title()).isEqualTo("the unit of the tests");
        assertThat(fixture.wiring().vehicles()).isEqualTo(4);
        assertThat(fixture.wiring().nominalVolts()).isEqualTo(110);
        assertThat(fixture.wiring().handle().angle("ep-application", 0.5)).contains(20.0);
        assertThat(fixture.wiring().wires()).containsExactly("application", "holding", "traction");
        assertThat(fixture.wiring().design().is(DesignOption.DEADMAN_INSTANT)).isTrue();
    }

    @Test
    void aGuardedLimitMayStateItsRisk() {
        Figure band = load(Good.FIXTURE).acceptance().figures().get("charged-band");
        assertThat(band.rule()).isEqualTo(DecisionRule.guarded(0.01));
        assertThat(band.rule().text()).isEqualTo("guarded, risk 1 %");
    }

    @Test
    void aLimitKnowsItsEndsItsRuleItsSourceAndItsPlace() {
        Figure rise = load(Good.FIXTURE).acceptance().figures().get("ep-rise-time");
        assertThat(rise.upper()).hasValue(3);
        assertThat(rise.lower()).isEmpty();
        assertThat(rise.value()).isEmpty();
        assertThat(rise.rule()).isEqualTo(DecisionRule.SIMPLE);
        assertThat(rise.largestUncertainty()).hasValue(0.1);
        assertThat(rise.source()).isEqualTo("HLR-BT-014, 5.7");
        assertThat(rise.place()).isEqualTo(placeOf("    ep-rise-time:", Good.FIXTURE));
    }

    @Test
    void aValueIsNoLimit() {
        Figure level = load(Good.FIXTURE).acceptance().figures().get("charged-level");
        assertThat(level.isLimit()).isFalse();
        assertThat(level.value()).hasValue(Quantity.of(65, Unit.PSI).base());
    }

    @Test
    void aLawIsReadPointByPoint() {
        assertThat(load(Good.FIXTURE).acceptance().laws().get("self-lapping").at(0.5))
                .isEqualTo(Quantity.of(25, Unit.PSI).base());
    }

    @Test
    void wireFaultsAreRead() {
        assertThat(load(Good.FIXTURE).simulation().wireFaults())
                .containsExactly(
                        new WireFault("holding", 2, WireFault.Kind.OPEN, "", 0),
                        new WireFault("application", 1, WireFault.Kind.CROSSED, "holding", 0),
                        new WireFault("application", 3, WireFault.Kind.RESISTANCE, "", 20));
    }

    @Test
    void changesAreLaidOverWhatIsBelow() {
        Fixture fixture = load(Good.FIXTURE_ON_TOP);
        assertThat(fixture.title()).isEqualTo("the same unit with a slow deadman");
        assertThat(fixture.name()).isEqualTo("fixture-on-top");
        assertThat(fixture.simulation().figures().get(SimulationFigure.DEADMAN_TIME))
                .isEqualTo(new Spread(0.6, 0.02));
        assertThat(fixture.simulation().figures().get(SimulationFigure.PIPE_LENGTH))
                .isEqualTo(load(Good.FIXTURE).simulation().figures().get(SimulationFigure.PIPE_LENGTH));
        assertThat(fixture.simulation().wireFaults()).isEmpty();
        assertThat(fixture.wiring()).isEqualTo(load(Good.FIXTURE).wiring());
    }

    @Test
    void aNewLimitInheritsNothingOfTheOldOne() {
        Figure rise = load(Good.FIXTURE_ON_TOP).acceptance().figures().get("ep-rise-time");
        assertThat(rise.lower()).hasValue(2);
        assertThat(rise.upper()).hasValue(3.5);
        assertThat(rise.rule()).isEqualTo(DecisionRule.GUARDED);
        assertThat(rise.largestUncertainty()).isEmpty();
        assertThat(rise.source()).isEqualTo("HLR-BT-015, 5.7");
    }

    @Test
    void everyFigureKeepsThePlaceAndFileItWasWrittenIn() {
        var figures = load(Good.FIXTURE_ON_TOP).acceptance().figures();
        assertThat(figures.get("ep-rise-time").place()).isEqualTo(placeOf("    ep-rise-time:", Good.FIXTURE_ON_TOP));
        assertThat(figures.get("step-up").place()).isEqualTo(placeOf("    step-up:", Good.FIXTURE));
    }

    @Test
    void everyFileThatWasReadIsNamed() {
        assertThat(FixtureFiles.load(Good.FIXTURE_ON_TOP).files()).containsExactly(Good.FIXTURE_ON_TOP, Good.FIXTURE);
    }

    @Test
    void aNewLimitWithoutASourceDoesNotBorrowTheOldOne() throws IOException {
        Files.copy(Good.FIXTURE, folder.resolve("fixture.yaml"));
        Path file = Files.writeString(
                folder.resolve("on-top.yaml"),
                "fixture: x\nbased-on: fixture.yaml\nacceptance: {figures: {ep-rise-time: {at-most: 4 s}}}\n",
                UTF_8);
        assertThat(FixtureFiles.load(file).mistakes())
                .singleElement()
                .satisfies(mistake -> assertThat(mistake.found()).startsWith("'source' is missing"));
    }

    private static Fixture load(Path path) {
        return FixtureFiles.load(path).value().orElseThrow();
    }

    private static Place placeOf(String start, Path file) {
        try {
            List<String> lines = Files.readAllLines(file, UTF_8);
            for (int i = 0; i < lines.size(); i++) {
                if (lines.get(i).startsWith(start)) {
                    return new Place(
                            file.toString(),
                            i + 1,
                            start.length() - start.stripLeading().length() + 1);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        throw new AssertionError(start + " is not in " + file);
    }
}
