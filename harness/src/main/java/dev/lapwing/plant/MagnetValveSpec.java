package dev.lapwing.plant;

/**
 * One magnet valve with its coil. The coil acts by the size of its voltage, whatever the polarity.
 *
 * @param pickUpVolts    at or above this the armature begins to pull in, in V
 * @param dropOutVolts   below this it begins to fall, in V, under the pick-up voltage
 * @param pickUpSeconds  time at pick-up voltage until the valve has moved, in s; a shorter pulse moves nothing
 * @param dropOutSeconds time below drop-out voltage until the valve has moved back, in s; a shorter gap moves nothing
 * @param coilOhms       resistance between its train wire and the return, in ohm
 */
public record MagnetValveSpec(
        double pickUpVolts, double dropOutVolts, double pickUpSeconds, double dropOutSeconds, double coilOhms) {
    public MagnetValveSpec {
        Require.positive("pick-up voltage", pickUpVolts, "V");
        Require.positive("drop-out voltage", dropOutVolts, "V");
        Require.notNegative("pick-up delay", pickUpSeconds, "s");
        Require.notNegative("drop-out delay", dropOutSeconds, "s");
        Require.positive("coil resistance", coilOhms, "ohm");
        if (!(dropOutVolts < pickUpVolts)) {
            throw new IllegalArgumentException(
                    "drop-out (" + dropOutVolts + " V) must lie under pick-up (" + pickUpVolts + " V)");
        }
    }
}
