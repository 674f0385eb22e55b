package dev.lapwing.cli;

import dev.lapwing.evidence.RunClass;
import dev.lapwing.quantity.Dimension;
import dev.lapwing.quantity.PressureDisplay;
import dev.lapwing.source.NearestName;
import java.io.PrintWriter;
import java.util.Arrays;
import java.util.Locale;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.TypeConversionException;
import picocli.CommandLine.UnmatchedArgumentException;

/** What a mistake in the command itself is answered with: one line that names it, one that says where to read on. */
final class Usage {
    private Usage() {}

    /** From now on that command line answers so, with exit code 64. */
    static void of(CommandLine line) {
        line.registerConverter(Long.TYPE, Usage::wholeNumber);
        line.registerConverter(
                PressureDisplay.class,
                oneOf(
                        PressureDisplay.values(),
                        display -> display.unitFor(Dimension.PRESSURE).symbol()));
        line.registerConverter(RunClass.class, oneOf(RunClass.values(), RunClass::text));
        line.setParameterExceptionHandler((mistake, arguments) -> {
            CommandLine where = mistake.getCommandLine();
            PrintWriter err = where.getErr();
            err.println("lapwing: " + found(mistake));
            err.println("lapwing: '" + where.getCommandSpec().qualifiedName() + " --help' shows what there is");
            err.flush();
            return ExitCode.USAGE.code();
        });
    }

    private static String found(ParameterException mistake) {
        if (mistake instanceof UnmatchedArgumentException unmatched) {
            return unmatched(unmatched);
        }
        String message = mistake.getMessage();
        return message.substring(0, 1).toLowerCase(Locale.ROOT) + message.substring(1);
    }

    private static String unmatched(UnmatchedArgumentException mistake) {
        String word = mistake.getUnmatched().get(0);
        CommandLine where = mistake.getCommandLine();
        if (mistake.isUnknownOption()) {
            return "there is no option '" + word + "'"
                    + hint(word, where.getCommandSpec().optionsMap().keySet());
        }
        Set<String> commands = where.getSubcommands().keySet();
        return commands.isEmpty()
                ? "one argument too many: '" + word + "'"
                : "there is no command '" + word + "', but " + String.join(", ", commands) + hint(word, commands);
    }

    private static String hint(String word, Set<String> known) {
        String hint = NearestName.hint(word, known);
        return hint.isEmpty() ? "" : "; " + hint;
    }

    private static long wholeNumber(String text) {
        try {
            return Long.parseLong(text);
        } catch (NumberFormatException e) {
            throw new TypeConversionException("'" + text + "' is no whole number of at most 18 digits");
        }
    }

    private static <T> ITypeConverter<T> oneOf(T[] values, Function<T, String> words) {
        return text -> Arrays.stream(values)
                .filter(value -> words.apply(value).equalsIgnoreCase(text))
                .findFirst()
                .orElseThrow(() -> new TypeConversionException("'" + text + "' is none of "
                        + Arrays.stream(values).map(words).collect(Collectors.joining(", "))));
    }
}
