package dev.lapwing.uncertainty;

import java.util.SplittableRandom;

/** Random streams by name, all from one seed: what one draws, or that it is there at all, changes no other. */
public final class Streams {
    private static final long FNV_OFFSET = 0xcbf29ce484222325L;
    private static final long FNV_PRIME = 0x100000001b3L;

    private final long mixed;

    public Streams(long seed) {
        // Neighbouring seeds are spread over the whole range before a name is mixed in.
        mixed = new SplittableRandom(seed).nextLong();
    }

    /** The stream of that name, from its beginning. */
    public SplittableRandom of(String name) {
        return new SplittableRandom(mixed ^ hash(name));
    }

    /** A seed made of a name, 0 or more and below 2^53, so that every reader of JSON keeps its digits. */
    public static long seedOf(String name) {
        return new SplittableRandom(hash(name)).nextLong() >>> 11;
    }

    private static long hash(String name) {
        // FNV-1a with 64 bits (offset basis and prime from memory of its authors' published description).
        long hash = FNV_OFFSET;
        for (int i = 0; i < name.length(); i++) {
            hash = (hash ^ name.charAt(i)) * FNV_PRIME;
        }
        return hash;
    }
}
