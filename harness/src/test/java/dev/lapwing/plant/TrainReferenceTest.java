package dev.lapwing.plant;

import static dev.lapwing.plant.ReferenceTrain.PSI;
import static dev.lapwing.plant.ReferenceTrain.apply;
import static dev.lapwing.plant.ReferenceTrain.charged;
import static dev.lapwing.plant.ReferenceTrain.hold;
import static dev.lapwing.plant.ReferenceTrain.release;
import static dev.lapwing.plant.Steps.run;
import static dev.lapwing.plant.Steps.until;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.function.IntToDoubleFunction;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The plant against the responses of an independent model of the same train.
 *
 * <p>Source: reference responses of the design study's companion model (lumped pipe, own formulation by other hands,
 * 1 ms), given to two or three figures for the parameters that {@link ReferenceTrain} holds. True of that model, not
 * of any real train; so this shows that two programs agree about one set of laws, not that the laws are a railway's.
 *
 * <p>What this plant gives, minus the reference (4 cars, 12 cars):
 *
 * <pre>
 * EP fills lead to 5 / 25 / 45 psi           +0.015 / +0.014 / +0.005 s, the same
 * EP empties lead to 25 / 10 / 5 / 1 psi     +0.008 / +0.006 / +0.004 / +0.010 s, the same
 * lowest after an EP gap of 0.05 to 3 s      +0.04 to +0.10 psi, the same
 * emergency, pipe to 68, lead / rear         +0.001 / -0.003 s, +0.001 / +0.004 s
 * emergency, pipe to 52, lead / rear         +0.005 / -0.003 s, +0.005 / +0.004 s
 * emergency, rear pipe to 10                 -0.001 s, -0.014 s
 * dump, pipe to 52, lead / rear              -0.003 / -0.002 s, +0.004 / -0.002 s
 * speed of a 0.5 psi drop                    -0.2 m/s, -0.2 m/s
 * full service, cylinder to 45, lead / rear  +0.018 / +0.021 s, +0.024 / +0.003 s
 * emergency, cylinder to 45, lead / rear     +0.023 / +0.014 s, +0.023 / +0.021 s
 * dump, rear cylinder to 45                  +0.021 s, +0.014 s
 * first charge, rear 65 / auxiliary 67       +0.3 / -0.4 s, +1.3 / +0.9 s
 * recharge, 65 / auxiliary 67 / cylinder 5   +0.06 / +0.08 / +0.02 s, +0.26 / +0.26 / +0.05 s
 * parting, last cylinder to 45               +0.054 s, +0.020 s
 * alarm while fed, first / last              +0.06 / +0.01 s, +0.13 / +0.03 s
 * crew valve while fed, rear / lead          +0.018 / +0.018 s, +0.018 / +0.015 s
 * cylinder after 10 / 15 / 20 psi            -0.4 / 0.0 / -0.1 psi, +0.2 / -0.1 / -0.5 psi
 * </pre>
 *
 * <p>Why they part. (a) Every fill is about 20 ms later here. For the first 5 psi the closed form (choked, constant
 * 90 psi supply, m = (p2·V2 − p1·V1)/RT) gives 45 ms + 327 ms = 0.372 s, as here; the reference's 0.36 s lies below
 * it, and the cause is not known. (b) The reference's check valve of the supply reservoir is not given. Shut it would
 * give 0.375 / 1.756 / 2.789 s for 5 / 25 / 45 psi, and at 10 dm³/(s·bar) 0.374 / 1.716 / 2.657 s; 2 was chosen, which
 * lies nearest. (c) Where the joint loss stands is not given: here once at each coupling. (d) The main reservoir does
 * not sag here. (e) Which vehicles "mid-train" means is not given: here the parting is behind car n/2 and the alarm in
 * the next. Nothing else was chosen to fit.
 */
class TrainReferenceTest {
    private static final CabValve RUNNING = CabValve.feeding(70 * PSI);
    private static final CabValve FULL_SERVICE = CabValve.graduated(50 * PSI);

