package dev.lapwing.simulated;

import java.util.SplittableRandom;

/** Random streams by name, all from one seed: what one draws, or that it is there at all, changes no other. */
final class Streams {
    private static final long FNV_OFFSET = 0xcbf29ce484222325L;
    private static final long FNV_PRIME = 0x100000001b3L;

    private final long mixed;

    Streams(long seed) {
        // Neighbouring seeds are spread over the whole range before a name is mixed in.
        mixed = new SplittableRandom(seed).nextLong();
    }

    /** The stream of that name, from its beginning. */
    SplittableRandom of(String name) {
        // FNV-1a with 64 bits (offset basis and prime from memory of its authors' published description).
        long hash = FNV_OFFSET;
        for (int i = 0; i < name.length(); i++) {
            hash = (hash ^ name.charAt(i)) * FNV_PRIME;
        }
        return new SplittableRandom(mixed ^ hash);
    }
}
