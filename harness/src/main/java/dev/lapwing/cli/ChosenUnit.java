package dev.lapwing.cli;

import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Which unit, and which specimen of it where it is simulated. */
final class ChosenUnit {
    @Option(names = "--unit", paramLabel = "FIXTURE", description = "The unit; fixtures/classic.yaml by default.")
    private Optional<Path> unit;

    @Option(
            names = "--seed",
            defaultValue = "1",
            paramLabel = "NUMBER",
            description = "Any whole number; draws the simulated specimens, their noise and their bench;"
                    + " ${DEFAULT-VALUE} by default.")
    private long seed;

    /** The file that describes it. */
    Path fixture(Home home) {
        return home.fixture(unit);
    }

    /** Draws all that is random. */
    long seed() {
        return seed;
    }
}
