package dev.lapwing.e2e;

/** The links of a bench outside this process. */
enum RealLink {
    SERIAL,
    BROKER,
    MODBUS
}
