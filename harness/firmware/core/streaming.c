/* `stream`: starts, replaces or ends one, and says no to what the line or the memory cannot carry. */
#include "parts.h"

#include <string.h>

/* The rest is for answers, events and the states. */
#define SHARE_OF_LINE_PERCENT 97u

/* What is asked for. */
struct wish {
    char name[BENCH_NAME_MAX + 1];
    int64_t every_us, batch, flush_ms;
    bool dense;
};

static struct refusal read_wish(const struct message *message, struct wish *wish)
{
    wish->dense = false;
    struct refusal r = need_integer(message, MEMBER_EVERY_US, FROM_1, &wish->every_us);
    r = is_refused(r) ? r : need_integer(message, MEMBER_BATCH, FROM_1, &wish->batch);
    r = is_refused(r) ? r : need_integer(message, MEMBER_FLUSH_MS, FROM_1, &wish->flush_ms);
    if (!is_refused(r) && message->value[MEMBER_DENSE].at != NULL
        && !json_boolean(message->value[MEMBER_DENSE], &wish->dense)) {
        r = refused(WHY_BAD_MESSAGE, MEMBER_DENSE);
    }
    return r;
}

static struct refusal check_shapes(const struct message *message, struct wish *wish, unsigned *count)
{
    struct text points = message->value[MEMBER_POINTS];
    struct text element;
    *count = 0;
    if (!json_name(message->value[MEMBER_NAME], wish->name)) {
        return refused(WHY_BAD_MESSAGE, MEMBER_NAME);
    }
    if (!json_is_array_value(points)) {
        return refused(WHY_BAD_MESSAGE, MEMBER_POINTS);
    }
    for (; json_next_element(&points, &element); (*count)++) {
        if (!json_is_string_value(element)) {
            return refused(WHY_BAD_MESSAGE, MEMBER_POINTS);
        }
    }
    return *count == 0 ? accepted() : read_wish(message, wish);
}

static struct refusal read_points(const struct bench *b, struct text points, struct bench_plan *draft)
{
    struct text element;
    unsigned point;
    while (json_next_element(&points, &element)) {
        if (!find_point(b, element, &point)) {
            return refused(WHY_UNKNOWN_POINT, MEMBERS);
        }
        if (b->output_of[point] != BENCH_NO_POINT) {
            return refused(WHY_WRONG_KIND, MEMBERS);
        }
        for (unsigned i = 0; i < draft->point_count; i++) {
            if (draft->points[i] == point) {
                return refused(WHY_BAD_MESSAGE, MEMBER_POINTS);
            }
        }
        if (draft->point_count == BENCH_STREAM_POINTS_MAX) {
            return refused(WHY_UNSUPPORTED, MEMBER_POINTS);
        }
        draft->points[draft->point_count++] = (uint8_t) point;
    }
    return accepted();
}

static bool fits_dense(const struct bench_point *point)
{
    return is_digital(point->kind)
           || (is_analogue(point->kind) && point->min >= INT16_MIN && point->max <= INT16_MAX);
}

/* A sample may be off its instant by no more than its points' stamps promise. */
static uint64_t greatest_error(const struct bench *b, const struct bench_plan *draft)
{
    uint64_t late_us = draft->every_us - 1;
    for (unsigned i = 0; i < draft->point_count; i++) {
        uint32_t stamp_us = point_of(b, draft->points[i])->stamp_us;
        late_us = stamp_us > 0 && stamp_us < late_us ? stamp_us : late_us;
    }
    return late_us;
}

/* Bytes a second, at worst. */
static uint64_t load(const struct bench *b, const struct bench_plan *plan)
{
    uint64_t flushed = plan->flush_us / plan->every_us + 1;
    uint64_t samples = flushed < plan->batch ? flushed : plan->batch;
    return batch_bytes(b, plan, (uint32_t) samples) * (uint64_t) 1000000 / (samples * plan->every_us) + 1;
}

static struct refusal check_load(const struct bench *b, const struct bench_plan *draft)
{
    uint64_t sum = load(b, draft);
    unsigned running = 0;
    for (unsigned r = 0; r < BENCH_RINGS; r++) {
        const struct bench_stream *stream = &b->streams[r];
        if (stream->state == RING_RUNNING && strcmp(stream->plan.name, draft->name) != 0) {
            sum += load(b, &stream->plan);
            running++;
        }
    }
    if (sum > (uint64_t) b->card->line_bytes_per_s * SHARE_OF_LINE_PERCENT / 100) {
        return refused(WHY_UNSUPPORTED, MEMBER_EVERY_US);
    }
    return running < BENCH_STREAMS_MAX ? accepted() : refused(WHY_QUEUE_FULL, MEMBERS);
}

static struct refusal check_ability(const struct bench *b, const struct wish *wish, struct bench_plan *draft)
{
    for (unsigned i = 0; wish->dense && i < draft->point_count; i++) {
        if (!b->card->dense || !fits_dense(point_of(b, draft->points[i]))) {
            return refused(WHY_UNSUPPORTED, MEMBER_DENSE);
        }
    }
    draft->every_us = (uint64_t) wish->every_us;
    draft->flush_us = (uint64_t) wish->flush_ms * 1000u;
    draft->dense = wish->dense;
    draft->late_us = greatest_error(b, draft);
    uint32_t tick_us = b->card->tick_us;
    /* The first tick sets the grid, and may itself have come late: the next ones are then early. */
    draft->early_us = draft->late_us < tick_us / 2 ? draft->late_us : tick_us / 2;
    bool on_ticks = draft->every_us % tick_us == 0;
    if (draft->every_us < tick_us || (!on_ticks && draft->late_us < tick_us)) {
        return refused(WHY_UNSUPPORTED, MEMBER_EVERY_US);
    }
    draft->capacity = BENCH_RING_WORDS / (2u + draft->point_count);
    if (wish->batch > samples_within(b, draft, BENCH_SAMPLES_BYTES) || wish->batch > draft->capacity / 2) {
        return refused(WHY_UNSUPPORTED, MEMBER_BATCH);
    }
    draft->batch = (uint32_t) wish->batch;
    return check_load(b, draft);
}

struct refusal do_stream(struct bench *b, const struct message *message, bool *answer_waits)
{
    static const struct bench_plan empty;
    struct bench_plan draft = empty;
    struct wish wish;
    unsigned count;
    struct refusal r = check_shapes(message, &wish, &count);
    r = is_refused(r) ? r : need_rest(b);
    if (is_refused(r)) {
        return r;
    }
    if (count > 0) {
        memcpy(draft.name, wish.name, sizeof draft.name);
        r = read_points(b, message->value[MEMBER_POINTS], &draft);
        r = is_refused(r) ? r : check_ability(b, &wish, &draft);
        if (is_refused(r)) {
            return r;
        }
    }
    struct bench_stream *old = running_stream(b, wish.name);
    *answer_waits = old != NULL;
    if (old != NULL) {
        end_stream(b, old, &message->id);
    }
    if (count > 0) {
        draft.session = b->session;
        draft.of = message->id;
        begin_stream(b, &draft);
    }
    return accepted();
}