    /**
     * One response: what this plant does for a number of vehicles, what the reference says, and how far they may
     * part.
     */
    record Response(String what, int vehicles, IntToDoubleFunction plant, double reference, double tolerance) {
        double measured() {
            return plant.applyAsDouble(vehicles);
        }

        @Override
        public String toString() {
            return vehicles + " cars: " + what;
        }
    }

    private static Stream<Response> both(
            String what, IntToDoubleFunction plant, double four, double twelve, double tolerance) {
        return Stream.of(
                new Response(what, 4, plant, four, tolerance), new Response(what, 12, plant, twelve, tolerance));
    }

    static Stream<Response> responses() {
        return Stream.of(electroPneumatic(), gaps(), pipe(), cylinders(), charging(), vents(), reductions())
                .flatMap(rows -> rows);
    }

    // The reference is rounded to 10 ms; what is known of the differences stands above.
    private static Stream<Response> electroPneumatic() {
        return Stream.of(
                        both("EP fills lead to 5 psi, s", n -> epFill(n, 0, 5), 0.36, 0.36, 0.025),
                        both("EP fills lead to 25 psi, s", n -> epFill(n, 0, 25), 1.73, 1.73, 0.03),
                        both("EP fills lead to 45 psi, s", n -> epFill(n, 0, 45), 2.74, 2.74, 0.03),
                        both(
                                "EP 45 psi rear after lead, s",
                                n -> epFill(n, n - 1, 45) - epFill(n, 0, 45),
                                0.006,
                                0.020,
                                0.010),
                        both("EP empties lead to 25 psi, s", n -> epEmpty(n, 0, 25), 1.36, 1.36, 0.02),
                        both("EP empties lead to 10 psi, s", n -> epEmpty(n, 0, 10), 2.68, 2.68, 0.02),
                        both("EP empties lead to 5 psi, s", n -> epEmpty(n, 0, 5), 4.90, 4.90, 0.02),
                        both("EP empties lead to 1 psi, s", n -> epEmpty(n, 0, 1), 6.37, 6.37, 0.03),
                        Stream.of(
                                new Response(
                                        "EP empties rear to 25 psi, s", 12, n -> epEmpty(n, n - 1, 25), 1.39, 0.02),
                                new Response(
                                        "EP empties rear to 10 psi, s", 12, n -> epEmpty(n, n - 1, 10), 2.70, 0.02)))
                .flatMap(rows -> rows);
    }

    private static Stream<Response> gaps() {
        double[] seconds = {0.05, 0.1, 0.3, 1, 3};
        double[] lowest = {49.9, 47.9, 43.4, 30.0, 7.8};
        return IntStream.range(0, seconds.length)
                .boxed()
                .flatMap(i -> both(
                        "lowest after an EP gap of " + seconds[i] + " s, psi",
                        n -> afterGap(n, seconds[i]),
                        lowest[i],
                        lowest[i],
                        0.15));
    }

    private static Stream<Response> pipe() {
        CabValve dump = CabValve.DUMP;
        CabValve emergency = CabValve.EMERGENCY;
        return Stream.of(
                        both("emergency, lead pipe to 68 psi, s", n -> pipeTo(n, emergency, 0, 68), 0.04, 0.04, 0.01),
                        both(
                                "emergency, rear pipe to 68 psi, s",
                                n -> pipeTo(n, emergency, n - 1, 68),
                                0.28,
                                0.96,
                                0.01),
                        both("emergency, lead pipe to 52 psi, s", n -> pipeTo(n, emergency, 0, 52), 0.28, 0.28, 0.02),
                        both(
                                "emergency, rear pipe to 52 psi, s",
                                n -> pipeTo(n, emergency, n - 1, 52),
                                0.73,
                                3.30,
                                0.02),
                        both("emergency, rear pipe to 10 psi, s", n -> pipeTo(n, emergency, n - 1, 10), 3.1, 13.6, 0.1),
                        both("dump, lead pipe to 52 psi, s", n -> pipeTo(n, dump, 0, 52), 0.87, 1.27, 0.02),
                        both("dump, rear pipe to 52 psi, s", n -> pipeTo(n, dump, n - 1, 52), 1.09, 4.14, 0.02),
                        both("speed of a 0.5 psi drop, m/s", TrainReferenceTest::speedOfADrop, 313, 290, 2))
                .flatMap(rows -> rows);
    }

