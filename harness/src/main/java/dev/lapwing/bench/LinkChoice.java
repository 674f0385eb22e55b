package dev.lapwing.bench;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;

/** How a bench is reached. */
public sealed interface LinkChoice {
    /** True where the bench itself stamps its reports; false where they are stamped as they arrive. */
    default boolean stampsAtSource() {
        return true;
    }

    /** What stamping on arrival adds to the bound of an input's stamps, in µs. */
    default long arrivalDoubtUs() {
        return 0;
    }

    /**
     * What stamping on arrival, and relays, add to the bound of the instant at which outputs were driven, in µs.
     *
     * @param counts that were driven together, by name of the point
     */
    default long driveDoubtUs(Map<String, Integer> counts) {
        return 0;
    }

    /**
     * Not at all: plant and unit run in this process, in virtual time. What its transducers and its clock really get
     * wrong is drawn from these figures; what is claimed of them stands with the calibrations and the points.
     *
     * @param stepSeconds     step of the plant, in s
     * @param commandDelayUs  greatest delay of a timed set's execution, in µs
     * @param transducerError standard deviation of a transducer's error in the middle of its calibrated range, as a
     *                        share of that range; the same at every value but for the next
     * @param spanError       standard deviation of what the error at the high end of the range has more than that at
     *                        the low end, as a share of the range; evenly growing, and none of it in the middle; empty
     *                        where there is none
     * @param transducerNoise standard deviation of one sample's noise, as a share of its calibrated range
     * @param clockError      greatest rate error of the bench clock, as a share
     */
    record Simulated(
            double stepSeconds,
            long commandDelayUs,
            double transducerError,
            OptionalDouble spanError,
            double transducerNoise,
            double clockError)
            implements LinkChoice {

        public Simulated {
            // Records from before there were such errors name none.
            spanError = Objects.requireNonNullElse(spanError, OptionalDouble.empty());
        }

        /** With errors of transducers that are the same at every value. */
        public Simulated(
                double stepSeconds,
                long commandDelayUs,
                double transducerError,
                double transducerNoise,
                double clockError) {
            this(stepSeconds, commandDelayUs, transducerError, OptionalDouble.empty(), transducerNoise, clockError);
        }
    }

    /** Of a serial line unless its file says otherwise, in bits a second. */
    int BAUD_DEFAULT = 921_600;

    /** Least of a serial line, in bits a second. */
    int BAUD_MIN = 1200;

    /** Most of a serial line, in bits a second. */
    int BAUD_MAX = 12_000_000;

    /** Least heartbeat limit of a real link unless its file says otherwise, in ms. */
    int BEAT_MS_DEFAULT = 300;

    /**
     * At a serial device.
     *
     * @param device such as {@code /dev/ttyACM0}
     * @param baud   of the line, 8N1
     * @param beatMs least heartbeat limit in ms, 100 to 500; a slow link asks for a longer one by itself
     * @param speed  how much faster than real time the bench goes; 1 for every real bench
     */
    record Serial(String device, int baud, int beatMs, double speed) implements LinkChoice {}

    /** What the URL of a broker looks like; no room for a user name or a password. */
    String BROKER = "(tcp|ssl):\\/\\/[A-Za-z0-9.:-]+";

    /**
     * Behind an MQTT 5 broker.
     *
     * @param broker its URL, such as {@code tcp://bench-broker:1883}, {@code ssl:} where it speaks TLS; user name and
     *               password are no part of it
     * @param name   the bench's name on the broker
     * @param beatMs least heartbeat limit in ms, 100 to 500; a slow link asks for a longer one by itself
     * @param speed  how much faster than real time the bench goes; 1 for every real bench
     * @param files  what is needed to be let in
     */
    record Mqtt(String broker, String name, int beatMs, double speed, BrokerFiles files) implements LinkChoice {
        public Mqtt(String broker, String name, int beatMs, double speed) {
            this(broker, name, beatMs, speed, BrokerFiles.NONE);
        }
    }

    /**
     * Files that a broker's secrets stand in; a bench file and a record hold their names only.
     *
     * @param credentials user name and password; those of the environment where there is none
     * @param authority   certificates, in PEM, of who vouches for the broker; where there are none, those that this
     *                    Java trusts
     */
    record BrokerFiles(Optional<String> credentials, Optional<String> authority) {
        public static final BrokerFiles NONE = new BrokerFiles(Optional.empty(), Optional.empty());
    }

    /** Of a Modbus line unless its file says otherwise; Modbus over serial line V1.02, section 2.2. */
    int MODBUS_BAUD_DEFAULT = 19_200;

    /**
     * Input and output modules on a Modbus RTU line. They stamp nothing: what is read is stamped by this host, so poll
     * interval and round trip bound every time measured here.
     *
     * @param device      such as {@code /dev/ttyUSB0}
     * @param baud        of the line, 8 data bits
     * @param parity      of the line
     * @param pollUs      interval at which everything that is due is read, in µs
     * @param roundTripUs bound of the time from a request's first byte to its answer's last that readings may rest on,
     *                    with an order of outputs in between, in µs; what takes longer counts as lost
     * @param registers   where each point is found
     */
    record Modbus(String device, int baud, Parity parity, long pollUs, long roundTripUs, List<Register> registers)
            implements LinkChoice {
        public Modbus {
            registers = List.copyOf(registers);
        }

        @Override
        public boolean stampsAtSource() {
            return false;
        }

        /**
         * What is read now was last seen a poll interval and a round trip ago at the most; the stamp is the middle of
         * that.
         */
        @Override
        public long arrivalDoubtUs() {
            return halved(pollUs + roundTripUs);
        }

        /** Driven within a round trip, whose middle is the stamp, and followed by contacts that differ and spread. */
        @Override
        public long driveDoubtUs(Map<String, Integer> counts) {
            Span contacts = contacts(counts);
            return halved(roundTripUs) + halved(contacts.mostUs - contacts.leastUs);
        }

        /** How long after they were written outputs have followed, in the middle between the first and last, in µs. */
        public long contactsLateUs(Map<String, Integer> counts) {
            Span contacts = contacts(counts);
            return (contacts.leastUs + contacts.mostUs) / 2;
        }

        private Span contacts(Map<String, Integer> counts) {
            long least = Long.MAX_VALUE;
            long most = Long.MIN_VALUE;
            for (Register register : registers) {
                Integer count = counts.get(register.point());
                if (count != null) {
                    Register.Contact contact = register.contact();
                    least = Math.min(least, contact.lateUs(count) - contact.spreadUs());
                    most = Math.max(most, contact.lateUs(count) + contact.spreadUs());
                }
            }
            return most < least ? new Span(0, 0) : new Span(least, most);
        }

        private static long halved(long us) {
            return (us + 1) / 2;
        }

        private record Span(long leastUs, long mostUs) {}
    }

    /** Parity of a serial line; even is what Modbus modules must offer, without one there are two stop bits. */
    enum Parity {
        EVEN,
        ODD,
        NONE;

        public String text() {
            return name().toLowerCase(Locale.ROOT);
        }
    }
}
