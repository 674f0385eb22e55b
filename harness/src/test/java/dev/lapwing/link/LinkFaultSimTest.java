package dev.lapwing.link;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.lapwing.link.Carrier.Weather;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * A host and a bench over a bad link, in fake time and by seed, watched by
 * {@link LinkWorld}'s checks. {@code -Dlapwing.seed=N} replays one run, {@code -Dlapwing.runs=N} sets how many there
 * are.
 */
class LinkFaultSimTest {
    private static final int RUNS = Integer.getInteger("lapwing.runs", 200);
    private static final long SEED = Long.getLong("lapwing.seed", 0);

    /** What carries the messages, and whether the bench reboots and strangers meddle. */
    private enum Setting {
        BROKER,
        BROKER_AND_TROUBLES,
        LINE,
        LINE_AND_TROUBLES;

        LinkWorld world(SplittableRandom random) {
            boolean troubled = this == BROKER_AND_TROUBLES || this == LINE_AND_TROUBLES;
            return this == LINE || this == LINE_AND_TROUBLES
                    ? new LinkWorld(
                            random, LossyLine.toBench(random.split()), LossyLine.toHost(random.split()), troubled)
                    : new LinkWorld(
                            random, new LossyChannel<>(random.split()), new LossyChannel<>(random.split()), troubled);
        }
    }

    @ParameterizedTest
    @EnumSource(Setting.class)
    void whateverTheLinkDoesTheBenchEndsSafeAndNothingIsLostUnseen(Setting setting) {
        int finished = 0;
        int armed = 0;
        int driven = 0;
        for (long seed = SEED == 0 ? 1 : SEED; seed <= (SEED == 0 ? RUNS : SEED); seed++) {
            try {
                LinkWorld world = run(setting, seed);
                finished += world.finished() ? 1 : 0;
                armed += world.wasArmed() ? 1 : 0;
                driven += world.driven();
            } catch (AssertionError | RuntimeException e) {
                throw new AssertionError(
                        setting + ", replay: mvn -o test -Dtest=LinkFaultSimTest -Dlapwing.seed=" + seed, e);
            }
        }
        if (SEED == 0) {
            // The runs must reach what they are to test.
            assertTrue(finished > RUNS / 10, finished + " runs came to a good end");
            assertTrue(armed > RUNS / 4, armed + " runs were armed");
            assertTrue(driven > RUNS, driven + " sets were driven");
        }
    }

    @ParameterizedTest
    @EnumSource(
            value = Setting.class,
            names = {"BROKER", "LINE"})
    void overAFairLinkEverythingIsDoneAndNothingIsLost(Setting setting) {
        LinkWorld world = setting.world(new SplittableRandom(7));
        world.runFor(3_000);
        world.finish();
        world.runUntilOver(1_500);
        assertTrue(world.finished());
        assertTrue(world.wasArmed());
        assertTrue(world.driven() > 20, world.driven() + " sets were driven");
        assertEquals(0, world.lostNumbers());
        world.checkNothingLostUnseen();
    }

    private static LinkWorld run(Setting setting, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        LinkWorld world = setting.world(random);
        int spells = 1 + random.nextInt(4);
        for (int i = 0; i < spells; i++) {
            // A link that is bad from its first message on is rare: the runs are to get somewhere before.
            boolean fair = i == 0 && random.nextInt(4) > 0;
            world.weather(fair ? Weather.FAIR : Weather.drawn(random), fair ? Weather.FAIR : Weather.drawn(random));
            world.runFor(200 + random.nextInt(1_500));
        }
        if (random.nextBoolean()) {
            world.finish();
            world.runFor(random.nextInt(1_000));
        }
        world.weather(Weather.FAIR, Weather.FAIR);
        // Whatever was flying has come down by then.
        world.runFor(2_100);
        world.finish();
        world.runUntilOver(6_000);
        assertTrue(world.over(), "the session does not end over a healthy link");
        assertTrue(world.benchSafe(), "the bench is not safe at the end");
        world.checkNothingLostUnseen();
        return world;
    }
}
