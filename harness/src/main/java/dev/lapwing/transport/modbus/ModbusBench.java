package dev.lapwing.transport.modbus;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.time.MonotonicClock;
import java.io.IOException;
import java.util.Map;

/**
 * A bench made of off-the-shelf input and output modules on a Modbus RTU line. Such modules stamp nothing: bench time
 * is this host's monotonic clock since opening, what is read is stamped as it arrives, and poll interval and round trip
 * bound every time measured here.
 *
 * <p><b>Such modules have no watchdog that this bench could rely on.</b> When the host, its program or the cable fails,
 * outputs stay as they were driven last. An independent, hard-wired watchdog that takes the outputs' supply away is
 * needed wherever that could hurt somebody. While the host lives, outputs are made safe when the runner stands still
 * for a second, and at close.
 */
public final class ModbusBench implements Bench {
    private final Identity identity;
    private final LineKeeper keeper;
    private final Queued queued;

    private ModbusBench(Identity identity, LineKeeper keeper, Queued queued) {
        this.identity = identity;
        this.keeper = keeper;
        this.queued = queued;
    }

    /**
     * Opens the line.
     *
     * @param boot    names this opening
     * @param hostPpm bound of the rate error of {@code machine}, in parts per million; the file may claim no less
     * @throws BenchFailure if the device cannot be opened or the file claims a better clock than the host's
     */
    public static Bench open(
            BenchFile file, LinkChoice.Modbus link, String boot, double hostPpm, MonotonicClock machine)
            throws BenchFailure {
        if (file.clockRateBound() * 1e6 < hostPpm - 1e-6) {
            throw new BenchFailure(file.file() + " claims a clock within " + file.clockRateBound() * 1e6
                    + " ppm; over Modbus the host's clock times everything, and is good to " + hostPpm + " ppm");
        }
        Queued queued = new Queued();
        LineKeeper keeper = new LineKeeper(file, link, ModbusLine.open(link, machine), queued, machine);
        keeper.start();
        return new ModbusBench(new Identity(file.name(), boot, false), keeper, queued);
    }

    @Override
    public Identity identity() {
        return identity;
    }

    @Override
    public long nowUs() {
        return keeper.nowUs();
    }

    @Override
    public void arm() throws BenchFailure {
        begin(LineKeeper.State.ARMED, "the bench cannot be armed: ");
    }

    /** Drives the outputs to their safe values first: modules keep what they were left at. */
    @Override
    public void watch() throws BenchFailure {
        begin(LineKeeper.State.WATCHED, "the bench cannot be read: ");
    }

    private void begin(LineKeeper.State as, String failing) throws BenchFailure {
        try {
            keeper.begin(as);
        } catch (IOException e) {
            throw new BenchFailure(failing + e.getMessage(), e);
        }
    }

    @Override
    public void alive() {
        keeper.progress();
    }

    @Override
    public void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure {
        keeper.progress();
        if (!keeper.order(new Orders.Order(id, Map.copyOf(counts), atUs, overUs))) {
            throw new BenchFailure("the bench is not armed: nothing is driven");
        }
    }

    @Override
    public void advance(long untilUs, BenchListener listener) throws BenchFailure {
        keeper.progress();
        try {
            queued.await(Math.max(1, (untilUs - nowUs()) / 1_000));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        queued.tell(listener);
        // The lost stretch is told before the end.
        var broken = keeper.broken();
        if (broken.isPresent() && queued.isEmpty()) {
            throw new BenchFailure("the link to the bench is lost: " + broken.get()
                    + ". Modules that still answered were made safe; others keep their outputs as they were. See by"
                    + " hand that all are safe, then look at the power, the wires and the baud rate");
        }
    }

    @Override
    public boolean awaits(long us) {
        return keeper.awaits(us) || !queued.isEmpty();
    }

    @Override
    public void safe() {
        keeper.safe("host");
    }

    @Override
    public void close() {
        keeper.safe("host");
        keeper.close();
    }
}
