package dev.lapwing.link.bench;

/**
 * Terminals of a bench whose surroundings go on by being told to: what keeps the session lets time pass up to an
 * instant before it reads or drives anything at that instant. For one thread.
 */
public interface LivePoints extends BenchPoints {

    /** What the bench's clock shows so many ns after it was switched on, in µs of bench time. */
    long us(long nanos);

    /** After how many ns the bench's clock shows that time first. */
    long nanos(long us);

    /** Lets the surroundings go on up to a bench time, in µs, and tells what digital inputs did meanwhile. */
    void passUntil(long us, Edges edges);

    /** Hears of digital inputs. */
    interface Edges {
        /** It changed, or is told for the first time; {@code atUs} is the stamp. */
        void edge(String point, boolean level, long atUs);
    }
}
