package dev.lapwing.unit;

/** How a controller laps itself: fills, holds or exhausts the cylinders until the one it senses has the pressure. */
interface Lapping {
    /** @param targetPascals above zero; @param feedbackPascals the sensed cylinder, gauge */
    EpCommand follow(double nowSeconds, double targetPascals, double feedbackPascals);
}
