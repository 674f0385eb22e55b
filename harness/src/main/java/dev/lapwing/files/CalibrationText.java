package dev.lapwing.files;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.yaml.snakeyaml.DumperOptions.FlowStyle;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.nodes.CollectionNode;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;

/** A bench file's text, in which one signal's calibration is put anew and nothing else is touched, comments least. */
final class CalibrationText {
    private final String text;
    private final MappingNode root;

    /** Text from one place to another becomes other text. */
    private record Edit(int from, int to, String with) {}

    /** @param text of a bench file without mistakes */
    CalibrationText(String text) {
        this.text = text;
        LoaderOptions options = new LoaderOptions();
        options.setCodePointLimit(TextFile.BYTES_MAX);
        this.root = (MappingNode) new Yaml(options).compose(new StringReader(text));
    }

    /**
     * The text with these values in the signal's calibration. Where other signals share it, the signal is given one of
     * its own, made from a copy.
     *
     * @param values by key, as YAML
     */
    String with(String signal, Map<String, String> values) {
        ScalarNode name = (ScalarNode) value(map(map(root, "inputs"), signal), "calibration");
        MappingNode calibrations = map(root, "calibrations");
        NodeTuple block = tuple(calibrations, name.getValue()).orElseThrow();
        List<Edit> edits = new ArrayList<>();
        if (users(name.getValue()) == 1) {
            edits.addAll(edits((MappingNode) block.getValueNode(), values));
        } else {
            String own = freeName(calibrations, signal);
            edits.add(new Edit(from(name), to(name), own));
            edits.add(copy(calibrations, block, own, values));
        }
        return applied(text, edits, 0);
    }

    private long users(String calibration) {
        return map(root, "inputs").getValue().stream()
                .map(input -> tuple((MappingNode) input.getValueNode(), "calibration"))
                .flatMap(Optional::stream)
                .filter(tuple -> ((ScalarNode) tuple.getValueNode()).getValue().equals(calibration))
                .count();
    }

    private static String freeName(MappingNode calibrations, String signal) {
        String stem = signal.replaceAll("[^a-z0-9]+", "-");
        String name = stem;
        for (int i = 2; tuple(calibrations, name).isPresent(); i++) {
            name = stem + "-" + i;
        }
        return name;
    }

    /** A copy of a block behind it, under another name and with other values. */
    private Edit copy(MappingNode calibrations, NodeTuple block, String name, Map<String, String> values) {
        MappingNode body = (MappingNode) block.getValueNode();
        boolean inFlow = calibrations.getFlowStyle() == FlowStyle.FLOW;
        int from = from(block.getKeyNode());
        int to = inFlow ? to(body) : lineEnd(to(body));
        List<Edit> edits = new ArrayList<>(edits(body, values));
        edits.add(new Edit(from, to(block.getKeyNode()), name));
        String copied = applied(text.substring(from, to), edits, from);
        String before = inFlow ? ", " : newline() + indent(block.getKeyNode());
        return new Edit(to, to, before + copied);
    }

    private List<Edit> edits(MappingNode body, Map<String, String> values) {
        List<Edit> edits = new ArrayList<>();
        Map<String, String> added = new LinkedHashMap<>();
        for (Map.Entry<String, String> entry : values.entrySet()) {
            Optional<NodeTuple> there = tuple(body, entry.getKey());
            if (there.isPresent()) {
                Node old = there.get().getValueNode();
                edits.add(new Edit(from(old), to(old), entry.getValue()));
            } else {
                added.put(entry.getKey(), entry.getValue());
            }
        }
        if (!added.isEmpty()) {
            edits.add(addition(body, added));
        }
        return edits;
    }

    private Edit addition(MappingNode body, Map<String, String> added) {
        NodeTuple last = body.getValue().get(body.getValue().size() - 1);
        boolean inFlow = body.getFlowStyle() == FlowStyle.FLOW;
        int at = inFlow ? to(last.getValueNode()) : lineEnd(to(last.getValueNode()));
        String before =
                inFlow ? ", " : newline() + indent(body.getValue().get(0).getKeyNode());
        StringBuilder lines = new StringBuilder();
        added.forEach(
                (key, value) -> lines.append(before).append(key).append(": ").append(value));
        return new Edit(at, at, lines.toString());
    }

    private static String applied(String text, List<Edit> edits, int offset) {
        StringBuilder changed = new StringBuilder(text);
        edits.stream()
                .sorted(Comparator.comparingInt(Edit::from).reversed())
                .forEach(edit -> changed.replace(edit.from() - offset, edit.to() - offset, edit.with()));
        return changed.toString();
    }

    private String newline() {
        return text.contains("\r\n") ? "\r\n" : "\n";
    }

    private static String indent(Node key) {
        return " ".repeat(key.getStartMark().getColumn());
    }

    /** Where the line ends in which that place lies; a remark behind it is part of the line. */
    private int lineEnd(int at) {
        int end = at;
        while (end < text.length() && text.charAt(end) != '\n' && text.charAt(end) != '\r') {
            end++;
        }
        return end;
    }

    private int from(Node node) {
        return index(node.getStartMark());
    }

    /** Where it ends; a collection in lines ends where the last in it does, for its own mark lies far behind. */
    private int to(Node node) {
        if (node instanceof CollectionNode<?> collection && collection.getFlowStyle() == FlowStyle.BLOCK) {
            Object last = collection.getValue().get(collection.getValue().size() - 1);
            return to(last instanceof NodeTuple tuple ? tuple.getValueNode() : (Node) last);
        }
        return index(node.getEndMark());
    }

    /** Marks count code points. */
    private int index(Mark mark) {
        return text.offsetByCodePoints(0, mark.getIndex());
    }

    private static MappingNode map(MappingNode in, String key) {
        return (MappingNode) value(in, key);
    }

    private static Node value(MappingNode in, String key) {
        return tuple(in, key).orElseThrow().getValueNode();
    }

    private static Optional<NodeTuple> tuple(MappingNode in, String key) {
        return in.getValue().stream()
                .filter(tuple -> tuple.getKeyNode() instanceof ScalarNode scalar
                        && scalar.getValue().equals(key))
                .findFirst();
    }
}
