#include "world.h"

#include <math.h>
#include <string.h>

static const struct source *source_of(const struct world *world, unsigned point)
{
    return &world->setup->sources[point];
}

static enum bench_kind kind_of(const struct world *world, unsigned point)
{
    return world->setup->points[point].kind;
}

static bool is_wire(const struct world *world, unsigned point)
{
    bool wired = source_of(world, point)->kind == SOURCE_WIRE;
    return wired && !world->elsewhere && kind_of(world, point) == BENCH_DIGITAL_IN;
}

static uint8_t wire_level(const struct world *world, unsigned point)
{
    const struct source *source = source_of(world, point);
    return (uint8_t) ((world->driven[source->from] != 0) != source->inverted);
}

static double aim(const struct world *world, unsigned point)
{
    const struct source *source = source_of(world, point);
    if (source->kind != SOURCE_FOLLOW) {
        return source->plus;
    }
    return source->plus + source->times * (double) world->driven[source->from];
}

void world_start(struct world *world, const struct setup *setup, uint64_t seed)
{
    memset(world, 0, sizeof *world);
    world->setup = setup;
    world->random = seed;
    for (unsigned p = 0; p < setup->card.point_count; p++) {
        world->driven[p] = setup->points[p].safe;
    }
    for (unsigned p = 0; p < setup->card.point_count; p++) {
        world->value[p] = aim(world, p);
        world->level[p] = is_wire(world, p) ? wire_level(world, p) : source_of(world, p)->plus != 0;
    }
}

static void capture(struct world *world, const struct bench_change *change)
{
    if (world->captured_count == CHANGES_MAX) {  /* the oldest is lost, the last one never */
        world->captured_first = (world->captured_first + 1) % CHANGES_MAX;
        world->captured_count--;
    }
    world->captured[(world->captured_first + world->captured_count++) % CHANGES_MAX] = *change;
    world->level[change->point] = (uint8_t) change->level;
}

static void change_input(struct world *world, const struct bench_change *change)
{
    if (kind_of(world, change->point) == BENCH_DIGITAL_IN) {
        capture(world, change);
    } else {
        world->value[change->point] = change->level;
    }
}

void world_step(struct world *world, uint64_t now_us)
{
    double dt_ms = (double) (now_us - world->now_us) / 1000.0;
    world->now_us = now_us;
    for (unsigned p = 0; !world->elsewhere && p < world->setup->card.point_count; p++) {
        double lag_ms = source_of(world, p)->within_ms;
        double part = lag_ms > 0 ? 1 - exp(-dt_ms / lag_ms) : 1;
        world->value[p] += (aim(world, p) - world->value[p]) * part;
    }
    while (world->due_first < world->due_end && world->due[world->due_first].t_us <= now_us) {
        change_input(world, &world->due[world->due_first++]);
    }
}

/* Evenly from -1 to 1; xorshift64 (Marsaglia, Xorshift RNGs, Journal of Statistical Software 8(14), 2003). */
static double deviation(struct world *world)
{
    world->random ^= world->random << 13;
    world->random ^= world->random >> 7;
    world->random ^= world->random << 17;
    return (double) (world->random >> 11) / 4503599627370496.0 - 1;
}

int32_t world_counts(struct world *world, unsigned point)
{
    const struct bench_point *shape = &world->setup->points[point];
    if (shape->kind == BENCH_DIGITAL_IN) {
        return world->level[point];
    }
    if (shape->kind != BENCH_ANALOG_IN && shape->kind != BENCH_COUNTER_IN) {
        return world->driven[point];
    }
    double noise = world->elsewhere ? 0 : source_of(world, point)->noise;
    double counts = floor(world->value[point] + (noise > 0 ? noise * deviation(world) : 0) + 0.5);
    if (shape->kind == BENCH_COUNTER_IN) {
        return (int32_t) fmin(fmax(counts, INT32_MIN), INT32_MAX);
    }
    return (int32_t) fmin(fmax(counts, shape->min), shape->max);
}

static bool insert_due(struct world *world, const struct bench_change *change)
{
    if (world->due_end == DUE_MAX) {
        world->due_end -= world->due_first;
        memmove(world->due, world->due + world->due_first, world->due_end * sizeof world->due[0]);
        world->due_first = 0;
    }
    if (world->due_end == DUE_MAX) {
        return false;
    }
    unsigned place = world->due_end++;
    for (; place > world->due_first && world->due[place - 1].t_us > change->t_us; place--) {
        world->due[place] = world->due[place - 1];
    }
    world->due[place] = *change;
    return true;
}

void world_drive(struct world *world, unsigned point, int32_t value, uint64_t t_us)
{
    bool changed = (world->driven[point] != 0) != (value != 0);
    world->driven[point] = value;
    if (world->elsewhere) {
        struct drive drive = {point, value, t_us};
        unsigned place = world->drive_count < CHANGES_MAX ? world->drive_count++ : CHANGES_MAX - 1;
        world->drives[place] = drive;
    }
    for (unsigned p = 0; changed && p < world->setup->card.point_count; p++) {
        if (is_wire(world, p) && source_of(world, p)->from == point) {
            struct bench_change change = {p, wire_level(world, p), t_us + source_of(world, p)->after_us};
            (void) insert_due(world, &change);
        }
    }
}

bool world_put(struct world *world, unsigned point, int32_t counts, uint64_t t_us)
{
    struct bench_change change = {point, counts, t_us};
    if (kind_of(world, point) == BENCH_DIGITAL_IN) {
        change.level = counts != 0;
    }
    return insert_due(world, &change);
}

bool world_change(struct world *world, struct bench_change *change)
{
    if (world->captured_count == 0) {
        return false;
    }
    *change = world->captured[world->captured_first];
    world->captured_first = (world->captured_first + 1) % CHANGES_MAX;
    world->captured_count--;
    return true;
}
