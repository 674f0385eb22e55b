/*
 * What the bench for this machine is made of, read from a small text file. One thing a line, words between blanks,
 * '#' begins a remark:
 *
 *     bench simulated-bay-2 clock-ppm 50 max-beat-ms 500
 *     point P1 analog-in min 0 max 4095 filter-us 800 stamp-us 100
 *     point W1 digital-out safe 0
 *     hold P2 at 1024 noise 3
 *     follow P1 from H1 times 0.5 plus 400 within-ms 250 noise 2
 *     wire D1 from W1 inverted after-us 300
 *
 * `follow` gives an input the value of an output, scaled, through a first-order lag; `wire` ties a digital input to a
 * digital output; `hold` keeps an input where it is. Inputs that are not mentioned read 0. The bench's name begins with
 * `simulated-`, as that of every bench does that computes what it reports.
 */
#ifndef SETUP_H
#define SETUP_H

#include <stdbool.h>

#include "../core/bench.h"

enum source_kind { SOURCE_HOLD, SOURCE_FOLLOW, SOURCE_WIRE };

/* Where an input's value comes from. */
struct source {
    enum source_kind kind;
    unsigned from;         /* point that it follows or is wired to */
    double times, plus;    /* counts for each count, and counts */
    double within_ms;      /* time constant of the lag; 0: none */
    double noise;          /* greatest deviation of a reading, in counts */
    bool inverted;
    unsigned after_us;     /* delay of a wire */
};

struct setup {
    struct bench_card card;
    struct bench_point points[BENCH_POINTS_MAX];
    struct source sources[BENCH_POINTS_MAX];
    char names[BENCH_POINTS_MAX + 1][BENCH_NAME_MAX + 1];
};

/* False where the file cannot be taken: then what is wrong has been written to standard error, with its line. */
bool read_setup(const char *path, struct setup *setup);

#endif
