/* What is connected to the points: inputs that follow outputs, wires, and inputs that stand still. */
#ifndef WORLD_H
#define WORLD_H

#include "setup.h"

#define CHANGES_MAX 1024u
#define DUE_MAX 16384u

/* An output as it was driven. */
struct drive {
    unsigned point;
    int32_t value;
    uint64_t t_us;
};

struct world {
    const struct setup *setup;
    bool elsewhere;  /* inputs come from another process: nothing follows anything here */
    uint64_t now_us, random;
    int32_t driven[BENCH_POINTS_MAX];   /* outputs */
    double value[BENCH_POINTS_MAX];     /* analogue inputs, after their lag */
    uint8_t level[BENCH_POINTS_MAX];    /* digital inputs */
    struct bench_change due[DUE_MAX];  /* inputs that will change, in the order of their times; to any counts */
    unsigned due_first, due_end;
    struct bench_change captured[CHANGES_MAX];
    unsigned captured_first, captured_count;
    struct drive drives[CHANGES_MAX];  /* outputs driven since the other process was last told */
    unsigned drive_count;
};

void world_start(struct world *world, const struct setup *setup, uint64_t seed);

/* Time goes on to now_us. */
void world_step(struct world *world, uint64_t now_us);

/* Counts of any point, as its converter or pin would give them. */
int32_t world_counts(struct world *world, unsigned point);

/* An output is driven, after the last step and before the next one. */
void world_drive(struct world *world, unsigned point, int32_t value, uint64_t t_us);

/* An input changes at t_us, as another process has it. False: too many wait for their times already. */
bool world_put(struct world *world, unsigned point, int32_t counts, uint64_t t_us);

/* Next change of a digital input, as a capture unit would have stamped it. */
bool world_change(struct world *world, struct bench_change *change);

#endif
