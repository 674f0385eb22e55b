package dev.lapwing.files;

import dev.lapwing.quantity.Quantity;
import dev.lapwing.quantity.Unit;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * A calibration as it is written to a bench file. Values in the base unit of what is calibrated.
 *
 * @param points      at least two, counts and values rising
 * @param unit        in which values are written
 * @param standard    standard uncertainty (k = 1), greater than 0
 * @param span        standard uncertainty (k = 1) of the difference between both ends, with the drift of the file
 * @param noise       standard deviation of one sample
 * @param certificate or reference that it rests on; not empty
 * @param operator    who made it; not empty
 */
public record NewCalibration(
        List<Point> points,
        Unit unit,
        double standard,
        double span,
        double noise,
        LocalDate date,
        LocalDate due,
        String certificate,
        String operator) {
    private static final int VALUE_DIGITS = 7;
    private static final int DOUBT_DIGITS = 2;
    private static final String PLAIN = "[A-Za-z][A-Za-z0-9 .,()/_-]*[A-Za-z0-9.)]";

    /** That many counts mean that value. */
    public record Point(double counts, double value) {}

    public NewCalibration {
        points = List.copyOf(points);
        if (points.size() < 2 || certificate.isBlank() || operator.isBlank() || !due.isAfter(date)) {
            throw new IllegalArgumentException("a calibration needs points, a reference, an operator and a due date");
        }
    }

    /** As the lines of its block, for who has to write it by hand. */
    public List<String> lines() {
        return yaml().entrySet().stream()
                .map(entry -> entry.getKey() + ": " + entry.getValue())
                .toList();
    }

    /** The keys of the calibration's block that it sets, each with its value as YAML. */
    Map<String, String> yaml() {
        Map<String, String> values = new LinkedHashMap<>();
        values.put(
                "points",
                points.stream()
                        .map(point ->
                                "[" + counts(point.counts()) + " counts, " + figure(point.value(), VALUE_DIGITS) + "]")
                        .collect(Collectors.joining(", ", "[", "]")));
        values.put("uncertainty", figure(standard, DOUBT_DIGITS));
        values.put("span", figure(span, DOUBT_DIGITS));
        values.put("noise", figure(noise, DOUBT_DIGITS));
        values.put("date", date.toString());
        values.put("due", due.toString());
        values.put("certificate", text(certificate));
        values.put("operator", text(operator));
        return values;
    }

    private String figure(double base, int digits) {
        return new Quantity(base, unit.dimension()).print(unit, digits);
    }

    private static String counts(double counts) {
        BigDecimal hundredths = new BigDecimal(counts).setScale(2, RoundingMode.HALF_EVEN);
        return hundredths.signum() == 0 ? "0" : hundredths.stripTrailingZeros().toPlainString();
    }

    private static String text(String text) {
        String line = text.strip().replaceAll("\\s+", " ");
        boolean word = line.matches("(?i)true|false|null|yes|no|on|off");
        return line.matches(PLAIN) && !word ? line : "'" + line.replace("'", "''") + "'";
    }
}
