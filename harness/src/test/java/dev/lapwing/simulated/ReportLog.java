package dev.lapwing.simulated;

import dev.lapwing.bench.BenchListener;
import dev.lapwing.bench.SampleBlock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Everything a bench reported, as text lines and as samples. */
final class ReportLog implements BenchListener {
    record Row(long atUs, int[] counts) {}

    record Edge(String point, long atUs, boolean level) {}

    record Executed(long id, long dueUs, long atUs) {}

    final List<Row> rows = new ArrayList<>();
    final List<Edge> edges = new ArrayList<>();
    final List<Executed> executed = new ArrayList<>();
    final List<String> others = new ArrayList<>();

    @Override
    public void samples(SampleBlock block) {
        int columns = block.stream().points().size();
        for (int i = 0; i < block.rows(); i++) {
            rows.add(new Row(
                    block.t0Us() + i * block.stream().everyUs(),
                    Arrays.copyOfRange(block.counts(), i * columns, (i + 1) * columns)));
        }
    }

    @Override
    public void edge(String point, long atUs, boolean level) {
        edges.add(new Edge(point, atUs, level));
    }

    @Override
    public void executed(long id, long dueUs, long atUs) {
        executed.add(new Executed(id, dueUs, atUs));
    }

    @Override
    public void safe(long atUs, String why) {
        others.add("safe " + why);
    }

    @Override
    public void fault(long atUs, String point, String why) {
        others.add("fault " + point + " " + why);
    }

    @Override
    public void lost(String streamOrPoint, long fromUs, long toUs) {
        others.add("lost " + streamOrPoint);
    }

    /** All of it in one text, equal only for equal reports. */
    String text() {
        StringBuilder text = new StringBuilder();
        rows.forEach(row ->
                text.append(row.atUs()).append(Arrays.toString(row.counts())).append('\n'));
        edges.forEach(edge -> text.append(edge).append('\n'));
        executed.forEach(done -> text.append(done).append('\n'));
        return text.append(others).toString();
    }
}
