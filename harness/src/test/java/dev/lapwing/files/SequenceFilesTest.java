package dev.lapwing.files;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.lapwing.naming.Ability;
import dev.lapwing.naming.DesignOption;
import dev.lapwing.naming.PressureKind;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import dev.lapwing.sequence.AlwaysProperty;
import dev.lapwing.sequence.Condition;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.Sequence;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.Step;
import dev.lapwing.sequence.Stimulus;
import dev.lapwing.sequence.VehicleRef;
import dev.lapwing.source.Place;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a sequence's file says is what its model holds. */
class SequenceFilesTest {
    private static final String EXPECTATION = """
              - expect:
                  a: {rises-above: {signal: brake-pipe at first, level: 65 psi, within: charge-time}}
            """;

    @TempDir
    private Path folder;

    @Test
    void theHeadIsReadAsWritten() {
        Sequence sequence = SequenceFiles.load(Good.SEQUENCE).value().orElseThrow();
        assertThat(sequence.name()).isEqualTo("sequence");
        assertThat(sequence.title()).isEqualTo("Everything at once");
        assertThat(sequence.purpose()).isEqualTo("Shows every word of the language, so that none is forgotten.");
        assertThat(sequence.needs()).containsExactly(Ability.EP_BRAKE, Ability.AUTOMATIC_BRAKE, Ability.DEADMAN);
        assertThat(sequence.needsDesign()).containsExactly(DesignOption.EP_KEPT, DesignOption.DEADMAN_INSTANT);
        assertThat(sequence.continues()).isTrue();
        assertThat(sequence.breaks()).containsExactly(AlwaysProperty.NO_CHARGE_OUT_OF_RELEASE);
        assertThat(sequence.parts()).containsOnlyKeys("open-cab", "apply", "watch", "supplies-on", "close-cab");
    }

    @Test
    void everyFileThatWasReadIsNamed() {
        assertThat(SequenceFiles.load(Good.SEQUENCE).files())
                .containsExactly(Good.SEQUENCE, Good.PARTS, Good.FOLDER.resolve("more-parts.yaml"));
    }

    @Test
    void aStepKnowsItsPlaceAndItsFiguresTheirs() throws IOException {
        Path file = folder.resolve("x.yaml");
        assertThat(steps(file, "  - handle: {at: 33 %, of: ep-application, over: 500 ms}\n"))
                .first()
                .isEqualTo(new Step.Stimulate(
                        List.of(new Stimulus.MoveHandleAlong(
                                written(0.33, Dimension.RATIO, place(file, 4, 18)),
                                "ep-application",
                                Optional.of(written(0.5, Dimension.TIME, place(file, 4, 50))),
                                place(file, 4, 5))),
                        place(file, 4, 5)));
    }

    @Test
    void supplyOnAndOffAreSharesOfNominal() throws IOException {
        Path file = folder.resolve("x.yaml");
        assertThat(steps(file, "  - supply: {ep: on, control: off}\n"))
                .first()
                .isEqualTo(new Step.Stimulate(
                        List.of(
                                new Stimulus.Supply(
                                        "ep",
                                        written(1, Dimension.NOMINAL_SHARE, place(file, 4, 18)),
                                        place(file, 4, 5)),
                                new Stimulus.Supply(
                                        "control",
                                        written(0, Dimension.NOMINAL_SHARE, place(file, 4, 31)),
                                        place(file, 4, 5))),
                        place(file, 4, 5)));
    }

    @Test
    void severalConditionsHoldAllAtOnce() throws IOException {
        Path file = folder.resolve("x.yaml");
        Step step = steps(file, "  - wait-until: {brake-pipe at last: below 5 psi, wire holding: off, at-most: 9 s}\n")
                .get(0);
        assertThat(step)
                .isEqualTo(new Step.WaitUntil(
                        new Condition.AllOf(List.of(
                                new Condition.Below(
                                        new SignalRef.Pressure(
                                                PressureKind.BRAKE_PIPE, new VehicleRef.Last(), place(file, 4, 18)),
                                        new Operand.Written(Quantity.of(5, Unit.PSI), place(file, 4, 38))),
                                new Condition.WireIs(new SignalRef.Wire("holding", place(file, 4, 51)), false))),
                        written(9, Dimension.TIME, place(file, 4, 79)),
                        place(file, 4, 5)));
    }

    @Test
    void aRangeHasExactlyTheValuesThatOneWouldWrite() throws IOException {
        Path file = folder.resolve("x.yaml");
        String body = "    do: [{wait: 1 s}]\n";
        assertThat(values(steps(file, "  - for-each: {x: {from: 10 %, to: 100 %, by: 10 %}}\n" + body)))
                .containsExactly(0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0);
        assertThat(values(steps(file, "  - for-each: {x: {from: 90 %, to: 10 %, by: 40 %}}\n" + body)))
                .containsExactly(0.9, 0.5, 0.1);
        assertThat(values(steps(file, "  - for-each: {x: {from: 1, to: 4, by: 2}}\n" + body)))
                .containsExactly(1.0, 3.0);
        assertThat(values(steps(file, "  - for-each: {x: {from: 5 %, to: 5 %, by: 1 %}}\n" + body)))
                .containsExactly(0.05);
    }

    @Test
    void anExpectationIsReadWithItsNameAndPlace() throws IOException {
        Path file = folder.resolve("x.yaml");
        Step.Expect expect = (Step.Expect) steps(file, "").get(0);
        assertThat(expect.expectations()).singleElement().satisfies(named -> {
            assertThat(named.name()).isEqualTo("a");
            assertThat(named.place()).isEqualTo(place(file, 5, 7));
            assertThat(named.expectation())
                    .isEqualTo(new Expectation.RisesAbove(
                            new SignalRef.Pressure(PressureKind.BRAKE_PIPE, new VehicleRef.First(), place(file, 5, 33)),
                            new Operand.Written(Quantity.of(65, Unit.PSI), place(file, 5, 61)),
                            new Operand.Named("charge-time", place(file, 5, 77))));
        });
    }

    @Test
    void aPartIncludedByTwoWaysIsReadOnce() throws IOException {
        Files.writeString(folder.resolve("a.yaml"), "parts: {rest: [{wait: 3 s}]}\n", UTF_8);
        Files.writeString(folder.resolve("b.yaml"), "include: [a.yaml]\nparts: {more: [{part: rest}]}\n", UTF_8);
        Path file = Files.writeString(
                folder.resolve("x.yaml"),
                "sequence: x\npurpose: y\ninclude: [a.yaml, b.yaml, ./a.yaml]\nsteps:\n  - part: more\n" + EXPECTATION,
                UTF_8);
        Loaded<Sequence> loaded = SequenceFiles.load(file);
        assertThat(loaded.mistakes()).isEmpty();
        assertThat(loaded.files()).hasSize(3);
    }

    private static List<Double> values(List<Step> steps) {
        return ((Step.ForEach) steps.get(0))
                .values().stream()
                        .map(value -> ((Operand.Written) value).quantity().base())
                        .toList();
    }

    private static List<Step> steps(Path file, String steps) throws IOException {
        Files.writeString(file, "sequence: x\npurpose: y\nsteps:\n" + steps + EXPECTATION, UTF_8);
        Loaded<Sequence> loaded = SequenceFiles.load(file);
        assertThat(loaded.mistakes()).isEmpty();
        return loaded.value().orElseThrow().steps();
    }

    private static Operand written(double base, Dimension dimension, Place place) {
        return new Operand.Written(new Quantity(base, dimension), place);
    }

    private static Place place(Path file, int line, int column) {
        return new Place(file.toString(), line, column);
    }
}
