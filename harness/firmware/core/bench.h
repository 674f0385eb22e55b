/*
 * A bench that speaks bench-link, version 1, over a serial line (the contract is harness/docs/bench-link.md).
 *
 * The core allocates nothing, prints nothing and waits for nothing. A board fills in the functions of struct
 * bench_board, describes itself in a struct bench_card, and calls
 *
 *     bench_start   once,
 *     bench_tick    at least once a millisecond, from a timer interrupt or from the main loop: outputs, heartbeat,
 *                   limits, pins and sampling,
 *     bench_talk    as often as it can from the main loop: lines in, lines out.
 *
 * This link is no safety function. Emergency stop, relief valve, supply isolation and an independent watchdog are
 * hard-wired on the bench, by people licensed for that work, under the codes that hold where the bench stands.
 */
#ifndef BENCH_H
#define BENCH_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "sizes.h"

enum bench_kind {
    BENCH_ANALOG_IN,
    BENCH_ANALOG_OUT,
    BENCH_DIGITAL_IN,
    BENCH_DIGITAL_OUT,
    BENCH_PULSE_OUT,  /* millihertz */
    BENCH_PWM_OUT,    /* per mille */
    BENCH_COUNTER_IN
};

/* One point. The name matches [A-Za-z0-9-]{1,32}. A time of 0 is left out of what the bench says of itself. */
struct bench_point {
    const char *name;
    enum bench_kind kind;
    int32_t min, max;    /* counts; analogue kinds only (pulse and pwm outputs are analogue) */
    int32_t safe;        /* outputs only */
    uint32_t filter_us;  /* fixed delay still contained in the stamps */
    uint32_t stamp_us;   /* bound of the stamp's remaining error; a sample further off its instant is left out */
    uint32_t glitch_us;  /* digital inputs: shorter pulses are not sent */
};

/* What the bench says of itself. All of it must stay in place while the bench runs. */
struct bench_card {
    const char *name;
    uint32_t clock_ppm;         /* bound of the clock's rate error */
    uint32_t max_beat_ms;       /* 100 to 500; more where simulated time goes faster than real time */
    uint32_t line_bytes_per_s;  /* what the line carries: a tenth of the baud rate with 8N1 */
    uint32_t tick_us;           /* period of bench_tick, at most 1000 */
    bool dense;                 /* offers dense samples */
    const struct bench_point *points;
    unsigned point_count;
};

/* What a reading is worth. */
enum bench_reading {
    BENCH_GOOD,
    BENCH_NOT_READABLE,  /* no counts */
    BENCH_OVER_RANGE,    /* counts at a rail */
    BENCH_OPEN_LOOP      /* counts of a transducer that is not connected */
};

/* Bits of the board's condition. */
enum { BENCH_STOP_BUTTON = 1, BENCH_SUPPLY_FAULT = 2 };

/* A change of a digital input as the board's capture unit saw it. */
struct bench_change {
    unsigned point;
    int32_t level;
    uint64_t t_us;
};

/* The board. `self` comes back as the first argument of every function. */
struct bench_board {
    void *self;

    /* Microseconds since boot: never back, below 2^53. */
    uint64_t (*now_us)(void *self);

    /* Newest counts of a point, without waiting; of an output, what is at its pin (or what it is driven with). */
    enum bench_reading (*read_point)(void *self, unsigned point, int32_t *counts);

    /* Drives an output, at once. */
    void (*drive_point)(void *self, unsigned point, int32_t value);

    /* BENCH_STOP_BUTTON and BENCH_SUPPLY_FAULT, debounced, as they are now. */
    unsigned (*condition)(void *self);

    /* Takes up to that many bytes for the line without waiting; says how many. The less the board keeps in between,
       the truer is the clock reading of a `pong`. */
    size_t (*send)(void *self, const uint8_t *bytes, size_t length);

    /* Gives up to that many received bytes without waiting; says how many. */
    size_t (*receive)(void *self, uint8_t *bytes, size_t room);

    /* Random, another at each boot. */
    uint32_t (*boot_id)(void *self);

    /* Next captured change of a digital input, oldest first; false when there is none. May be null: then every tick
       reads the pins, and the points' stamp_us must hold the tick's period. */
    bool (*next_change)(void *self, struct bench_change *change);

    /* Keep bench_tick from running meanwhile, where it is an interrupt. May both be null. Never nested. */
    void (*lock)(void *self);
    void (*unlock)(void *self);
};

struct bench;

/* Drives every output safe and starts. Null, or what is wrong with the card (then the bench must not be used). */
const char *bench_start(struct bench *bench, const struct bench_board *board, const struct bench_card *card);

void bench_tick(struct bench *bench);

void bench_talk(struct bench *bench);

/* Whether outputs are live, for a lamp on the panel. */
bool bench_is_armed(const struct bench *bench);

#include "state.h"

#endif
