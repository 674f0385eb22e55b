package dev.lapwing.report;

import dev.lapwing.quantity.Unit;
import java.util.Arrays;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Text in which what a line must not tear apart is held together: {@code [10 %]}, {@code k = 2}, {@code ± 0.3 psi}. */
final class Unbroken {
    static final char SPACE = '\u00a0';

    private static final Pattern FIGURE = Pattern.compile(Arrays.stream(Unit.values())
            .map(Unit::symbol)
            .filter(symbol -> !symbol.isEmpty())
            .map(Pattern::quote)
            .collect(Collectors.joining("|", "(?<=\\d) (?=(?:", ")(?![\\w/]))")));
    private static final Pattern FACTOR = Pattern.compile("\\bk = (?=\\d)");
    private static final Pattern DOUBT = Pattern.compile("(±|\\+-|[+-]) (?=\\d)");

    private Unbroken() {}

    static String of(String text) {
        String figures = FIGURE.matcher(text).replaceAll(Character.toString(SPACE));
        String factors = FACTOR.matcher(figures).replaceAll("k" + SPACE + "=" + SPACE);
        return DOUBT.matcher(factors).replaceAll("$1" + SPACE);
    }
}
