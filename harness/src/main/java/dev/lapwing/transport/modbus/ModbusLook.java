package dev.lapwing.transport.modbus;

import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.bench.Polled;
import dev.lapwing.bench.RegisterBlock;
import dev.lapwing.bench.RoundTrips;
import dev.lapwing.time.MonotonicClock;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A look at the modules of a bench file: how long what is read together takes. Drives nothing. */
public final class ModbusLook {
    private ModbusLook() {}

    /**
     * Reads everything again and again.
     *
     * @param times how often
     * @return by what is read together
     * @throws BenchFailure if the device cannot be opened, or nothing answers at all
     */
    public static Map<Polled, RoundTrips> at(BenchFile file, LinkChoice.Modbus link, int times, MonotonicClock clock)
            throws BenchFailure {
        Map<Polled, RoundTrips> seen = new LinkedHashMap<>();
        try (ModbusLine line = ModbusLine.open(link, clock)) {
            for (Polled each : Polled.of(link, file.streams())) {
                seen.put(each, trips(each, line, times, clock));
            }
        }
        if (seen.values().stream().allMatch(trips -> trips.nanos().isEmpty())) {
            throw new BenchFailure("no module answers; look at the power, the wires, the baud rate and the parity");
        }
        return seen;
    }

    private static RoundTrips trips(Polled each, ModbusLine line, int times, MonotonicClock clock) {
        List<Long> nanos = new ArrayList<>();
        for (int i = 0; i < times; i++) {
            long sentNanos = clock.nanos();
            try {
                for (RegisterBlock block : each.blocks()) {
                    line.read(block);
                }
                nanos.add(clock.nanos() - sentNanos);
            } catch (IOException e) {
                // Counted by its absence.
            }
        }
        return new RoundTrips(nanos, times - nanos.size());
    }
}
