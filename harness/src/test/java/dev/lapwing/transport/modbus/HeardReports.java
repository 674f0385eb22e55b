package dev.lapwing.transport.modbus;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import java.util.ArrayList;
import java.util.List;

/** Everything that a bench told. */
final class HeardReports implements BenchListener {
    final List<Integer> counts = new ArrayList<>();
    final List<String> edges = new ArrayList<>();
    final List<Long> executed = new ArrayList<>();
    final List<String> lost = new ArrayList<>();
    final List<String> safe = new ArrayList<>();
    final List<String> faults = new ArrayList<>();
    long executedUs;

    @Override
    public void samples(SampleBlock block) {
        counts.add(block.counts()[0]);
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        edges.add(point + " " + level);
    }

    @Override
    public void executed(long id, long dueUs, long atUs) {
        executed.add(id);
        executedUs = atUs;
    }

    @Override
    public void safe(long atUs, String why) {
        safe.add(why);
    }

    @Override
    public void fault(long atUs, String point, String why) {
        faults.add(why);
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        lost.add(streamOrPoint);
    }
}
