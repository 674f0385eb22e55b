/* Streams: samples into their rings, and out of them as closed and numbered batches. */
#include "parts.h"

#include <string.h>

/* Tick's side. */

#define WAITS_US 500000u       /* for the line, at most */
#define OVERRUN_EVERY_US 1000000u

static void put_sample(struct bench_stream *stream, uint64_t t_us, const int32_t *counts)
{
    size_t words = 2u + stream->plan.point_count;
    int32_t *entry = &stream->ring[stream->head * words];
    entry[0] = (int32_t) (t_us & 0x7FFFFFFF);
    entry[1] = (int32_t) (t_us >> 31);
    for (unsigned i = 0; i < stream->plan.point_count; i++) {
        entry[2 + i] = counts[i];
    }
    stream->head = stream->head + 1 == stream->plan.capacity ? 0 : stream->head + 1;
    stream->filled++;
    stream->gap_told = false;
}

static void tell_overrun(struct bench *b, struct bench_stream *stream, uint64_t now)
{
    if (!stream->gap_told && now >= stream->quiet_us && events_have_room(b)) {
        post_numbered(b, EVENT_FAULT, BENCH_NO_POINT, TROUBLE_OVERRUN, now);
        stream->quiet_us = now + OVERRUN_EVERY_US;
    }
    stream->gap_told = true;
}

/* A sample is whole or it is not: one point without a reading leaves the instant out. */
static void sample(struct bench *b, struct bench_stream *stream, uint64_t now)
{
    int32_t counts[BENCH_STREAM_POINTS_MAX];
    bool whole = true;
    for (unsigned i = 0; i < stream->plan.point_count; i++) {
        if (read_input(b, stream->plan.points[i], &counts[i], now) == BENCH_NOT_READABLE) {
            whole = false;
        }
    }
    if (whole) {
        put_sample(stream, stream->due_us, counts);
    }
}

static uint64_t oldest_time(const struct bench_stream *stream)
{
    size_t words = 2u + stream->plan.point_count;
    uint32_t oldest = (stream->head + stream->plan.capacity - stream->filled) % stream->plan.capacity;
    const int32_t *entry = &stream->ring[oldest * words];
    return (uint64_t) entry[1] << 31 | (uint64_t) entry[0];
}

/* Memory is left, and the oldest sample of a whole batch has not waited too long for the line. */
static bool takes_more(const struct bench_stream *stream, uint64_t now)
{
    const struct bench_plan *plan = &stream->plan;
    uint64_t span_us = plan->batch * plan->every_us < plan->flush_us ? plan->batch * plan->every_us : plan->flush_us;
    return stream->filled == 0
           || (stream->filled < plan->capacity && now < oldest_time(stream) + span_us + WAITS_US);
}

static void sample_stream(struct bench *b, struct bench_stream *stream, uint64_t now)
{
    if (!stream->begun) {
        stream->begun = true;
        stream->due_us = now;
    }
    if (now + stream->plan.early_us < stream->due_us) {
        return;
    }
    uint64_t late_us = now > stream->due_us ? now - stream->due_us : 0;
    if (late_us <= stream->plan.late_us && takes_more(stream, now)) {
        sample(b, stream, now);
    } else {
        tell_overrun(b, stream, now);
    }
    stream->due_us += (late_us / stream->plan.every_us + 1) * stream->plan.every_us;
}

void sample_streams(struct bench *b, uint64_t now)
{
    for (unsigned r = 0; r < BENCH_RINGS; r++) {
        if (b->streams[r].state == RING_RUNNING) {
            sample_stream(b, &b->streams[r], now);
        }
    }
}

/* Talk's side. */

static uint64_t sample_time(const struct bench_stream *stream, uint32_t place)
{
    size_t words = 2u + stream->plan.point_count;
    const int32_t *entry = &stream->ring[(stream->tail + place) % stream->plan.capacity * words];
    return (uint64_t) entry[1] << 31 | (uint64_t) entry[0];
}

static void push_waiting(struct bench *b, uint64_t n, uint32_t session, unsigned ring, uint32_t count)
{
    struct bench_waiting waiting = {n, session, (uint8_t) ring, false, count};
    b->waiting[(b->waiting_first + b->waiting_count) % BENCH_WAITING] = waiting;
    b->waiting_count++;
}

bool is_waiting_answer(const struct bench *b, uint64_t id)
{
    for (uint32_t i = 0; i < b->waiting_count; i++) {
        const struct bench_waiting *waiting = &b->waiting[(b->waiting_first + i) % BENCH_WAITING];
        if (waiting->ring == BENCH_RINGS && waiting->session == b->session && waiting->n == id) {
            return true;
        }
    }
    for (unsigned r = 0; r < BENCH_RINGS; r++) {
        const struct bench_stream *stream = &b->streams[r];
        if (stream->state == RING_ENDED && stream->end_has_answer && !stream->end_answered && stream->end_id == id
            && stream->plan.session == b->session) {
            return true;
        }
    }
    return false;
}

/* While armed no message may take longer than a sixth of the heartbeat's limit: then batches close earlier. */
static uint32_t batch_now(const struct bench *b, const struct bench_stream *stream)
{
    uint32_t batch = stream->plan.batch;
    if (b->armed) {
        uint64_t bytes = (uint64_t) b->card->line_bytes_per_s * (b->beat_limit_us / 6) / 1000000u;
        uint32_t most = samples_within(b, &stream->plan, (size_t) bytes);
        batch = most == 0 ? 1 : most < batch ? most : batch;
    }
    return batch;
}

