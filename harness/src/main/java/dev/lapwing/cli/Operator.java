package dev.lapwing.cli;

import dev.lapwing.bench.BenchFailure;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;

/** The person at the bench: is told things and asked questions, while the bench goes on. */
final class Operator {
    private static final String STOP = "stop";
    private static final long LOOK_MS = 2;

    private final BufferedReader in;
    private final PrintWriter out;
    private final BooleanSupplier stopped;
    private final BlockingQueue<String> typed = new ArrayBlockingQueue<>(1);

    /** Goes on with the bench for a moment. */
    interface Meanwhile {
        void goOn() throws BenchFailure;
    }

    /** @param stopped whether the person stopped it all by other means, such as Ctrl-C */
    Operator(BufferedReader in, PrintWriter out, BooleanSupplier stopped) {
        this.in = in;
        this.out = out;
        this.stopped = stopped;
    }

    void say(String line) {
        out.println(line);
        out.flush();
    }

    boolean stopped() {
        return stopped.getAsBoolean();
    }

    /**
     * What the person types, without spaces at the ends.
     *
     * @return empty if the person stops: types so, presses Ctrl-C, or nobody is there any more
     */
    Optional<String> ask(String question, Meanwhile meanwhile) throws BenchFailure {
        out.print(question + " ");
        out.flush();
        Thread reader = new Thread(this::read, "lapwing answers");
        reader.setDaemon(true);
        reader.start();
        while (!stopped()) {
            Optional<String> line = look();
            if (line.isPresent()) {
                return line.map(String::strip).filter(answer -> !answer.equalsIgnoreCase(STOP));
            }
            meanwhile.goOn();
        }
        return Optional.empty();
    }

    private Optional<String> look() {
        try {
            return Optional.ofNullable(typed.poll(LOOK_MS, TimeUnit.MILLISECONDS));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return Optional.of(STOP);
        }
    }

    /** On a thread of its own, for a person may take time and the bench has none. */
    private void read() {
        String line;
        try {
            line = in.readLine();
        } catch (IOException e) {
            line = STOP;
        }
        typed.add(line == null ? STOP : line);
    }
}
