package dev.lapwing.files;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.lapwing.source.Mistakes;
import dev.lapwing.source.Place;
import java.util.Optional;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.MarkedYAMLException;

/** Says in our words what the YAML library found wrong. */
final class YamlProblem {
    private YamlProblem() {}

    static void report(String file, String text, JsonProcessingException thrown, Mistakes mistakes) {
        Optional<MarkedYAMLException> marked = marked(thrown);
        Place place = marked.flatMap(e -> Optional.ofNullable(e.getProblemMark()))
                .map(mark -> place(file, mark))
                .orElseGet(() -> place(file, thrown));
        String problem = marked.map(MarkedYAMLException::getProblem).orElse("");
        Said said = said(problem == null ? "" : problem, String.valueOf(thrown.getMessage()));
        boolean tab = lineOf(text, place.line()).contains("\t");
        mistakes.add(place, said.found(), "", tab ? "indent with spaces, never with tabs" : said.hint());
    }

    private record Said(String found, String hint) {}

    private static Said said(String problem, String message) {
        if (problem.contains("TAB")) {
            return new Said("a tab stands where none may", "");
        }
        if (problem.startsWith("mapping values are not allowed")) {
            return new Said("a ':' stands where none may", "put a text that holds one in quotes");
        }
        if (problem.contains("expected ':'")) {
            return new Said("a ':' is missing before here", "");
        }
        if (problem.contains("expected <block end>")) {
            return new Said("this is not indented as what stands above it", "");
        }
        if (problem.contains("unexpected end of stream") || problem.contains("stream end")) {
            return new Said("a quote or bracket is still open here", "");
        }
        if (problem.contains("expected ',' or")) {
            boolean colon = problem.contains("got :");
            return new Said(
                    "a ',' or a closing bracket is missing before here",
                    colon ? "put a text that holds ': ' in quotes" : "");
        }
        boolean key = message.contains("field name");
        return new Said(key ? "a key is no single word" : "this cannot be read as YAML", "");
    }

    private static Optional<MarkedYAMLException> marked(Throwable thrown) {
        for (Throwable cause = thrown; cause != null; cause = cause.getCause()) {
            if (cause instanceof MarkedYAMLException marked) {
                return Optional.of(marked);
            }
        }
        return Optional.empty();
    }

    private static Place place(String file, Mark mark) {
        return new Place(file, mark.getLine() + 1, mark.getColumn() + 1);
    }

    private static Place place(String file, JsonProcessingException thrown) {
        return thrown.getLocation() == null
                ? new Place(file, 1, 1)
                : new Place(
                        file,
                        Math.max(1, thrown.getLocation().getLineNr()),
                        Math.max(1, thrown.getLocation().getColumnNr()));
    }

    private static String lineOf(String text, int line) {
        return text.lines().skip(line - 1L).findFirst().orElse("");
    }
}
