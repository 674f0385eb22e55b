package dev.lapwing.sequence;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What must hold throughout every sequence, unless the sequence says that it breaks it on purpose: of the unit, and of
 * the bench's channels among themselves.
 */
public enum AlwaysProperty {
    APPLICATION_ONLY_WITH_HOLDING(
            "application-only-with-holding",
            "the application wire is never on with the holding wire off",
            "always-application-alone-time"),
    NO_TRACTION_WITHOUT_DEADMAN(
            "no-traction-without-deadman",
            "traction is never on with the deadman released and the reverser in forward or reverse",
            "always-traction-after-deadman-time"),
    NO_CHARGE_OUT_OF_RELEASE(
            "no-charge-out-of-release",
            "the brake pipe never rises with the master switch off or the handle in lap, full service or emergency",
            "always-uncommanded-pipe-rise"),
    CYLINDER_HOLDS_IN_LAP(
            "cylinder-holds-in-lap",
            "in lap a brake cylinder never falls faster than its permitted leak, from 60 s after the last fill",
            "always-cylinder-leak"),
    CYLINDER_BELOW_LIMIT("cylinder-below-limit", "a brake cylinder never exceeds its limit", "always-cylinder-limit"),
    DUMP_EMPTIES_THE_PIPE(
            "dump-empties-the-pipe",
            "after a dump the brake pipe empties in time and stays empty until a legal reset",
            "always-dump-time",
            "always-dump-level"),
    EP_RELEASE_EMPTIES_THE_CYLINDER(
            "ep-release-empties-the-cylinder",
            "with the automatic brake released and EP demand zero for 10 s every cylinder is empty",
            "always-released-level"),
    VIGILANCE_STAGES_IN_ORDER(
            "vigilance-stages-in-order", "vigilance goes from light to sounder to dump", "always-vigilance-stage-gap"),
    LAMP_ONLY_WITH_SUPPLY(
            "lamp-only-with-supply",
            "the EP supply lamp is lit only with a usable EP supply",
            "always-lamp-supply",
            "always-lamp-time"),
    BENCH_TWINS_AGREE(
            "bench-twins-agree", "two transducers of one signal read alike within the uncertainty of their difference"),
    BENCH_PIPES_AGREE(
            "bench-pipes-agree",
            "at rest all channels of the brake pipe read alike, while nobody parts it",
            "bench-pipe-difference"),
    BENCH_CYLINDERS_AGREE(
            "bench-cylinders-agree",
            "until the EP brake is used, cylinders read alike where their reservoirs and pipes do",
            "bench-cylinder-difference"),
    BENCH_AIR_FLOWS_DOWN(
            "bench-air-flows-down",
            "no pressure reads above the highest of all that can feed it",
            "bench-uphill-difference"),
    BENCH_MAIN_RESERVOIRS_AGREE(
            "bench-main-reservoirs-agree",
            "at rest the main reservoir pipe reads alike everywhere, and nowhere above the supply reservoir beside it",
            "bench-main-difference"),
    BENCH_ORDERS_REACH_A_CYLINDER(
            "bench-orders-reach-a-cylinder",
            "an order on application and holding wire is answered by one cylinder at least",
            "bench-order-time");

    private final String text;
    private final String sentence;
    private final List<String> figures;

    AlwaysProperty(String text, String sentence, String... figures) {
        this.text = text;
        this.sentence = sentence;
        this.figures = List.of(figures);
    }

    /** True for what the bench's own channels must hold to, whatever the unit does. */
    public boolean ofBench() {
        return text.startsWith("bench-");
    }

    /** As written in files. */
    public String text() {
        return text;
    }

    /** What holds, as a person reads it. */
    public String sentence() {
        return sentence;
    }

    /** Names of the acceptance figures that it is judged by; none where the bench file says all that it takes. */
    public List<String> figures() {
        return figures;
    }

    public static Optional<AlwaysProperty> named(String text) {
        return Arrays.stream(values()).filter(p -> p.text.equals(text)).findFirst();
    }
}
