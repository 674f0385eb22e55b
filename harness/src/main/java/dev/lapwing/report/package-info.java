/**
 * What people and machines read of a run: {@link dev.lapwing.report.TerminalReport} on a terminal or in a log,
 * {@link dev.lapwing.report.HtmlReport} as a page, {@link dev.lapwing.report.JunitXml} for build servers. All three are
 * pure functions of run records: the same record gives the same bytes, and all three say the same. This package sees
 * records, plans and findings, and nothing that made them.
 */
@NullMarked
package dev.lapwing.report;

import org.jspecify.annotations.NullMarked;
