/* `set`: outputs together, on receipt or at their moment. */
#include "parts.h"

#define AHEAD_US 60000000
#define UNTIL_AHEAD_US 2000000

struct times {
    int64_t at_us, until_us, over_us;
    bool timed;
};

static struct refusal check_shapes(struct text points)
{
    struct text name;
    struct text value;
    int64_t number;
    unsigned count = 0;
    if (!json_is_object_value(points)) {
        return refused(WHY_BAD_MESSAGE, MEMBER_POINTS);
    }
    for (; json_next_member(&points, &name, &value); count++) {
        if (!json_integer(value, &number)) {
            return refused(WHY_BAD_MESSAGE, MEMBER_POINTS);
        }
    }
    return count > 0 ? accepted() : refused(WHY_BAD_MESSAGE, MEMBER_POINTS);
}

static struct refusal read_times(const struct message *message, struct times *times)
{
    times->timed = message->value[MEMBER_AT_US].at != NULL;
    times->at_us = 0;
    times->over_us = 0;
    struct refusal r = need_integer(message, MEMBER_UNTIL_US, TIMES, &times->until_us);
    r = is_refused(r) ? r : may_integer(message, MEMBER_AT_US, TIMES, &times->at_us);
    r = is_refused(r) ? r : may_integer(message, MEMBER_OVER_US, TIMES, &times->over_us);
    if (!is_refused(r) && times->timed && times->until_us < times->at_us) {
        r = refused(WHY_BAD_MESSAGE, MEMBER_UNTIL_US);
    }
    return r;
}

static struct refusal check_times(const struct bench *b, const struct times *times)
{
    int64_t now = (int64_t) now_us(b);
    int64_t from = times->timed ? times->at_us : now;
    if (from < now) {
        return refused(WHY_LATE, MEMBERS);
    }
    if (from > now + AHEAD_US) {
        return refused(WHY_TOO_FAR, MEMBER_AT_US);
    }
    if (times->until_us < from) {
        return refused(WHY_LATE, MEMBERS);
    }
    return times->until_us > from + UNTIL_AHEAD_US ? refused(WHY_TOO_FAR, MEMBER_UNTIL_US) : accepted();
}

static struct refusal check_points(const struct bench *b, struct text points, struct bench_set *set)
{
    struct text name;
    struct text value;
    unsigned point;
    while (json_next_member(&points, &name, &value)) {
        if (!find_point(b, name, &point)) {
            return refused(WHY_UNKNOWN_POINT, MEMBERS);
        }
        if (b->output_of[point] == BENCH_NO_POINT) {
            return refused(WHY_WRONG_KIND, MEMBERS);
        }
        uint64_t bit = (uint64_t) 1 << b->output_of[point];
        if ((set->named & bit) != 0) {
            return refused(WHY_BAD_MESSAGE, MEMBER_POINTS);
        }
        set->named |= bit;
    }
    return accepted();
}

static struct refusal read_values(const struct bench *b, struct text points, struct bench_set *set)
{
    struct text name;
    struct text value;
    while (json_next_member(&points, &name, &value)) {
        unsigned index = 0;
        int64_t number = 0;
        (void) find_point(b, name, &index);
        (void) json_integer(value, &number);
        const struct bench_point *point = point_of(b, index);
        bool digital = is_digital(point->kind);
        if (number < (digital ? 0 : point->min) || number > (digital ? 1 : point->max)) {
            return refused(WHY_OUT_OF_RANGE, MEMBERS);
        }
        set->value[b->output_of[index]] = (int32_t) number;
    }
    return accepted();
}

static struct refusal queue_set(struct bench *b, const struct bench_set *set)
{
    struct bench_set *place = free_set(b);
    if (place == NULL) {
        return refused(WHY_QUEUE_FULL, MEMBERS);
    }
    *place = *set;
    place->used = true;
    post_answer(b, EVENT_QUEUED, set->id, WHY_NONE, BENCH_NEVER);
    return accepted();
}

/* Under lock: the bench may have become safe since the checks, and time has gone on. */
static struct refusal set_now(struct bench *b, const struct bench_set *set, bool timed)
{
    if (!b->armed) {
        return refused(WHY_NOT_ARMED, MEMBERS);
    }
    if (timed) {
        return queue_set(b, set);
    }
    uint64_t now = now_us(b);
    if (set->until_us < now) {
        return refused(WHY_LATE, MEMBERS);
    }
    drive_set(b, set, now);
    return accepted();
}

struct refusal do_set(struct bench *b, const struct message *message)
{
    static const struct bench_set empty;
    struct text points = message->value[MEMBER_POINTS];
    struct bench_set set = empty;
    struct times times;
    struct refusal r = read_times(message, &times);
    r = is_refused(r) ? r : check_shapes(points);
    r = is_refused(r) ? r : need_own_boot(b, message);
    r = is_refused(r) ? r : need_rest(b);
    if (!is_refused(r) && !b->armed) {
        r = refused(WHY_NOT_ARMED, MEMBERS);
    }
    r = is_refused(r) ? r : check_times(b, &times);
    r = is_refused(r) ? r : check_points(b, points, &set);
    r = is_refused(r) ? r : read_values(b, points, &set);
    if (is_refused(r)) {
        return r;
    }
    set.id = message->id;
    set.at_us = (uint64_t) times.at_us;
    set.until_us = (uint64_t) times.until_us;
    set.over_us = (uint64_t) times.over_us;
    lock(b);
    r = set_now(b, &set, times.timed);
    unlock(b);
    return r;
}
