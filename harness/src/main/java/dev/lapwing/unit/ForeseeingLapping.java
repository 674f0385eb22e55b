package dev.lapwing.unit;

/**
 * Self-lapping of the electronics: begins to fill or exhaust outside a half band, and ends when the pressure, carried on
 * at its present rate for as long as a magnet valve needs to move, would reach the target.
 */
final class ForeseeingLapping implements Lapping {
    private final double applyBand;
    private final double releaseBand;
    private final double leadSeconds;
    private EpCommand command = EpCommand.HOLD;
    private double lastSeconds = Double.NaN;
    private double lastPascals;

    ForeseeingLapping(double applyBandPascals, double releaseBandPascals, double leadSeconds) {
        applyBand = applyBandPascals;
        releaseBand = releaseBandPascals;
        this.leadSeconds = leadSeconds;
    }

    @Override
    public EpCommand follow(double nowSeconds, double targetPascals, double feedbackPascals) {
        // Without an earlier reading no rate is known, and the comparison below is false.
        double rate = (feedbackPascals - lastPascals) / (nowSeconds - lastSeconds);
        double foreseen = Double.isFinite(rate) ? feedbackPascals + leadSeconds * rate : feedbackPascals;
        lastSeconds = nowSeconds;
        lastPascals = feedbackPascals;
        boolean reached = command == EpCommand.APPLY && foreseen >= targetPascals
                || command == EpCommand.RELEASE && foreseen <= targetPascals;
        if (reached) {
            command = EpCommand.HOLD;
        }
        if (command == EpCommand.HOLD && !reached) {
            command = begin(targetPascals, feedbackPascals);
        }
        return command;
    }

    private EpCommand begin(double target, double feedback) {
        if (feedback < target - applyBand) {
            return EpCommand.APPLY;
        }
        return feedback > target + releaseBand ? EpCommand.RELEASE : EpCommand.HOLD;
    }
}
