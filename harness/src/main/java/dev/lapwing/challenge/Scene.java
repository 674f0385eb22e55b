package dev.lapwing.challenge;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.fixture.Wiring;
import dev.lapwing.plan.Check;
import dev.lapwing.sequence.ResponseTerm;
import java.util.ArrayList;
import java.util.List;

/**
 * Part of a study: trains, what is asked of them, and whether the benches that look at them stamp what they report.
 *
 * @param name      as the table has it
 * @param share     of ten runs, how many look at it
 * @param stamps    true if its benches stamp at the source
 * @param questions what is asked
 * @param specimens trains, at least one
 */
record Scene(String name, int share, boolean stamps, List<Question> questions, List<Specimen> specimens) {
    private static final String UNIT = "four vehicles";
    private static final String CHARGING = "four vehicles, charging";
    private static final String LONG = "twelve vehicles";
    private static final String LONG_CHARGING = "twelve vehicles, charging";
    private static final String POLLED = "four vehicles, a bench that does not stamp";
    private static final int LONG_VEHICLES = 12;
    /** A long train takes so much longer to drive that there are fewer of them. */
    private static final int FEWER = 3;

    /** The scenes about the unit itself. */
    static List<Scene> ofUnit(BenchFile bench, Fixture fixture, int specimens, long seed) throws BenchFailure {
        int vehicles = fixture.wiring().vehicles();
        Asked asked = new Asked(UNIT);
        ReferenceResponses.ask(asked, vehicles);
        Questions.ask(asked, vehicles);
        Asked charging = new Asked(CHARGING);
        ReferenceResponses.askCharging(charging, vehicles);
        List<Question> polled = asked.all().stream()
                .filter(question -> tellsWithoutStamps(question.check()))
                .map(question -> question.unstamped(POLLED))
                .toList();
        List<Specimen> driven = driven(bench, fixture, specimens, seed, List.of(asked.all(), charging.all(), polled));
        return List.of(
                new Scene(UNIT, 5, true, asked.all(), driven),
                new Scene(CHARGING, 1, true, charging.all(), driven),
                new Scene(POLLED, 1, false, polled, driven));
    }

    /** The scenes about a train of twelve vehicles behind the same unit. */
    static List<Scene> ofLongTrain(BenchFile bench, Fixture fixture, int specimens, long seed) throws BenchFailure {
        Asked asked = new Asked(LONG);
        ReferenceResponses.ask(asked, LONG_VEHICLES);
        Asked charging = new Asked(LONG_CHARGING);
        ReferenceResponses.askCharging(charging, LONG_VEHICLES);
        int fewer = (specimens + FEWER - 1) / FEWER;
        List<Specimen> driven = driven(bench, longer(fixture), fewer, seed, List.of(asked.all(), charging.all()));
        return List.of(
                new Scene(LONG, 2, true, asked.all(), driven),
                new Scene(LONG_CHARGING, 1, true, charging.all(), driven));
    }

    private static List<Specimen> driven(
            BenchFile bench, Fixture fixture, int specimens, long seed, List<List<Question>> questions)
            throws BenchFailure {
        List<Question> all = questions.stream().flatMap(List::stream).toList();
        List<Specimen> driven = new ArrayList<>();
        for (int i = 0; i < specimens; i++) {
            driven.add(Specimen.driven(bench, fixture, all, seed + i));
        }
        return driven;
    }

    private static Fixture longer(Fixture fixture) {
        Wiring one = fixture.wiring();
        Wiring wiring = new Wiring(
                LONG_VEHICLES,
                one.nominalVolts(),
                one.handle(),
                one.powerNotches(),
                one.wires(),
                one.abilities(),
                one.design());
        return new Fixture(
                fixture.file(), fixture.name(), fixture.title(), wiring, fixture.acceptance(), fixture.simulation());
    }

    /** What sequences ask of benches that do not stamp: levels, and times whose limits leave room for it. */
    private static boolean tellsWithoutStamps(Check check) {
        return check instanceof Check.Crossing
                || check instanceof Check.SettledLevel
                || check instanceof Check.Movement
                || check instanceof Check.Change
                || check instanceof Check.Agreement
                || check instanceof Check.Leak
                || check instanceof Check.WireSwitches
                || check instanceof Check.Response response && response.term() != ResponseTerm.OVERSHOOT
                || check instanceof Check.ComesBefore;
    }
}
