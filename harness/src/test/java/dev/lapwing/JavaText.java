package dev.lapwing;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A Java source with comments and literals blanked, so that braces can be counted; line numbers stay as they were. Good
 * enough for formatted code that compiles; it is no parser.
 */
record JavaText(String code) {

    private static final Pattern BLANKED = Pattern.compile(
            "/\\*.*?\\*/" // block comment
                    + "|//[^\\n]*" // line comment
                    + "|\"\"\".*?(?<!\\\\)\"\"\"" // text block
                    + "|\"(?:\\\\.|[^\"\\\\\\n])*\"" // string
                    + "|'(?:\\\\.|[^'\\\\\\n])+'", // character
            Pattern.DOTALL);
    private static final Pattern TYPE =
            Pattern.compile("\\b(class|interface|enum|record)\\s+\\w+|\\bnew\\b[^;]*\\)\\s*$");
    private static final Pattern CONSTANT_WITH_BODY =
            Pattern.compile("(^|.*[,;}\\s])[A-Z][A-Z0-9_]*\\s*(\\(.*\\))?", Pattern.DOTALL);
    private static final Pattern METHOD_NAME = Pattern.compile("(\\w+)\\s*\\(");

    /** A method and how many lines its braces span, both ends counted. */
    record Method(String name, int line, int lines) {}

    private record Open(String header, boolean isType, int line) {}

    static JavaText of(String source) {
        Matcher found = BLANKED.matcher(source);
        return new JavaText(found.replaceAll(hit -> hit.group().replaceAll("[^\\n]", " ")));
    }

    List<Method> methods() {
        List<Method> methods = new ArrayList<>();
        Deque<Open> open = new ArrayDeque<>();
        int line = 1;
        int headerFrom = 0;
        for (int i = 0; i < code.length(); i++) {
            switch (code.charAt(i)) {
                case '\n' -> line++;
                case ';' -> headerFrom = i + 1;
                case '{' -> {
                    open.push(opened(code.substring(headerFrom, i).strip(), open.peek(), line));
                    headerFrom = i + 1;
                }
                case '}' -> {
                    Open closed = open.pop();
                    if (isMethod(closed, open.peek())) {
                        methods.add(new Method(name(closed), closed.line, line - closed.line + 1));
                    }
                    headerFrom = i + 1;
                }
                default -> {}
            }
        }
        return methods;
    }

    private static Open opened(String header, Open around, int line) {
        boolean inType = around != null && around.isType;
        boolean constant = inType && CONSTANT_WITH_BODY.matcher(header).matches();
        return new Open(header, TYPE.matcher(header).find() || constant, line);
    }

    /** Whatever opens straight inside a type, has parameters and is no type: lambdas and blocks open deeper. */
    private static boolean isMethod(Open closed, Open around) {
        return around != null
                && around.isType
                && !closed.isType
                && closed.header.contains("(")
                && !closed.header.endsWith("->");
    }

    private static String name(Open method) {
        Matcher name = METHOD_NAME.matcher(method.header.replaceAll("@\\w+\\s*(\\([^)]*\\))?", " "));
        return name.find() ? name.group(1) : method.header;
    }
}
