/* `arm`: checks in the contract's order, then outputs live at their safe values, limits held. */
#include "parts.h"

#include <string.h>

#define UNTIL_AHEAD_US 2000000

/* A limit as written: [low, high], each an integer or null. */
struct bounds {
    bool has_low, has_high;
    int64_t low, high;
};

static bool read_bound(struct text value, bool *has, int64_t *bound)
{
    *has = !json_is_null(value);
    return !*has || json_integer(value, bound);
}

static bool read_bounds(struct text value, struct bounds *bounds)
{
    struct text low;
    struct text high;
    struct text more;
    if (!json_is_array_value(value) || !json_next_element(&value, &low) || !json_next_element(&value, &high)
        || json_next_element(&value, &more)) {
        return false;
    }
    return read_bound(low, &bounds->has_low, &bounds->low) && read_bound(high, &bounds->has_high, &bounds->high)
           && !(bounds->has_low && bounds->has_high && bounds->low > bounds->high);
}

static struct refusal check_shapes(struct text limits)
{
    struct text name;
    struct text value;
    struct bounds bounds;
    if (limits.at != NULL && !json_is_object_value(limits)) {
        return refused(WHY_BAD_MESSAGE, MEMBER_LIMITS);
    }
    while (json_next_member(&limits, &name, &value)) {
        if (!read_bounds(value, &bounds)) {
            return refused(WHY_BAD_MESSAGE, MEMBER_LIMITS);
        }
    }
    return accepted();
}

static struct refusal check_points(struct bench *b, struct text limits)
{
    struct text name;
    struct text value;
    unsigned point;
    memset(b->staged, 0, sizeof b->staged);
    while (json_next_member(&limits, &name, &value)) {
        if (!find_point(b, name, &point)) {
            return refused(WHY_UNKNOWN_POINT, MEMBERS);
        }
        if (point_of(b, point)->kind != BENCH_ANALOG_IN) {
            return refused(WHY_WRONG_KIND, MEMBERS);
        }
        if (b->staged[point].on) {
            return refused(WHY_BAD_MESSAGE, MEMBER_LIMITS);
        }
        b->staged[point].on = true;
    }
    return accepted();
}

/* Low above min, high below max: a limit that could never trip is a mistake. */
static bool is_sensible(const struct bench_point *point, const struct bounds *bounds)
{
    if (bounds->has_low && (bounds->low <= point->min || bounds->low > point->max)) {
        return false;
    }
    return !(bounds->has_high && (bounds->high >= point->max || bounds->high < point->min));
}

static struct refusal stage_limits(struct bench *b, struct text limits)
{
    struct text name;
    struct text value;
    while (json_next_member(&limits, &name, &value)) {
        unsigned point;
        struct bounds bounds = {false, false, 0, 0};
        (void) find_point(b, name, &point);
        (void) read_bounds(value, &bounds);
        if (!is_sensible(point_of(b, point), &bounds)) {
            return refused(WHY_OUT_OF_RANGE, MEMBER_LIMITS);
        }
        struct bench_limit limit = {true, bounds.has_low, bounds.has_high, 0, 0, 0};
        limit.low = bounds.has_low ? (int32_t) bounds.low : 0;
        limit.high = bounds.has_high ? (int32_t) bounds.high : 0;
        b->staged[point] = limit;
    }
    return accepted();
}

static struct refusal check_state(const struct bench *b)
{
    if (b->armed) {
        return refused(WHY_ARMED, MEMBERS);
    }
    if ((b->condition & BENCH_STOP_BUTTON) != 0) {
        return refused(WHY_STOP_BUTTON, MEMBERS);
    }
    return (b->condition & BENCH_SUPPLY_FAULT) != 0 ? refused(WHY_FAULT, MEMBERS) : accepted();
}

/* Reads each limited input once: it must be good and inside. */
static struct refusal check_limits(struct bench *b, uint64_t now)
{
    for (unsigned p = 0; p < b->card->point_count; p++) {
        if (!b->staged[p].on) {
            continue;
        }
        int32_t counts;
        enum bench_reading reading = read_input(b, p, &counts, now);
        if (reading == BENCH_OVER_RANGE || reading == BENCH_OPEN_LOOP) {
            return refused(WHY_FAULT, MEMBERS);
        }
        if (reading != BENCH_GOOD || !is_inside(&b->staged[p], counts)) {
            return refused(WHY_LIMIT, MEMBERS);
        }
        b->staged[p].good_us = now;
    }
    return accepted();
}

/* Under lock: what may have changed since the checks is checked again, and the time just before outputs are driven. */
static struct refusal arm_now(struct bench *b, uint64_t id, int64_t until_us, int64_t beat_ms)
{
    struct refusal refusal = check_state(b);
    if (!is_refused(refusal)) {
        refusal = check_limits(b, now_us(b));
    }
    if (is_refused(refusal)) {
        return refusal;
    }
    uint64_t now = now_us(b);
    if ((int64_t) now > until_us) {
        return refused(WHY_LATE, MEMBERS);
    }
    memcpy(b->limits, b->staged, sizeof b->limits);
    b->scan_due_us = now;
    arm(b, (uint64_t) beat_ms * 1000u, id, now);
    return accepted();
}

static struct refusal check_times(const struct bench *b, int64_t until_us)
{
    int64_t now = (int64_t) now_us(b);
    if (until_us < now) {
        return refused(WHY_LATE, MEMBERS);
    }
    return until_us > now + UNTIL_AHEAD_US ? refused(WHY_TOO_FAR, MEMBERS) : accepted();
}

struct refusal do_arm(struct bench *b, const struct message *message)
{
    struct text limits = message->value[MEMBER_LIMITS];
    int64_t until_us = 0;
    int64_t beat_ms = 0;
    struct refusal r = need_integer(message, MEMBER_UNTIL_US, TIMES, &until_us);
    r = is_refused(r) ? r : need_integer(message, MEMBER_BEAT_MS, ANY_INTEGER, &beat_ms);
    r = is_refused(r) ? r : check_shapes(limits);
    r = is_refused(r) ? r : need_own_boot(b, message);
    r = is_refused(r) ? r : need_rest(b);
    r = is_refused(r) ? r : check_state(b);
    r = is_refused(r) ? r : check_times(b, until_us);
    r = is_refused(r) ? r : check_points(b, limits);
    if (!is_refused(r) && (beat_ms < 100 || beat_ms > (int64_t) b->card->max_beat_ms)) {
        r = refused(WHY_OUT_OF_RANGE, MEMBER_BEAT_MS);
    }
    r = is_refused(r) ? r : stage_limits(b, limits);
    if (!is_refused(r)) {
        lock(b);
        r = arm_now(b, message->id, until_us, beat_ms);
        unlock(b);
    }
    return r;
}
