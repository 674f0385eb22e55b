package dev.lapwing.plan;

import dev.lapwing.finding.Limit;
import dev.lapwing.sequence.AlwaysProperty;
import java.util.Map;

/**
 * An always-on property with its figures.
 *
 * @param property which
 * @param limits   by figure name; a plain value stands as a limit of at most that value
 */
public record Throughout(AlwaysProperty property, Map<String, Limit> limits) {}
