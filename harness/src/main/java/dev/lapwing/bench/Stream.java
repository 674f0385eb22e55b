package dev.lapwing.bench;

import java.util.List;

/**
 * Points sampled together on one grid.
 *
 * @param name    matches {@code [A-Za-z0-9-]{1,32}}
 * @param points  names of sampled points
 * @param everyUs sample interval in µs
 */
public record Stream(String name, List<String> points, long everyUs) {
    public Stream {
        points = List.copyOf(points);
    }
}
