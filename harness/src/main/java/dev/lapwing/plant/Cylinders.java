package dev.lapwing.plant;

import java.util.List;

/** The brake cylinders of a train. The mass of air is the state, so that none is lost while the pistons travel. */
final class Cylinders {
    final double[] mass;
    /** Absolute pressure, in Pa. */
    final double[] pascals;
    /** Pressure change per mass at the present piston travel, in Pa/kg. */
    final double[] slope;

    private final double gas;
    private final double[] homeSlope;
    private final double[] outSlope;
    private final double[] strokeStartMass;
    private final double[] strokeEndMass;
    private final double[] fourGasStroke;
    private final double[] halfInverseStroke;
    private final double[] linearTerm;

    Cylinders(List<CylinderSpec> specs, double gasPascalsPerDensity, double ambientPascals) {
        int count = specs.size();
        gas = gasPascalsPerDensity;
        mass = new double[count];
        pascals = new double[count];
        slope = new double[count];
        homeSlope = new double[count];
        outSlope = new double[count];
        strokeStartMass = new double[count];
        strokeEndMass = new double[count];
        fourGasStroke = new double[count];
        halfInverseStroke = new double[count];
        linearTerm = new double[count];
        for (int k = 0; k < count; k++) {
            CylinderSpec spec = specs.get(k);
            double start = spec.strokeStartPascals() + ambientPascals;
            double end = spec.strokeEndPascals() + ambientPascals;
            double full = spec.deadCubicMetres() + spec.sweptCubicMetres();
            double stroke = spec.sweptCubicMetres() / (end - start);
            fourGasStroke[k] = 4 * gas * stroke;
            halfInverseStroke[k] = stroke == 0 ? 0 : 1 / (2 * stroke);
            linearTerm[k] = spec.deadCubicMetres() - stroke * start;
            homeSlope[k] = gas / spec.deadCubicMetres();
            outSlope[k] = gas / full;
            strokeStartMass[k] = start * spec.deadCubicMetres() / gas;
            strokeEndMass[k] = spec.sweptCubicMetres() == 0 ? strokeStartMass[k] : end * full / gas;
        }
    }

    /** Fills every cylinder to an absolute pressure below the beginning of the pistons' travel. */
    void empty(double absolutePascals) {
        for (int k = 0; k < mass.length; k++) {
            mass[k] = absolutePascals / homeSlope[k];
            settle(k);
        }
    }

    // p·V(p) = m·RT with V = Vd + s·(p − p_start) while the pistons travel: s·p² + (Vd − s·p_start)·p − m·RT = 0.
    void settle(int k) {
        double kilograms = mass[k];
        if (kilograms <= strokeStartMass[k]) {
            slope[k] = homeSlope[k];
            pascals[k] = kilograms * homeSlope[k];
        } else if (kilograms >= strokeEndMass[k]) {
            slope[k] = outSlope[k];
            pascals[k] = kilograms * outSlope[k];
        } else {
            double b = linearTerm[k];
            double root = Math.sqrt(b * b + fourGasStroke[k] * kilograms);
            slope[k] = gas / root;
            pascals[k] = (root - b) * halfInverseStroke[k];
        }
    }

    double stored() {
        double sum = 0;
        for (double kilograms : mass) {
            sum += kilograms;
        }
        return sum;
    }
}