static uint32_t filled(const struct bench *b, const struct bench_stream *stream)
{
    lock(b);
    uint32_t count = stream->filled;
    unlock(b);
    return count;
}

/* Closes one batch if one is due. */
static bool close_one(struct bench *b, unsigned r, uint64_t now)
{
    struct bench_stream *stream = &b->streams[r];
    uint32_t open = filled(b, stream) - stream->closed;
    uint32_t batch = batch_now(b, stream);
    if (open == 0 || b->waiting_count == BENCH_WAITING) {
        return false;
    }
    if (stream->run == 0) {
        stream->run = 1;
    }
    bool gap = false;
    while (stream->run < batch && stream->run < open && !gap) {
        uint64_t before = sample_time(stream, stream->closed + stream->run - 1);
        gap = sample_time(stream, stream->closed + stream->run) != before + stream->plan.every_us;
        stream->run += gap ? 0u : 1u;
    }
    bool due = now >= sample_time(stream, stream->closed) + stream->plan.flush_us;
    if (stream->run < batch && !gap && !due && stream->state == RING_RUNNING) {
        return false;
    }
    uint32_t count = stream->run < batch ? stream->run : batch;
    push_waiting(b, b->next_n++, stream->plan.session, r, count);
    stream->closed += count;
    stream->run -= count;
    return true;
}

static void free_when_sent(struct bench *b, struct bench_stream *stream)
{
    if (stream->state != RING_ENDED || stream->closed != filled(b, stream)) {
        return;
    }
    if (!stream->end_answered && b->waiting_count < BENCH_WAITING) {
        stream->end_answered = true;
        if (stream->end_has_answer) {
            push_waiting(b, stream->end_id, stream->plan.session, BENCH_RINGS, 0);
        }
    }
    if (stream->end_answered && stream->closed == 0) {
        stream->state = RING_FREE;
    }
}

void close_batches(struct bench *b)
{
    uint64_t now = now_us(b);
    for (unsigned r = 0; r < BENCH_RINGS; r++) {
        if (b->streams[r].state == RING_FREE) {
            continue;
        }
        while (close_one(b, r, now)) {
        }
        free_when_sent(b, &b->streams[r]);
    }
}

struct bench_stream *running_stream(struct bench *b, const char *name)
{
    for (unsigned r = 0; r < BENCH_RINGS; r++) {
        if (b->streams[r].state == RING_RUNNING && strcmp(b->streams[r].plan.name, name) == 0) {
            return &b->streams[r];
        }
    }
    return NULL;
}

void end_stream(struct bench *b, struct bench_stream *stream, const uint64_t *answer_id)
{
    lock(b);
    stream->state = RING_ENDED;
    unlock(b);
    stream->end_answered = false;
    stream->end_has_answer = answer_id != NULL;
    stream->end_id = answer_id != NULL ? *answer_id : 0;
    close_batches(b);
}

/* At a takeover. What cannot be numbered before the new greeting is left out: its host is gone. */
void end_all_streams(struct bench *b)
{
    for (unsigned r = 0; r < BENCH_RINGS; r++) {
        if (b->streams[r].state == RING_RUNNING) {
            end_stream(b, &b->streams[r], NULL);
        }
    }
    for (unsigned r = 0; r < BENCH_RINGS; r++) {
        struct bench_stream *stream = &b->streams[r];
        stream->filled = stream->closed;
        stream->run = 0;
        stream->end_answered = true;
        free_when_sent(b, stream);
    }
}

/* Gives up what an ended stream still has waiting: its numbers stay unsent, and the gap is the loss. */
static void give_up(struct bench *b, unsigned r)
{
    struct bench_stream *stream = &b->streams[r];
    for (uint32_t i = 0; i < b->waiting_count; i++) {
        struct bench_waiting *waiting = &b->waiting[(b->waiting_first + i) % BENCH_WAITING];
        waiting->dropped = waiting->dropped || waiting->ring == r;
    }
    if (stream->end_has_answer && !stream->end_answered && stream->plan.session == b->session) {
        (void) write_done(b, stream->plan.session, stream->end_id, BENCH_NEVER);
    }
    lock(b);
    post_numbered(b, EVENT_FAULT, BENCH_NO_POINT, TROUBLE_OVERRUN, now_us(b));
    unlock(b);
    stream->state = RING_FREE;
}

static struct bench_stream *free_ring(struct bench *b)
{
    unsigned ended = BENCH_RINGS;
    for (unsigned r = 0; r < BENCH_RINGS; r++) {
        if (b->streams[r].state == RING_FREE) {
            return &b->streams[r];
        }
        if (b->streams[r].state == RING_ENDED) {
            ended = r;
        }
    }
    give_up(b, ended);
    return &b->streams[ended];
}

void begin_stream(struct bench *b, const struct bench_plan *plan)
{
    struct bench_stream *stream = free_ring(b);
    stream->plan = *plan;
    stream->begun = false;
    stream->gap_told = false;
    stream->quiet_us = 0;
    stream->head = stream->filled = stream->tail = stream->closed = stream->run = 0;
    lock(b);
    stream->state = RING_RUNNING;
    unlock(b);
}
