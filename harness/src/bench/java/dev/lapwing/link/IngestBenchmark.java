package dev.lapwing.link;

import dev.lapwing.bench.PointKind;
import dev.lapwing.link.host.HostEvent;
import dev.lapwing.link.host.HostSession;
import dev.lapwing.link.host.HostSettings;
import java.io.ByteArrayOutputStream;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * One second of a serial line with 8 channels, from its bytes to the samples that a host session tells: framing, CRC,
 * JSON or CBOR, numbers. What it takes in ms is the share of one processor in tenths of a percent.
 */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class IngestBenchmark {
    private static final String SESSION = "5be1c07d";
    private static final int CHANNELS = 8;
    /** As a third of a heartbeat limit of 300 ms asks for at 921600 baud. */
    private static final int BYTES_EACH = 4_000;

    /** Samples a second, and how they travel. */
    @Param({"1000 json", "1000 dense", "5000 dense"})
    public String stream = "";

    private final List<String> points =
            IntStream.range(0, CHANNELS).mapToObj(i -> "P" + i).toList();
    private byte[] line = {};
    private BenchMessage.Greeting greeting = greeting();

    /** Makes the bytes of one second. */
    @Setup
    public void setUp() {
        int rate = Integer.parseInt(stream.split(" ")[0]);
        boolean dense = stream.endsWith("dense");
        int rows = BYTES_EACH / (dense ? 2 * CHANNELS : 5 * CHANNELS + 2);
        SplittableRandom random = new SplittableRandom(1);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        for (int row = 0; row < rate; row += rows) {
            int[] counts = random.ints((long) Math.min(rows, rate - row) * CHANNELS, 1_000, 4_096)
                    .toArray();
            long everyUs = 1_000_000 / rate;
            Samples samples =
                    new Samples(SESSION, row / rows, "quick", 2, 1_000_000 + row * everyUs, everyUs, points, counts);
            bytes.writeBytes(SerialEncoder.of(dense ? samples.asDense() : samples));
        }
        line = bytes.toByteArray();
        System.out.printf(Locale.ROOT, "%s: %d bytes a second%n", stream, line.length);
    }

    /** From bytes, a kilobyte at a time, to counts. */
    @Benchmark
    public long ingest() {
        long[] sum = new long[1];
        HostSession host = new HostSession(new HostSettings(SESSION, "benchmark", 10), event -> add(event, sum), 0);
        host.poll(0);
        host.receive(greeting, 0);
        SerialDecoder decoder = SerialDecoder.ofBench();
        SerialDecoder.Sink sink = new SerialDecoder.Sink() {
            @Override
            public boolean line(byte[] json) {
                return MessageReader.benchMessage(json)
                        .map(message -> take(host, message))
                        .orElse(false);
            }

            @Override
            public boolean dense(byte[] cbor) {
                return MessageReader.denseSamples(cbor)
                        .map(message -> take(host, message))
                        .orElse(false);
            }
        };
        for (int at = 0; at < line.length; at += 1_024) {
            decoder.accept(line, at, Math.min(1_024, line.length - at), sink);
        }
        return sum[0];
    }

    private static boolean take(HostSession host, BenchMessage message) {
        host.receive(message, 1_000_000);
        return true;
    }

    private static void add(HostEvent event, long[] sum) {
        if (event instanceof HostEvent.Reported told && told.report() instanceof Samples samples) {
            for (int count : samples.counts()) {
                sum[0] += count;
            }
        }
    }

    private static BenchMessage.Greeting greeting() {
        List<LinkPoint> points = IntStream.range(0, CHANNELS)
                .mapToObj(i -> new LinkPoint("P" + i, PointKind.ANALOG_IN, 0, 4095, 0, 10, 0, LinkPoint.UNSAID))
                .toList();
        BenchCard card = new BenchCard(1, "bay-2", "90c4a1f3", 50, 8, 300, 4096, true, points);
        return new BenchMessage.Greeting(SESSION, 1, 0, 1_000, card);
    }
}
