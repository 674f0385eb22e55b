package dev.lapwing.link;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What the published contract shows is what is written and read, byte for byte. */
class WorkedLinesTest {
    private static final Samples QUICK = new Samples(
                    "5be1c07d", 9, "quick", 6, 1_600_000, 200, List.of("P1", "P2"), new int[] {512, 1024, 513, 1023})
            .asDense();

    @Test
    void thePageShowsAWholeSession() {
        assertEquals(21, WorkedLines.lines().size());
    }

    @Test
    void whatIsReadIsWrittenAgainByteForByte() {
        for (String line : WorkedLines.lines()) {
            byte[] json = WorkedLines.json(line);
            byte[] again = WorkedLines.ofBench(line)
                    ? MessageWriter.json(MessageReader.benchMessage(json).orElseThrow())
                    : CommandWriter.json(CommandReader.hostMessage(json).orElseThrow());
            assertEquals(line + "\n", new String(SerialEncoder.line(again), UTF_8));
        }
    }

    @Test
    void theDecoderFindsEveryLineAndTheDenseMessage() {
        List<byte[]> found = new ArrayList<>();
        SerialDecoder decoder = SerialDecoder.ofBench();
        SerialDecoder.Sink sink = new SerialDecoder.Sink() {
            @Override
            public boolean line(byte[] json) {
                return found.add(json);
            }

            @Override
            public boolean dense(byte[] cbor) {
                return found.add(cbor);
            }
        };
        byte[] dense = WorkedLines.dense();
        decoder.accept(dense, 0, dense.length, sink);
        for (String line : WorkedLines.lines()) {
            byte[] bytes = (line + "\n").getBytes(UTF_8);
            decoder.accept(bytes, 0, bytes.length, sink);
        }
        assertEquals(22, found.size());
        assertEquals(0, decoder.bad());
        assertEquals(QUICK, MessageReader.denseSamples(found.get(0)).orElseThrow());
    }

    @Test
    void theDenseMessageIsWrittenByteForByte() {
        assertArrayEquals(WorkedLines.dense(), SerialEncoder.dense(MessageWriter.dense(QUICK)));
    }

    @Test
    void presenceIsTheGreetingWithoutWhatIsOnlyTheAnswers() {
        BenchMessage.Greeting bench = (BenchMessage.Greeting)
                MessageReader.benchMessage(WorkedLines.json(WorkedLines.lines().get(1)))
                        .orElseThrow();
        byte[] here = MessageWriter.here(bench.card());
        String text = new String(here, UTF_8);
        assertTrue(
                text.startsWith("{\"m\":\"bench\",\"link\":1,\"name\":\"bay-2\",\"boot\":\"90c4a1f3\",\"clock-ppm\""));
        assertEquals(bench.card(), MessageReader.here(here).orElseThrow());
    }
}
