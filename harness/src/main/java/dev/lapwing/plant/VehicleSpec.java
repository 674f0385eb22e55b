package dev.lapwing.plant;

/**
 * One vehicle, every figure exact: whoever makes it has already drawn tolerances.
 *
 * @param brakePipe            brake pipe
 * @param mainPipe             main reservoir pipe
 * @param auxiliaryCubicMetres volume of the auxiliary reservoir, in m³
 */
public record VehicleSpec(
        PipeSpec brakePipe,
        PipeSpec mainPipe,
        double auxiliaryCubicMetres,
        TripleValveSpec triple,
        CylinderSpec cylinder,
        ElectroPneumaticSpec ep,
        VentSpec vents,
        LeakSpec leaks) {
    public VehicleSpec {
        Require.positive("auxiliary reservoir volume", auxiliaryCubicMetres, "m³");
    }
}
