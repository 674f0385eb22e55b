package dev.lapwing.evidence;

import dev.lapwing.finding.Verdict;

/**
 * Something that a whole run was to hold and does not.
 *
 * @param sequence name of the sequence, or of the file that is wrong
 * @param title    of the sequence, or what the file is
 * @param state    what is with it, in two or three words
 * @param verdict  none if it was not run; error otherwise. Never a pass
 * @param why      sentences for people
 */
public record Gap(String sequence, String title, String state, Verdict verdict, String why) {

    static Gap notRun(RunSession.Due due, RunSession session) {
        String cause = session.last()
                .map(last -> "the error of " + last.sequence() + " ended the run before it.")
                .orElse("the run had ended before it.");
        return new Gap(due.sequence(), due.title(), "not run", Verdict.NONE, "Not run: " + cause);
    }

    static Gap missing(RunSession.Due due) {
        return lacking(
                due,
                "This sequence was run, and its record is missing. Put the folder '" + due.record()
                        + "' back, or run the sequence again.");
    }

    static Gap brokenOff(RunSession.Due due) {
        return lacking(
                due,
                "The run broke off before this sequence was finished, or is still on, or the record is missing. Once it"
                        + " is over, run the sequence again.");
    }

    private static Gap lacking(RunSession.Due due, String why) {
        return new Gap(due.sequence(), due.title(), "no record", Verdict.ERROR, why);
    }

    static Gap exchanged(RunSession.Due due) {
        return new Gap(
                due.sequence(),
                due.title(),
                "another record",
                Verdict.ERROR,
                "The record of this sequence is not the one that this run made. Put that one back, or run the sequence"
                        + " again.");
    }

    static Gap foreign(RunRecord record) {
        return new Gap(
                record.summary().sequence(),
                record.summary().title(),
                "not of this run",
                Verdict.ERROR,
                "This run was not to hold the record " + record.name() + ". Take it out of the run's folder.");
    }

    static Gap list(String why) {
        return new Gap(
                RunSession.FILE,
                "List of the run's sequences",
                "not as it was written",
                Verdict.ERROR,
                why + ". Whether all records of the run are here is not known.");
    }
}
