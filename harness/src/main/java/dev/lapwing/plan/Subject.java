package dev.lapwing.plan;

import dev.lapwing.fixture.Acceptance;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.fixture.Wiring;

/**
 * What a plan is made for: a fixture without its simulation block, so that nothing simulated can reach a limit.
 *
 * @param fixture    name of the fixture
 * @param unit       title of the unit, for people
 * @param wiring     how it is built and connected
 * @param acceptance what it is held against
 */
public record Subject(String fixture, String unit, Wiring wiring, Acceptance acceptance) {
    public static Subject of(Fixture fixture) {
        return new Subject(fixture.name(), fixture.title(), fixture.wiring(), fixture.acceptance());
    }
}
