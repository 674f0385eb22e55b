/* A batch as a `samples` message, and how long such a message can get. */
#include "parts.h"

#include <string.h>

/* Everything in the message but names and counts, with the longest numbers that the contract allows. */
#define JSON_REST 190u
#define DENSE_REST 130u

static size_t digits(int64_t value)
{
    size_t count = value < 0 ? 2 : 1;
    for (uint64_t rest = value < 0 ? 0 - (uint64_t) value : (uint64_t) value; rest >= 10; rest /= 10) {
        count++;
    }
    return count;
}

static size_t count_bytes(const struct bench_point *point)
{
    if (is_digital(point->kind)) {
        return 1;
    }
    if (point->kind == BENCH_COUNTER_IN) {
        return 11;
    }
    size_t low = digits(point->min);
    size_t high = digits(point->max);
    return low > high ? low : high;
}

size_t batch_bytes(const struct bench *b, const struct bench_plan *plan, uint32_t samples)
{
    size_t names = strlen(plan->name);
    size_t row = 2;
    for (unsigned i = 0; i < plan->point_count; i++) {
        const struct bench_point *point = point_of(b, plan->points[i]);
        names += strlen(point->name) + 3;
        row += count_bytes(point) + 1;
    }
    if (plan->dense) {
        size_t plain = DENSE_REST + names + (size_t) samples * 2 * plan->point_count;
        return plain + plain / 254 + 1;
    }
    return JSON_REST + names + samples * row;
}

uint32_t samples_within(const struct bench *b, const struct bench_plan *plan, size_t bytes)
{
    size_t most = bytes < BENCH_SAMPLES_BYTES ? bytes : BENCH_SAMPLES_BYTES;
    size_t none = batch_bytes(b, plan, 0);
    if (none >= most) {
        return 0;
    }
    size_t row = batch_bytes(b, plan, 1000) - none;
    return (uint32_t) ((most - none) * 1000 / row);
}

static const int32_t *entry_of(const struct bench_stream *stream, uint32_t place)
{
    return &stream->ring[(stream->tail + place) % stream->plan.capacity * (2u + stream->plan.point_count)];
}

static uint64_t first_time(const struct bench_stream *stream)
{
    const int32_t *entry = entry_of(stream, 0);
    return (uint64_t) entry[1] << 31 | (uint64_t) entry[0];
}

static bool write_json(struct bench *b, struct writer *w, const struct bench_stream *stream,
                       const struct bench_waiting *batch)
{
    json_begin(w, "samples");
    json_unsigned_member(w, "n", batch->n);
    json_hex8_member(w, "session", batch->session);
    json_text_member(w, "name", stream->plan.name);
    json_unsigned_member(w, "of", stream->plan.of);
    json_unsigned_member(w, "t0-us", first_time(stream));
    json_unsigned_member(w, "every-us", stream->plan.every_us);
    json_open_member(w, "points", '[');
    for (unsigned i = 0; i < stream->plan.point_count; i++) {
        json_text(w, point_of(b, stream->plan.points[i])->name);
    }
    json_close(w, ']');
    json_open_member(w, "v", '[');
    for (uint32_t s = 0; s < batch->count; s++) {
        const int32_t *counts = entry_of(stream, s) + 2;
        json_open(w, '[');
        for (unsigned i = 0; i < stream->plan.point_count; i++) {
            json_number(w, counts[i]);
        }
        json_close(w, ']');
    }
    json_close(w, ']');
    return json_end(w);
}

static bool write_dense(struct bench *b, struct writer *w, const struct bench_stream *stream,
                        const struct bench_waiting *batch)
{
    dense_begin(w, 9);
    dense_text(w, "m");
    dense_text(w, "samples");
    dense_text(w, "n");
    dense_unsigned(w, batch->n);
    dense_text(w, "session");
    dense_hex8(w, batch->session);
    dense_text(w, "name");
    dense_text(w, stream->plan.name);
    dense_text(w, "of");
    dense_unsigned(w, stream->plan.of);
    dense_text(w, "t0-us");
    dense_unsigned(w, first_time(stream));
    dense_text(w, "every-us");
    dense_unsigned(w, stream->plan.every_us);
    dense_text(w, "points");
    dense_array(w, stream->plan.point_count);
    for (unsigned i = 0; i < stream->plan.point_count; i++) {
        dense_text(w, point_of(b, stream->plan.points[i])->name);
    }
    dense_text(w, "v");
    dense_bytes(w, (size_t) batch->count * 2 * stream->plan.point_count);
    for (uint32_t s = 0; s < batch->count; s++) {
        const int32_t *counts = entry_of(stream, s) + 2;
        for (unsigned i = 0; i < stream->plan.point_count; i++) {
            dense_count(w, (int16_t) counts[i]);
        }
    }
    return dense_end(w);
}

/* Writes the oldest closed batch of the stream and gives its samples' places back. */
bool write_samples(struct bench *b, struct bench_stream *stream, const struct bench_waiting *batch)
{
    struct writer w = writer_into(b->samples, sizeof b->samples, 0, sizeof b->samples);
    bool whole = stream->plan.dense ? write_dense(b, &w, stream, batch) : write_json(b, &w, stream, batch);
    b->samples_sent = 0;
    b->samples_length = whole ? w.written : 0;
    lock(b);
    stream->filled -= batch->count;
    unlock(b);
    stream->tail = (stream->tail + batch->count) % stream->plan.capacity;
    stream->closed -= batch->count;
    return whole;
}
