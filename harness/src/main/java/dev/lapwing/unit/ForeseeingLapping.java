package dev.lapwing.unit;

/**
 * Self-lapping of the electronics: begins to fill or exhaust outside a half band, and ends when the pressure, carried
 * on at its present rate for as long as a magnet valve needs to move, would reach the target. Having ended, it gives
 * the valves time to do so before it does the same again.
 */
final class ForeseeingLapping implements Lapping {
    /** Longer than a magnet valve takes to move. */
    private static final double SETTLING_SECONDS = 0.1;

    private final double applyBand;
    private final double releaseBand;
    private final double leadSeconds;
    private EpCommand command = EpCommand.HOLD;
    private EpCommand ended = EpCommand.HOLD;
    private double endedSeconds;
    private double lastSeconds = Double.NaN;
    private double lastPascals;

    ForeseeingLapping(double applyBandPascals, double releaseBandPascals, double leadSeconds) {
        applyBand = applyBandPascals;
        releaseBand = releaseBandPascals;
        this.leadSeconds = leadSeconds;
    }

    @Override
    public EpCommand follow(double nowSeconds, double targetPascals, double feedbackPascals) {
        double foreseen = foreseen(nowSeconds, feedbackPascals);
        boolean reached = command == EpCommand.APPLY && foreseen >= targetPascals
                || command == EpCommand.RELEASE && foreseen <= targetPascals;
        if (reached) {
            ended = command;
            endedSeconds = nowSeconds;
            command = EpCommand.HOLD;
        }
        if (command == EpCommand.HOLD) {
            EpCommand due = due(targetPascals, feedbackPascals);
            boolean settled = due != ended || nowSeconds - endedSeconds >= SETTLING_SECONDS;
            command = settled ? due : EpCommand.HOLD;
        }
        return command;
    }

    private double foreseen(double nowSeconds, double feedback) {
        // Before the second reading the rate is not a number, and none is foreseen.
        double rate = (feedback - lastPascals) / (nowSeconds - lastSeconds);
        lastSeconds = nowSeconds;
        lastPascals = feedback;
        return Double.isFinite(rate) ? feedback + leadSeconds * rate : feedback;
    }

    private EpCommand due(double target, double feedback) {
        if (feedback < target - applyBand) {
            return EpCommand.APPLY;
        }
        return feedback > target + releaseBand ? EpCommand.RELEASE : EpCommand.HOLD;
    }
}
