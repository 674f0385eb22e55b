package dev.lapwing.files;

import dev.lapwing.fixture.Fixture;
import java.nio.file.Path;

/** Reads fixtures, each laid over the one that it is based on. */
public final class FixtureFiles {
    private FixtureFiles() {}

    /** The model of that file, or every mistake in it. No exception escapes, whatever the file holds. */
    public static Loaded<Fixture> load(Path path) {
        return new FixtureReader(path).read();
    }
}
