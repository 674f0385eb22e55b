package dev.lapwing;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;

/**
 * The table of packages: a package may use every lower layer and, of its own layer, only what its row names. Read by
 * {@link ArchitectureTest}, explained in DEVELOPERS.md.
 */
enum Layers {
    QUANTITY(0, "quantity"),
    TIME(0, "time"),
    SOURCE(0, "source"),

    NAMING(1, "naming"),
    SIGNAL(1, "signal"),
    UNCERTAINTY(1, "uncertainty"),
    PLANT(1, "plant"),

    FIXTURE(2, "fixture"),
    BENCH(2, "bench"),
    SEQUENCE(2, "sequence"),
    FINDING(2, "finding"),

    PLAN(3, "plan"),
    MEASURE(3, "measure", "plan"),
    UNIT(3, "unit"),
    LINK(3, "link"),

    JUDGE(4, "judge"),
    EVIDENCE(4, "evidence"),
    TRANSPORT_LINKED(4, "transport.linked"),
    TRANSPORT_DEVICE(4, "transport.device"),
    TRANSPORT_SERIAL(4, "transport.serial", "transport.linked", "transport.device"),
    TRANSPORT_MQTT(4, "transport.mqtt", "transport.linked"),
    TRANSPORT_MODBUS(4, "transport.modbus", "transport.device"),
    SIMULATED(4, "simulated"),

    RUN(5, "run"),
    FILES(5, "files"),

    REPORT(6, "report"),
    CHALLENGE(6, "challenge"),

    CLI(7, "cli");

    private static final String ROOT = "dev.lapwing.";

    private final int layer;
    private final String name;
    private final Set<String> beside;

    Layers(int layer, String name, String... beside) {
        this.layer = layer;
        this.name = name;
        this.beside = Set.of(beside);
    }

    /** The row that a Java package belongs to, itself or as a part below it. */
    static Optional<Layers> of(String javaPackage) {
        return Arrays.stream(values())
                .filter(row -> (javaPackage + ".").startsWith(ROOT + row.name + "."))
                .max(Comparator.comparingInt(row -> row.name.length()));
    }

    boolean mayUse(Layers other) {
        return this == other || other.layer < layer || beside.contains(other.name);
    }

    int layer() {
        return layer;
    }

    /** The row's packages as ArchUnit writes them. */
    String pattern() {
        return ROOT + name + "..";
    }

    static String[] patterns(Layers... rows) {
        return Arrays.stream(rows).map(Layers::pattern).toArray(String[]::new);
    }

    static String[] patternsUpTo(int layer, Layers... except) {
        List<Layers> left = List.of(except);
        return Stream.of(values())
                .filter(row -> row.layer <= layer && !left.contains(row))
                .map(Layers::pattern)
                .toArray(String[]::new);
    }

    @Override
    public String toString() {
        return name + " (layer " + layer + ")";
    }
}
