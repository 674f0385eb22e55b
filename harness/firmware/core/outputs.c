/* Outputs: armed or safe, sets now and later, ramps, and the heartbeat that keeps them live. */
#include <string.h>

#include "parts.h"

static const struct refusal NO_REFUSAL = {WHY_NONE, MEMBERS};

static bool is_digital_output(const struct bench *b, const struct bench_output *output)
{
    return point_of(b, output->point)->kind == BENCH_DIGITAL_OUT;
}

/* Drives one output; its change is told where it is digital. */
static void drive(struct bench *b, struct bench_output *output, int32_t value, uint64_t t_us)
{
    bool changed = output->value != value;
    output->value = value;
    b->board->drive_point(b->board->self, output->point, value);
    if (changed && is_digital_output(b, output)) {
        post_numbered(b, EVENT_EDGE, output->point, value != 0, t_us);
    }
}

void drive_all_safe(struct bench *b)
{
    for (unsigned o = 0; o < b->output_count; o++) {
        struct bench_output *output = &b->outputs[o];
        output->ramp = false;
        output->value = point_of(b, output->point)->safe;
        b->board->drive_point(b->board->self, output->point, output->value);
    }
}

void arm(struct bench *b, uint64_t beat_limit_us, uint64_t id, uint64_t at_us)
{
    drive_all_safe(b);
    b->armed = true;
    b->beat_limit_us = beat_limit_us;
    b->beat_due_us = at_us + beat_limit_us;
    remember(b, id, NO_REFUSAL, at_us);
    post_answer(b, EVENT_DONE, id, WHY_NONE, at_us);
    post_numbered(b, EVENT_STATE, BENCH_NO_POINT, 0, at_us);
}

static void refuse_dropped_sets(struct bench *b)
{
    static const struct refusal dropped = {WHY_SAFE, MEMBERS};
    for (;;) {
        struct bench_set *least = NULL;
        for (unsigned q = 0; q < BENCH_QUEUE; q++) {
            struct bench_set *set = &b->sets[q];
            if (set->used && (least == NULL || set->id < least->id)) {
                least = set;
            }
        }
        if (least == NULL) {
            return;
        }
        least->used = false;
        remember(b, least->id, dropped, BENCH_NEVER);
        post_answer(b, EVENT_REFUSED, least->id, WHY_SAFE, BENCH_NEVER);
    }
}

uint64_t disarm(struct bench *b, enum cause cause, const uint32_t *by)
{
    uint64_t level_changes = 0;
    for (unsigned o = 0; o < b->output_count; o++) {
        const struct bench_output *output = &b->outputs[o];
        if (is_digital_output(b, output) && output->value != point_of(b, output->point)->safe) {
            level_changes |= (uint64_t) 1 << o;
        }
    }
    uint64_t driven_us = now_us(b);
    drive_all_safe(b);
    b->armed = false;
    memset(b->limits, 0, sizeof b->limits);
    struct bench_event event = {by != NULL ? *by : 0, now_us(b), b->session, EVENT_SAFE, (uint8_t) cause,
                                BENCH_NO_POINT, by != NULL};
    post(b, &event);
    for (unsigned o = 0; o < b->output_count; o++) {
        if ((level_changes >> o & 1) != 0) {
            post_numbered(b, EVENT_EDGE, b->outputs[o].point, b->outputs[o].value != 0, driven_us);
        }
    }
    post_numbered(b, EVENT_STATE, BENCH_NO_POINT, 0, driven_us);
    refuse_dropped_sets(b);
    return driven_us;
}

/* Digital and unramped outputs switch; ramps start from the value that is being output. */
static void start_output(struct bench *b, struct bench_output *output, int32_t value, uint64_t over_us, uint64_t at_us)
{
    output->ramp = false;
    if (over_us == 0 || is_digital_output(b, output)) {
        drive(b, output, value, at_us);
        return;
    }
    output->ramp = true;
    output->from = output->value;
    output->to = value;
    output->start_us = at_us;
    output->over_us = over_us;
}

void drive_set(struct bench *b, const struct bench_set *set, uint64_t at_us)
{
    remember(b, set->id, NO_REFUSAL, at_us);
    post_answer(b, EVENT_DONE, set->id, WHY_NONE, at_us);
    for (unsigned o = 0; o < b->output_count; o++) {
        if ((set->named >> o & 1) != 0) {
            start_output(b, &b->outputs[o], set->value[o], set->over_us, at_us);
        }
    }
}

struct bench_set *free_set(struct bench *b)
{
    for (unsigned q = 0; q < BENCH_QUEUE; q++) {
        if (!b->sets[q].used) {
            return &b->sets[q];
        }
    }
    return NULL;
}

bool is_queued(const struct bench *b, uint64_t id)
{
    for (unsigned q = 0; q < BENCH_QUEUE; q++) {
        if (b->sets[q].used && b->sets[q].id == id) {
            return true;
        }
    }
    return false;
}

static struct bench_set *first_due(struct bench *b, uint64_t now)
{
    struct bench_set *first = NULL;
    for (unsigned q = 0; q < BENCH_QUEUE; q++) {
        struct bench_set *set = &b->sets[q];
        if (!set->used || set->at_us > now) {
            continue;
        }
        if (first == NULL || set->at_us < first->at_us || (set->at_us == first->at_us && set->id < first->id)) {
            first = set;
        }
    }
    return first;
}

void run_sets(struct bench *b)
{
    static const struct refusal late = {WHY_LATE, MEMBERS};
    if (!b->armed) {
        return;
    }
    uint64_t now = now_us(b);
    for (struct bench_set *set = first_due(b, now); set != NULL; set = first_due(b, now)) {
        now = now_us(b);
        set->used = false;
        if (set->until_us < now) {
            remember(b, set->id, late, BENCH_NEVER);
            post_answer(b, EVENT_REFUSED, set->id, WHY_LATE, BENCH_NEVER);
        } else {
            drive_set(b, set, now);
        }
    }
}

/* from + (to - from) * elapsed / over, rounded to the nearest, without leaving 64 bits. */
static int32_t on_ramp(const struct bench_output *output, uint64_t now)
{
    uint64_t elapsed = now - output->start_us;
    uint64_t over = output->over_us;
    while (over >= (uint64_t) 1 << 30) {
        over >>= 1;
        elapsed >>= 1;
    }
    int64_t way = (int64_t) output->to - output->from;
    int64_t part = way * (int64_t) elapsed;
    int64_t half = (int64_t) over / 2;
    return (int32_t) (output->from + (part + (part < 0 ? -half : half)) / (int64_t) over);
}

void run_ramps(struct bench *b, uint64_t now)
{
    for (unsigned o = 0; o < b->output_count; o++) {
        struct bench_output *output = &b->outputs[o];
        if (!output->ramp || now < output->start_us) {
            continue;
        }
        bool over = now - output->start_us >= output->over_us;
        int32_t value = over ? output->to : on_ramp(output, now);
        output->ramp = !over;
        if (value != output->value) {
            drive(b, output, value, now);
        }
    }
}

void watch_beat(struct bench *b, uint64_t now)
{
    if (b->armed && now > b->beat_due_us) {
        (void) disarm(b, CAUSE_BEAT_LOST, NULL);
    }
}
