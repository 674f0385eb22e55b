package dev.lapwing.unit;

/**
 * Self-lapping by a pressure relay with a half band to each side of the target. A band narrower than what the cylinders
 * gain or lose while a magnet valve drops out makes it hunt (common practice, no source).
 */
record RelayLapping(double applyBandPascals, double releaseBandPascals) implements Lapping {
    @Override
    public EpCommand follow(double nowSeconds, double targetPascals, double feedbackPascals) {
        if (feedbackPascals < targetPascals - applyBandPascals) {
            return EpCommand.APPLY;
        }
        return feedbackPascals > targetPascals + releaseBandPascals ? EpCommand.RELEASE : EpCommand.HOLD;
    }
}
