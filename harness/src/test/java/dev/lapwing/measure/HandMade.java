package dev.lapwing.measure;

import dev.lapwing.naming.Keys;
import dev.lapwing.naming.Signal;
import dev.lapwing.signal.Edges;
import dev.lapwing.signal.GrowingTrace;
import dev.lapwing.signal.Trace;
import dev.lapwing.signal.Traces;
import dev.lapwing.signal.Window;
import dev.lapwing.uncertainty.Instrument;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;

/**
 * A recording made by hand: signals as functions of the time in s, pressures in psi, sampled every 2 ms. The
 * transducers are claimed to be good to 0.1 psi (k = 1), their samples to scatter by 0.05 psi, and do.
 */
public final class HandMade implements Recording {
    public static final double PSI = 6894.757293168361;
    private static final long EVERY_US = 2000;
    private static final double NOISE = 0.05 * PSI;

    private final Map<Signal, Sampled> sampled = new LinkedHashMap<>();
    private final Map<Signal, Switched> switched = new LinkedHashMap<>();
    private final Map<Signal, List<Window>> lost = new HashMap<>();
    private final SplittableRandom random;
    private final double seconds;

    public HandMade(double seconds, long seed) {
        this.seconds = seconds;
        this.random = new SplittableRandom(seed);
    }

    /** A pressure in psi. */
    public HandMade pressure(String key, DoubleUnaryOperator psi) {
        return pressure(key, psi, NOISE);
    }

    public HandMade pressure(String key, DoubleUnaryOperator psi, double noise) {
        Signal signal = Keys.signal(key).orElseThrow();
        SplittableRandom own = random.split();
        int samples = (int) Math.round(seconds * 1e6 / EVERY_US);
        Trace trace = Traces.noisy(samples, EVERY_US, t -> PSI * psi.applyAsDouble(t), noise, own);
        return trace(signal, trace);
    }

    /** A pressure in psi whose transducer gives one count for good from a time on. */
    public HandMade dead(String key, DoubleUnaryOperator psi, double from, double held) {
        pressure(key, psi);
        Signal signal = Keys.signal(key).orElseThrow();
        Trace live = sampled.get(signal).trace();
        GrowingTrace trace = new GrowingTrace();
        for (int i = 0; i < live.size(); i++) {
            trace.append(live.timeUs(i), live.timeUs(i) < from * 1e6 ? live.value(i) : held * PSI);
        }
        return trace(signal, trace);
    }

    /** What a transducer reads whose range ends there, in psi. */
    public HandMade within(String key, double most) {
        Signal signal = Keys.signal(key).orElseThrow();
        Trace whole = sampled.get(signal).trace();
        GrowingTrace cut = new GrowingTrace();
        for (int i = 0; i < whole.size(); i++) {
            cut.append(whole.timeUs(i), Math.min(most * PSI, whole.value(i)));
        }
        return trace(signal, cut);
    }

    public HandMade trace(Signal signal, Trace trace) {
        sampled.put(signal, new Sampled(trace, instrument(signal), -10 * PSI, 150 * PSI, EVERY_US));
        return this;
    }

    /** Of a channel with other doubts or another range, in the signal's unit, sampled every millisecond. */
    public HandMade channel(Signal signal, Trace trace, Instrument instrument, double least, double greatest) {
        sampled.put(signal, new Sampled(trace, instrument, least, greatest, 1000));
        return this;
    }

    /** Of a channel without any doubt, sampled every millisecond. */
    public HandMade exact(Signal signal, Trace trace) {
        Instrument channel = new Instrument("true " + signal.key(), 0, 0, 0, 0, 0, true, "true", 0);
        sampled.put(signal, new Sampled(trace, channel, -1e9, 1e9, 1000));
        return this;
    }

    /** A supply voltage in V. */
    public HandMade supply(String key, DoubleUnaryOperator volts) {
        Signal signal = Keys.signal(key).orElseThrow();
        SplittableRandom own = random.split();
        int samples = (int) Math.round(seconds * 1e6 / EVERY_US);
        Trace trace = Traces.noisy(samples, EVERY_US, volts, 0.1, own);
        Instrument meter = new Instrument("M-" + key, 0.2, 0.1, 0.003, 0.1, 20, true, "bench", 20e-6);
        sampled.put(signal, new Sampled(trace, meter, -10, 200, EVERY_US));
        return this;
    }

    /** A wire, off at first, that changes at those seconds. */
    public HandMade wire(String name, double... changes) {
        return wireToldFrom(0, name, changes);
    }

    /** A wire of which nothing was told before that second. */
    public HandMade wireToldFrom(double from, String name, double... changes) {
        Edges edges = new Edges(false, Math.round(from * 1e6));
        boolean level = false;
        for (double change : changes) {
            level = !level;
            edges.append(Math.round(change * 1e6), level);
        }
        Signal signal = new Signal.Wire(name);
        switched.put(signal, new Switched(edges, new Instrument("D-" + name, 0, 0, 0, 0, 10, true, "bench", 20e-6)));
        return this;
    }

    public HandMade lost(String key, double from, double to) {
        lost.put(Keys.signal(key).orElseThrow(), List.of(new Window(Math.round(from * 1e6), Math.round(to * 1e6))));
        return this;
    }

    public static Instrument instrument(Signal signal) {
        return new Instrument("P-" + signal.key(), 0.1 * PSI, 0, 0.0025 * PSI, NOISE, 20, true, "bench", 20e-6);
    }

    /** A copy that ends at those many seconds, as a run that is still on. */
    public HandMade until(double end) {
        HandMade cut = new HandMade(end, 0);
        sampled.forEach((signal, channel) -> {
            GrowingTrace trace = new GrowingTrace();
            for (int i = 0; i < channel.trace().size() && channel.trace().timeUs(i) < end * 1e6; i++) {
                trace.append(channel.trace().timeUs(i), channel.trace().value(i));
            }
            cut.sampled.put(
                    signal,
                    new Sampled(trace, channel.instrument(), channel.least(), channel.greatest(), channel.everyUs()));
        });
        switched.forEach((signal, channel) -> {
            Edges edges = new Edges(false, 0);
            for (int i = 0; i < channel.edges().size() && channel.edges().timeUs(i) <= end * 1e6; i++) {
                edges.append(channel.edges().timeUs(i), channel.edges().level(i));
            }
            cut.switched.put(signal, new Switched(edges, channel.instrument()));
        });
        cut.lost.putAll(lost);
        return cut;
    }

    @Override
    public Set<Signal> signals() {
        Set<Signal> all = new LinkedHashSet<>(sampled.keySet());
        all.addAll(switched.keySet());
        return all;
    }

    @Override
    public Optional<Sampled> sampled(Signal signal) {
        return Optional.ofNullable(sampled.get(signal));
    }

    @Override
    public Optional<Switched> switched(Signal.Wire wire) {
        return Optional.ofNullable(switched.get(wire));
    }

    @Override
    public List<Window> lost(Signal signal) {
        return lost.getOrDefault(signal, List.of());
    }

    @Override
    public long untilUs() {
        return Math.round(seconds * 1e6);
    }
}
