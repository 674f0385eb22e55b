/* Inputs: pins and their glitches, what readings are worth, limits, the board's condition, and the self-test. */
#include "parts.h"

#define SCAN_US 1000u         /* limited inputs are read so often; the contract asks for 2 ms */
#define OUTSIDE_US 20000u     /* without one good reading inside: limit */
#define FAULT_AFTER_US 10000u /* a faulty reading must last so long to be told: one noisy sample is no fault */
#define SELF_TEST_US 100000u

static uint8_t pin_level(const struct bench *b, unsigned point)
{
    int32_t counts = 0;
    (void) b->board->read_point(b->board->self, point, &counts);
    return counts != 0;
}

void start_inputs(struct bench *b, uint64_t now)
{
    for (unsigned p = 0; p < b->card->point_count; p++) {
        if (point_of(b, p)->kind == BENCH_DIGITAL_IN) {
            uint8_t level = pin_level(b, p);
            struct bench_pin pin = {false, level, level, now, now};
            b->pins[p] = pin;
        }
    }
    b->condition = b->board->condition(b->board->self);
}

void watch_condition(struct bench *b, uint64_t now)
{
    unsigned before = b->condition;
    b->condition = b->board->condition(b->board->self);
    unsigned come = b->condition & ~before;
    if ((come & BENCH_SUPPLY_FAULT) != 0) {
        post_numbered(b, EVENT_FAULT, BENCH_NO_POINT, TROUBLE_SUPPLY, now);
    }
    if (b->armed && (b->condition & BENCH_STOP_BUTTON) != 0) {
        (void) disarm(b, CAUSE_STOP_BUTTON, NULL);
    } else if (b->armed && (b->condition & BENCH_SUPPLY_FAULT) != 0) {
        (void) disarm(b, CAUSE_FAULT, NULL);
    }
}

static void pin_changed(struct bench_pin *pin, uint8_t level, uint64_t t_us)
{
    if (level == pin->raw) {
        return;
    }
    if (!pin->moving) {
        pin->moving = true;
        pin->left_us = t_us;
    }
    pin->raw = level;
    pin->last_us = t_us;
}

/* A level counts once it has stood for the glitch time; its stamp is the first transition of the bounce. */
static void settle_pin(struct bench *b, unsigned point, uint64_t now)
{
    struct bench_pin *pin = &b->pins[point];
    if (!pin->moving || now < pin->last_us || now - pin->last_us < point_of(b, point)->glitch_us) {
        return;
    }
    if (pin->raw == pin->reported) {
        pin->moving = false;
        return;
    }
    if (!events_have_room(b)) {
        b->events_lost += b->in_session ? 1u : 0u;
    } else {
        post_numbered(b, EVENT_EDGE, point, pin->raw, pin->left_us);
    }
    pin->reported = pin->raw;
    pin->moving = false;
}

void watch_pins(struct bench *b, uint64_t now)
{
    const struct bench_board *board = b->board;
    struct bench_change change;
    while (board->next_change != NULL && board->next_change(board->self, &change)) {
        if (change.point < b->card->point_count && point_of(b, change.point)->kind == BENCH_DIGITAL_IN) {
            settle_pin(b, change.point, change.t_us);
            pin_changed(&b->pins[change.point], change.level != 0, change.t_us);
        }
    }
    for (unsigned p = 0; p < b->card->point_count; p++) {
        if (point_of(b, p)->kind != BENCH_DIGITAL_IN) {
            continue;
        }
        if (board->next_change == NULL) {
            pin_changed(&b->pins[p], pin_level(b, p), now);
        }
        settle_pin(b, p, now);
    }
}

static enum trouble trouble_of(enum bench_reading reading)
{
    return reading == BENCH_OVER_RANGE  ? TROUBLE_OVER_RANGE
           : reading == BENCH_OPEN_LOOP ? TROUBLE_OPEN_LOOP
                                        : TROUBLE_NOT_READABLE;
}

