package dev.lapwing.plant;

/** Rigid volumes of the same kind, one in each vehicle. */
final class Reservoirs {
    final double[] mass;
    /** Absolute pressure, in Pa. */
    final double[] pascals;
    /** Pressure change per mass, in Pa/kg. */
    final double[] slope;

    Reservoirs(double[] cubicMetres, double gasPascalsPerDensity) {
        mass = new double[cubicMetres.length];
        pascals = new double[cubicMetres.length];
        slope = new double[cubicMetres.length];
        for (int k = 0; k < slope.length; k++) {
            slope[k] = gasPascalsPerDensity / cubicMetres[k];
        }
    }

    void fill(double absolutePascals) {
        for (int k = 0; k < mass.length; k++) {
            mass[k] = absolutePascals / slope[k];
            settle(k);
        }
    }

    void settle(int k) {
        pascals[k] = mass[k] * slope[k];
    }

    double stored() {
        double sum = 0;
        for (double kilograms : mass) {
            sum += kilograms;
        }
        return sum;
    }
}
