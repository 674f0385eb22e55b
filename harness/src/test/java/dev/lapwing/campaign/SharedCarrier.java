package dev.lapwing.campaign;

import dev.lapwing.link.HostMessage;
import dev.lapwing.link.Wire;
import dev.lapwing.transport.linked.BenchCarrier;
import dev.lapwing.transport.linked.ForwardingCarrier;
import java.util.Optional;

/** A carrier on which another host can speak up, as if it were on the same line. */
final class SharedCarrier implements ForwardingCarrier {
    private static final String STRANGER = "5712a9e0";

    private final BenchCarrier carrier;
    private volatile Optional<Hearing> hearing = Optional.empty();

    SharedCarrier(BenchCarrier carrier) {
        this.carrier = carrier;
    }

    @Override
    public BenchCarrier to() {
        return carrier;
    }

    @Override
    public void listen(Hearing to) {
        hearing = Optional.of(to);
        carrier.listen(to);
    }

    /** Another host says hello. */
    void secondHello() {
        says(new HostMessage.Hello(STRANGER, 1, Wire.LINK, "a second host"));
    }

    /** Somebody says safe. */
    void toldSafe() {
        says(new HostMessage.Safe(STRANGER, 1));
    }

    private void says(HostMessage message) {
        hearing.ifPresent(to -> to.came(message, 0));
    }
}
