package dev.lapwing.bench;

/** How a bench is reached. */
public sealed interface LinkChoice {
    /**
     * Not at all: plant and unit run in this process, in virtual time. What its transducers and its clock really get
     * wrong is drawn from these figures; what is claimed of them stands with the calibrations and the points.
     *
     * @param stepSeconds     step of the plant, in s
     * @param commandDelayUs  greatest delay of a timed set's execution, in µs
     * @param transducerError standard deviation of a transducer's constant error, as a share of its calibrated range
     * @param transducerNoise standard deviation of one sample's noise, as a share of its calibrated range
     * @param clockError      greatest rate error of the bench clock, as a share
     */
    record Simulated(
            double stepSeconds, long commandDelayUs, double transducerError, double transducerNoise, double clockError)
            implements LinkChoice {}

    /** Of a serial line unless its file says otherwise. */
    int BAUD_DEFAULT = 921_600;

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

    /**
     * Behind an MQTT 5 broker.
     *
     * @param broker its URL, such as {@code tcp://bench-broker:1883}, {@code ssl:} where it speaks TLS; user name and
     *               password are no part of it
     * @param name   the bench's name on the broker
     * @param beatMs least heartbeat limit in ms, 100 to 500; a slow link asks for a longer one by itself
     * @param speed  how much faster than real time the bench goes; 1 for every real bench
     */
    record Mqtt(String broker, String name, int beatMs, double speed) implements LinkChoice {}
}
