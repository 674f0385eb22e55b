package dev.lapwing.cli;

import dev.lapwing.bench.BenchFile;
import dev.lapwing.bench.LinkChoice;
import dev.lapwing.files.BenchFiles;
import dev.lapwing.files.FixtureFiles;
import dev.lapwing.fixture.Fixture;
import dev.lapwing.link.Wire;
import dev.lapwing.simulated.SimulatedTerminals;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.ServedBench;
import dev.lapwing.transport.serial.ServedLine;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;

/** The simulated bench served in this process on a real pseudo-terminal, and commands that look at it. */
final class ServedForTest implements AutoCloseable {
    private static final Path SIMULATED = Path.of("bench-config/simulated.yaml");

    private static final int BAUD = 921_600;
    /** Longer than a real bench may offer: nothing is live here, and a busy machine may stand still for a while. */
    private static final int BEAT_MS = 1_500;

    final String device;
    private final ServedBench served;

    /** What a command printed, and how it ended. */
    record Ended(int exit, String out, String err) {}

    private ServedForTest(String device, ServedBench served) {
        this.device = device;
        this.served = served;
    }

    static ServedForTest open() throws Exception {
        BenchFile file = BenchFiles.load(SIMULATED).value().orElseThrow();
        Fixture fixture =
                FixtureFiles.load(Path.of("fixtures/classic.yaml")).value().orElseThrow();
        SimulatedTerminals terminals = SimulatedTerminals.open(file, fixture.wiring(), fixture.simulation(), 1);
        ServedLine line = ServedLine.open(BAUD);
        ServedBench served = new ServedBench(
                terminals.card("c0ffee01", (double) BEAT_MS / Wire.BEAT_MS_MAX),
                terminals,
                line,
                1,
                MonotonicClock.system());
        served.start();
        return new ServedForTest(line.device(), served);
    }

    /** The shipped bench file, but reached at this device. */
    Path file(Path folder) throws IOException {
        String text = Files.readString(SIMULATED)
                .replaceFirst(
                        "(?s)  simulated:\n.*?\n\n", "  serial:\n    device: " + device + "\n    beat: 500 ms\n\n");
        return Files.writeString(folder.resolve("served.yaml"), text);
    }

    /** What such a file says, but with a heartbeat limit for a machine that has other things to do. */
    BenchFile patient(Path file) {
        return BenchFiles.load(file).value().orElseThrow().reached(new LinkChoice.Serial(device, BAUD, BEAT_MS, 1));
    }

    /** Presses its stop button. */
    void stopButton() {
        served.stopButton(true);
    }

    boolean armed() {
        return served.armed();
    }

    static Ended lapwing(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int exit = Lapwing.execute(arguments, new PrintWriter(out, true), new PrintWriter(err, true));
        return new Ended(exit, out.toString(), err.toString());
    }

    @Override
    public void close() {
        served.close();
    }
}
