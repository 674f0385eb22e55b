package dev.lapwing.run;

import dev.lapwing.bench.Bench;
import dev.lapwing.bench.BenchFailure;
import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import dev.lapwing.bench.Stream;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.LongToIntFunction;

/** A bench that does what a test has written down, in a time that it makes up. */
final class ScriptedBench implements Bench {
    /** What happens at a bench time. */
    interface Happening {
        void happen(BenchListener listener) throws BenchFailure;
    }

    private record Waiting(long id, Map<String, Integer> counts, long dueUs) {}

    final List<String> calls = new ArrayList<>();
    final Map<String, Integer> driven = new TreeMap<>();
    private final TreeMap<Long, Happening> script = new TreeMap<>();
    private final List<Waiting> waiting = new ArrayList<>();
    private Stream stream = new Stream("none", List.of(), 10_000);
    private LongToIntFunction counts = us -> 0;
    private long nowUs = 1_000_000;
    private long sampledUs = nowUs;
    private boolean armed;
    private boolean safeAsked;
    boolean silentAboutSafe;
    boolean silentAboutSets;
    boolean standsStill;
    /** Reports of any time are awaited until then. */
    long awaitsUntilUs;

    int safes;

    /** Samples one point all the time. */
    ScriptedBench samples(Stream one, LongToIntFunction at) {
        stream = one;
        counts = at;
        return this;
    }

    ScriptedBench at(long us, Happening happening) {
        script.put(us, happening);
        return this;
    }

    /** It became safe by itself. */
    void trip(BenchListener listener, String why) {
        armed = false;
        driven.clear();
        waiting.clear();
        listener.safe(nowUs, why);
    }

    boolean armed() {
        return armed && !safeAsked;
    }

    @Override
    public Identity identity() {
        return new Identity("scripted", "00000001", true);
    }

    @Override
    public long nowUs() {
        return nowUs;
    }

    @Override
    public void arm() throws BenchFailure {
        calls.add("arm");
        armed = true;
        safeAsked = false;
    }

    @Override
    public void set(long id, Map<String, Integer> counts, long atUs, long overUs) throws BenchFailure {
        calls.add("set " + counts);
        if (!armed()) {
            throw new BenchFailure("not-armed");
        }
        waiting.add(new Waiting(id, counts, atUs));
    }

    @Override
    public void advance(long untilUs, BenchListener listener) throws BenchFailure {
        if (standsStill) {
            return;
        }
        if (safeAsked && armed) {
            armed = false;
            driven.clear();
            waiting.clear();
            if (!silentAboutSafe) {
                listener.safe(nowUs, "host");
            }
        }
        while (!script.isEmpty() && script.firstKey() <= untilUs) {
            nowUs = Math.max(nowUs, script.firstKey());
            script.pollFirstEntry().getValue().happen(listener);
        }
        for (Waiting set : List.copyOf(waiting)) {
            if (set.dueUs() <= untilUs && armed()) {
                waiting.remove(set);
                driven.putAll(set.counts());
                if (!silentAboutSets) {
                    listener.executed(set.id(), set.dueUs(), set.dueUs() + 3);
                }
            }
        }
        if (!stream.points().isEmpty()) {
            while (sampledUs + stream.everyUs() <= untilUs) {
                sampledUs += stream.everyUs();
                listener.samples(new SampleBlock(stream, sampledUs, 1, new int[] {counts.applyAsInt(sampledUs)}));
            }
        }
        nowUs = Math.max(nowUs, untilUs);
    }

    @Override
    public boolean awaits(long us) {
        return nowUs < awaitsUntilUs;
    }

    @Override
    public void safe() {
        calls.add("safe");
        safes++;
        safeAsked = true;
    }

    @Override
    public void close() {
        safe();
    }
}
