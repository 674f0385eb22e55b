package dev.lapwing.transport;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.Samples;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.ForwardingCarrier;
import java.util.ArrayList;
import java.util.List;

/** A bench's end of a link that notes when the whole of each message of samples was handed to what carries it. */
final class StampedCarrier implements ForwardingCarrier {
    private final BenchCarrier carrier;
    private final List<Sent> sent = new ArrayList<>();

    /**
     * Samples on their way.
     *
     * @param atNanos machine time just before its last byte, and with it the whole of it, was handed over
     */
    record Sent(Samples samples, long atNanos) {}

    StampedCarrier(BenchCarrier carrier) {
        this.carrier = carrier;
    }

    /** Everything that was sent, once the bench is closed. */
    List<Sent> sent() {
        return List.copyOf(sent);
    }

    @Override
    public BenchCarrier to() {
        return carrier;
    }

    @Override
    public Parcel parcel(BenchMessage message) {
        Parcel inner = carrier.parcel(message);
        return new Parcel() {
            @Override
            public long lineNanos() {
                return inner.lineNanos();
            }

            @Override
            public void goesOut(double share) {
                inner.goesOut(share);
            }

            @Override
            public void send() {
                if (message instanceof Samples samples) {
                    sent.add(new Sent(samples, System.nanoTime()));
                }
                inner.send();
            }
        };
    }
}