    private static Stream<Response> cylinders() {
        return Stream.of(
                        both("full service, lead to 45 psi, s", n -> cylinderTo45(n, FULL_SERVICE, 0), 4.17, 11.8, 0.1),
                        both(
                                "full service, rear to 45 psi, s",
                                n -> cylinderTo45(n, FULL_SERVICE, n - 1),
                                4.27,
                                12.4,
                                0.1),
                        both(
                                "emergency, lead to 45 psi, s",
                                n -> cylinderTo45(n, CabValve.EMERGENCY, 0),
                                3.97,
                                3.97,
                                0.03),
                        both(
                                "emergency, rear to 45 psi, s",
                                n -> cylinderTo45(n, CabValve.EMERGENCY, n - 1),
                                4.21,
                                4.87,
                                0.03),
                        both("dump, rear to 45 psi, s", n -> cylinderTo45(n, CabValve.DUMP, n - 1), 4.22, 4.90, 0.03))
                .flatMap(rows -> rows);
    }

    private static Stream<Response> charging() {
        return Stream.of(
                        both("first charge, rear pipe to 65 psi, s", n -> firstCharge(n, false), 13, 117, 2),
                        both("first charge, rear auxiliary to 67 psi, s", n -> firstCharge(n, true), 137, 174, 2),
                        both(
                                "recharge, rear pipe to 65 psi, s",
                                n -> recharge(n, t -> t.brakePipePascals(n - 1) >= 65 * PSI),
                                10.9,
                                40.7,
                                0.5),
                        both(
                                "recharge, rear auxiliary to 67 psi, s",
                                n -> recharge(n, t -> t.auxiliaryPascals(n - 1) >= 67 * PSI),
                                57.6,
                                84.2,
                                0.5),
                        both(
                                "recharge, rear cylinder to 5 psi, s",
                                n -> recharge(n, t -> t.cylinderPascals(n - 1) <= 5 * PSI),
                                17.9,
                                34.2,
                                0.3))
                .flatMap(rows -> rows);
    }

    private static Stream<Response> vents() {
        return Stream.of(
                        both(
                                "parting mid-train, last cylinder to 45 psi, s",
                                TrainReferenceTest::parting,
                                4.0,
                                4.35,
                                0.06),
                        both(
                                "alarm mid-train while fed, first to 45 psi, s",
                                n -> alarm(n).min().orElseThrow(),
                                4.0,
                                10.9,
                                0.2),
                        both(
                                "alarm mid-train while fed, last to 45 psi, s",
                                n -> alarm(n).max().orElseThrow(),
                                4.8,
                                17.5,
                                0.2),
                        both(
                                "crew valve at rear while fed, rear to 45 psi, s",
                                n -> crewValve(n, n - 1),
                                3.95,
                                3.95,
                                0.03),
                        both("crew valve at rear while fed, lead to 45 psi, s", n -> crewValve(n, 0), 4.20, 9.47, 0.03))
                .flatMap(rows -> rows);
    }

