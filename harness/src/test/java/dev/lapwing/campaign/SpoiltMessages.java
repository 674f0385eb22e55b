package dev.lapwing.campaign;

import dev.lapwing.link.BenchMessage;
import dev.lapwing.link.HostMessage;
import dev.lapwing.link.Wire;
import dev.lapwing.time.MonotonicClock;
import dev.lapwing.transport.linked.BenchCarrier;
import java.util.Optional;
import java.util.SplittableRandom;

/** A carrier that loses or doubles messages both ways from a moment on, and on which somebody else can speak up. */
final class SpoiltMessages implements BenchCarrier {
    private static final String STRANGER = "5712a9e0";

    private final BenchCarrier carrier;
    private final DrawnFault fault;
    private final SplittableRandom random;
    private final MonotonicClock clock;
    private final long beganNanos;
    private volatile Optional<Hearing> hearing = Optional.empty();

    SpoiltMessages(BenchCarrier carrier, DrawnFault fault, SplittableRandom random, MonotonicClock clock) {
        this.carrier = carrier;
        this.fault = fault;
        this.random = random;
        this.clock = clock;
        beganNanos = clock.nanos();
    }

    /** Another host says hello, as if it were on the same line. */
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

    /** How often this message passes. */
    private synchronized int times() {
        boolean meets = clock.nanos() - beganNanos >= fault.atNanos() && random.nextDouble() < fault.share();
        return switch (fault.kind()) {
            case MESSAGES_LOST -> meets ? 0 : 1;
            case MESSAGES_DOUBLED -> meets ? 2 : 1;
            default -> 1;
        };
    }

    @Override
    public void listen(Hearing to) {
        hearing = Optional.of(to);
        carrier.listen(new Hearing() {
            @Override
            public void came(HostMessage message, long lineNanos) {
                for (int times = times(); times > 0; times--) {
                    to.came(message, lineNanos);
                }
            }

            @Override
            public void ended(String why) {
                to.ended(why);
            }
        });
    }

    @Override
    public Parcel parcel(BenchMessage message) {
        Parcel parcel = carrier.parcel(message);
        return new Parcel() {
            @Override
            public long lineNanos() {
                return parcel.lineNanos();
            }

            @Override
            public void goesOut(double share) {
                // A message is there or not.
            }

            @Override
            public void send() {
                for (int times = times(); times > 0; times--) {
                    parcel.send();
                }
            }
        };
    }

    @Override
    public long bytesPerSecond() {
        return carrier.bytesPerSecond();
    }

    @Override
    public long badPieces() {
        return carrier.badPieces();
    }

    @Override
    public void close() {
        carrier.close();
    }
}