/* Tells a fault once it has lasted; a limited point that is over range or open disarms. */
static void note_reading(struct bench *b, unsigned point, enum bench_reading reading, uint64_t now)
{
    struct bench_health *health = &b->health[point];
    if (health->reading != (uint8_t) reading) {
        health->reading = (uint8_t) reading;
        health->told = false;
        health->since_us = now;
    }
    if (reading == BENCH_GOOD || health->told || now - health->since_us < FAULT_AFTER_US) {
        return;
    }
    health->told = true;
    if (events_have_room(b)) {
        post_numbered(b, EVENT_FAULT, point, trouble_of(reading), now);
    }
    if (b->armed && b->limits[point].on && reading != BENCH_NOT_READABLE) {
        (void) disarm(b, CAUSE_FAULT, NULL);
    }
}

enum bench_reading read_input(struct bench *b, unsigned point, int32_t *counts, uint64_t now)
{
    *counts = 0;
    enum bench_reading reading = b->board->read_point(b->board->self, point, counts);
    note_reading(b, point, reading, now);
    return reading;
}

/* What is wrong already is told anew: a host that greets has not heard of it. */
void tell_faults(struct bench *b, uint64_t now)
{
    if ((b->condition & BENCH_SUPPLY_FAULT) != 0) {
        post_numbered(b, EVENT_FAULT, BENCH_NO_POINT, TROUBLE_SUPPLY, now);
    }
    for (unsigned p = 0; p < b->card->point_count; p++) {
        int32_t counts;
        enum bench_reading reading = b->health[p].told ? read_input(b, p, &counts, now) : BENCH_GOOD;
        if (reading == BENCH_GOOD || !b->health[p].told) {
            continue;
        }
        if (events_have_room(b)) {
            post_numbered(b, EVENT_FAULT, p, trouble_of(reading), now);
        } else {
            b->events_lost++;
        }
    }
}

bool is_inside(const struct bench_limit *limit, int32_t counts)
{
    return !(limit->has_low && counts < limit->low) && !(limit->has_high && counts > limit->high);
}

void watch_limits(struct bench *b, uint64_t now)
{
    if (!b->armed || now < b->scan_due_us) {
        return;
    }
    b->scan_due_us = now + SCAN_US;
    for (unsigned p = 0; p < b->card->point_count && b->armed; p++) {
        struct bench_limit *limit = &b->limits[p];
        if (!limit->on) {
            continue;
        }
        int32_t counts;
        enum bench_reading reading = read_input(b, p, &counts, now);
        if (!b->armed) {
            return;
        }
        if (reading == BENCH_GOOD && is_inside(limit, counts)) {
            limit->good_us = now;
        } else if (now - limit->good_us >= OUTSIDE_US) {
            (void) disarm(b, CAUSE_LIMIT, NULL);
        }
    }
}

void begin_self_test(struct bench *b, uint64_t id, uint64_t now)
{
    b->testing = true;
    b->test_id = id;
    b->test_end_us = now + SELF_TEST_US;
    for (unsigned p = 0; p < b->card->point_count; p++) {
        b->test_good[p] = false;
    }
    post_answer(b, EVENT_QUEUED, id, WHY_NONE, BENCH_NEVER);
}

/* An input passes with one good reading, an output with one that shows its safe value. */
static bool passes(struct bench *b, unsigned point)
{
    int32_t counts = 0;
    if (b->board->read_point(b->board->self, point, &counts) != BENCH_GOOD) {
        return false;
    }
    return b->output_of[point] == BENCH_NO_POINT || counts == point_of(b, point)->safe;
}

void run_self_test(struct bench *b, uint64_t now)
{
    static const struct refusal none = {WHY_NONE, MEMBERS};
    if (!b->testing) {
        return;
    }
    for (unsigned p = 0; p < b->card->point_count; p++) {
        b->test_good[p] = b->test_good[p] || passes(b, p);
    }
    if (now < b->test_end_us) {
        return;
    }
    b->testing = false;
    for (unsigned p = 0; p < b->card->point_count; p++) {
        if (!b->test_good[p]) {
            post_numbered(b, EVENT_FAULT, p, TROUBLE_SELF_TEST, now);
        }
    }
    remember(b, b->test_id, none, BENCH_NEVER);
    post_answer(b, EVENT_DONE, b->test_id, WHY_NONE, BENCH_NEVER);
}
