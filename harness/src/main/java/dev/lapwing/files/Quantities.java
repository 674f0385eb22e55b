package dev.lapwing.files;

import dev.lapwing.naming.PressureKind;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.sequence.Expectation;
import dev.lapwing.sequence.Operand;
import dev.lapwing.sequence.ResponseTerm;
import dev.lapwing.sequence.SignalRef;
import dev.lapwing.sequence.StaircaseTerm;
import java.util.Map;
import java.util.Optional;

/** Reads expectations of defined quantities: of responses, of how movements begin and run, of staircases. */
final class Quantities {
    static final Map<String, ResponseTerm> RESPONSE_TERMS = Reading.byText(ResponseTerm.values(), ResponseTerm::text);
    static final Map<String, StaircaseTerm> STAIRCASE_TERMS =
            Reading.byText(StaircaseTerm.values(), StaircaseTerm::text);
    /** Whether a movement goes up. */
    static final Map<String, Boolean> DIRECTIONS = Reading.either("rising", "falling");
    /** Whether states are taken from the histogram. */
    static final Map<String, Boolean> STATES = Reading.either("histogram", "means");

    private static final Range SHARE = new Range(0.01, 0.99);
    private static final Range BAND = new Range(0.001, 0.4);

    private Quantities() {}

    static Expectation expectation(String verb, Arguments in) {
        return switch (verb) {
            case "responds" -> responds(in);
            case "begins-to-rise", "begins-to-fall" ->
                new Expectation.Begins(in.level("signal"), verb.endsWith("rise"), in.limit("within"));
            case "rises-at", "falls-at" ->
                new Expectation.Steepest(
                        in.level("signal"),
                        verb.startsWith("rises"),
                        in.limit("rate"),
                        in.time("width"),
                        in.time("over"));
            case "travels" ->
                new Expectation.Travels(
                        in.choice("pressure", "pressure", Signals.PRESSURES).orElse(PressureKind.BRAKE_PIPE),
                        in.choice("direction", "direction", DIRECTIONS).orElse(false),
                        in.value("spacing", Range.of(Dimension.LENGTH), Dimension.LENGTH),
                        in.optionalValue("spacing-within", Range.of(Dimension.LENGTH), Dimension.LENGTH),
                        in.limit("speed"),
                        in.time("within"),
                        in.place());
            case "lasts" -> new Expectation.Lasts(in.condition("condition"), in.limit("time"), in.time("within"));
            case "recovers" -> recovers(in);
            case "departs" ->
                new Expectation.Departs(
                        in.level("signal"), in.text("remembered"), in.limit("difference"), in.optionalTime("over"));
            case "graduates" -> graduates(in);
            default -> throw new IllegalArgumentException("no expectation " + verb);
        };
    }

    private static Expectation responds(Arguments in) {
        SignalRef signal = in.level("signal");
        Optional<ResponseTerm> term = in.choice("term", "term of a response", RESPONSE_TERMS);
        term.ifPresent(known -> {
            due(in, "share", known.text(), known == ResponseTerm.TIME_TO_SHARE, "share: 90 %");
            due(in, "band", known.text(), known == ResponseTerm.SETTLING_DURATION, "band: 5 %");
        });
        boolean histogram =
                in.choice("states", "way to find the states", STATES).orElse(false);
        for (String key : new String[] {"first", "last"}) {
            if (histogram && in.has(key)) {
                in.mistake(key, "'" + key + "' gives a state that the histogram is to find", "one of the two", "");
            }
        }
        Dimension[] level = Signals.dimensions(signal);
        return new Expectation.Responds(
                signal,
                term.orElse(ResponseTerm.OVERSHOOT),
                in.optionalValue("share", SHARE, Dimension.RATIO),
                in.optionalValue("band", BAND, Dimension.RATIO),
                in.optionalValue("first", Range.of(level[0]), level),
                in.optionalValue("last", Range.of(level[0]), level),
                histogram,
                in.limit("limit"),
                in.time("after"),
                in.time("over"));
    }

    private static Expectation recovers(Arguments in) {
        SignalRef signal = in.level("signal");
        Dimension[] level = Signals.dimensions(signal);
        Operand band = in.value("band", Range.of(level[0]), level);
        return new Expectation.Recovers(signal, in.text("remembered"), band, in.limit("within"));
    }

    private static Expectation graduates(Arguments in) {
        Optional<StaircaseTerm> term = in.choice("term", "term of a staircase", STAIRCASE_TERMS);
        term.ifPresent(known -> {
            due(in, "with", known.text(), known == StaircaseTerm.HYSTERESIS, "with: going down");
            due(in, "answer", known.text(), known == StaircaseTerm.SMALLEST_GRADUATION, "answer: 0.5 psi");
        });
        return new Expectation.Graduates(
                in.levels("levels").orElse(""),
                term.orElse(StaircaseTerm.LINEARITY),
                in.levels("with"),
                in.optionalValue("answer", Range.of(Dimension.PRESSURE), Dimension.PRESSURE),
                in.limit("limit"),
                in.place());
    }

    /** A key that one term needs and no other knows. */
    private static void due(Arguments in, String key, String term, boolean due, String example) {
        if (due && !in.has(key)) {
            in.mistake("term", "term '" + term + "' lacks '" + key + "'", "'" + example + "' beside it", "");
        } else if (!due && in.has(key)) {
            in.mistake(key, "term '" + term + "' has no '" + key + "'", "a term that has", "leave '" + key + "' out");
        }
    }
}
