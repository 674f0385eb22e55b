/**
 * What people and machines read of a run: {@link dev.lapwing.report.TerminalReport},
 * {@link dev.lapwing.report.HtmlReport} and {@link dev.lapwing.report.JunitXml}. All three are pure functions of run
 * records: the same record gives the same bytes, and all three say the same. This package sees records, plans and findings, and
 * nothing that made them.
 */
@NullMarked
package dev.lapwing.report;

import org.jspecify.annotations.NullMarked;