    // The reference gives one figure or a range for the train; its middle stands here.
    private static Stream<Response> reductions() {
        return Stream.of(
                        both("cylinder after 10 psi reduction, psi", n -> afterReduction(n, 10), 18.6, 17.4, 0.4),
                        both("cylinder after 15 psi reduction, psi", n -> afterReduction(n, 15), 33.5, 33.6, 0.8),
                        both("cylinder after 20 psi reduction, psi", n -> afterReduction(n, 20), 50, 49.5, 0.6))
                .flatMap(rows -> rows);
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("responses")
    void thePlantAnswersAsTheIndependentModel(Response response) {
        assertEquals(response.reference(), response.measured(), response.tolerance(), response.what());
    }

    private static double epFill(int vehicles, int k, double psi) {
        Train train = charged(vehicles);
        apply(train);
        return until(train, 10, () -> train.cylinderPascals(k) >= psi * PSI);
    }

    private static Train epAppliedAndHeld(int vehicles) {
        Train train = charged(vehicles);
        apply(train);
        run(train, 6);
        hold(train);
        run(train, 2);
        return train;
    }

    private static double epEmpty(int vehicles, int k, double psi) {
        Train train = epAppliedAndHeld(vehicles);
        release(train);
        return until(train, 10, () -> train.cylinderPascals(k) <= psi * PSI);
    }

    private static double afterGap(int vehicles, double gapSeconds) {
        Train train = epAppliedAndHeld(vehicles);
        release(train);
        run(train, gapSeconds);
        hold(train);
        run(train, 0.5);
        return train.cylinderPascals(0) / PSI;
    }

    private static double pipeTo(int vehicles, CabValve valve, int k, double psi) {
        Train train = charged(vehicles);
        train.drive(0, valve);
        return until(train, 40, () -> train.brakePipePascals(k) <= psi * PSI);
    }

    private static double cylinderTo45(int vehicles, CabValve valve, int k) {
        Train train = charged(vehicles);
        train.drive(0, valve);
        return until(train, 40, () -> train.cylinderPascals(k) >= 45 * PSI);
    }

    private static double speedOfADrop(int vehicles) {
        Train train = charged(vehicles);
        train.drive(0, CabValve.EMERGENCY);
        until(train, 5, () -> train.brakePipePascals(0) <= 69.5 * PSI);
        double seconds = until(train, 5, () -> train.brakePipePascals(vehicles - 1) <= 69.5 * PSI);
        return (vehicles - 1) * 22 / seconds;
    }

    private static double firstCharge(int vehicles, boolean auxiliary) {
        Train train = new Train(ReferenceTrain.spec(vehicles));
        train.charge(0, 90 * PSI);
        train.compressor(true);
        train.drive(0, RUNNING);
        int rear = vehicles - 1;
        return until(
                train,
                300,
                () -> auxiliary ? train.auxiliaryPascals(rear) >= 67 * PSI : train.brakePipePascals(rear) >= 65 * PSI);
    }

    private static double recharge(int vehicles, Predicate<Train> done) {
        Train train = charged(vehicles);
        train.drive(0, CabValve.EMERGENCY);
        run(train, 60);
        train.drive(0, RUNNING);
        return until(train, 300, () -> done.test(train));
    }

    private static double parting(int vehicles) {
        Train train = charged(vehicles);
        train.part(vehicles / 2 - 1);
        return until(train, 40, () -> IntStream.range(0, vehicles).allMatch(k -> train.cylinderPascals(k) >= 45 * PSI));
    }

    private static DoubleStream alarm(int vehicles) {
        return IntStream.range(0, vehicles).mapToDouble(k -> {
            Train train = charged(vehicles);
            train.drive(0, RUNNING);
            train.alarm(vehicles / 2, 1);
            return until(train, 40, () -> train.cylinderPascals(k) >= 45 * PSI);
        });
    }

    private static double crewValve(int vehicles, int k) {
        Train train = charged(vehicles);
        train.drive(0, RUNNING);
        train.crewValve(vehicles - 1, 1);
        return until(train, 40, () -> train.cylinderPascals(k) >= 45 * PSI);
    }

    private static double afterReduction(int vehicles, double psi) {
        Train train = charged(vehicles);
        train.drive(0, CabValve.graduated((70 - psi) * PSI));
        run(train, 60);
        return IntStream.range(0, vehicles)
                        .mapToDouble(train::cylinderPascals)
                        .average()
                        .orElseThrow()
                / PSI;
    }
}
