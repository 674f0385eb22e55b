/* Answers and events as JSON lines in the outgoing bytes. A line that does not fit leaves no trace there. */
#include "parts.h"

#define STATE_EVERY_US 1000000u

static struct writer line(struct bench *b)
{
    size_t at = (b->out_first + b->out_count) % BENCH_OUT_BYTES;
    return writer_into(b->out, BENCH_OUT_BYTES, at, BENCH_OUT_BYTES - b->out_count);
}

static bool keep(struct bench *b, struct writer *w)
{
    if (!json_end(w)) {
        return false;
    }
    b->out_count += w->written;
    return true;
}

static void begin_answer(struct writer *w, const char *m, uint32_t session, uint64_t id)
{
    json_begin(w, m);
    json_unsigned_member(w, "id", id);
    json_hex8_member(w, "session", session);
}

static void begin_numbered(const struct bench *b, struct writer *w, const char *m, uint32_t session)
{
    json_begin(w, m);
    json_unsigned_member(w, "n", b->next_n);
    json_hex8_member(w, "session", session);
}

static bool keep_numbered(struct bench *b, struct writer *w)
{
    bool kept = keep(b, w);
    b->next_n += kept ? 1u : 0u;
    return kept;
}

static void write_time(struct writer *w, const char *name, uint32_t us)
{
    if (us > 0) {
        json_unsigned_member(w, name, us);
    }
}

static void write_point(struct writer *w, const struct bench *b, unsigned p)
{
    const struct bench_point *point = point_of(b, p);
    json_open(w, '{');
    json_text_member(w, "name", point->name);
    json_text_member(w, "kind", KIND_WORDS[point->kind]);
    if (is_analogue(point->kind)) {
        json_integer_member(w, "min", point->min);
        json_integer_member(w, "max", point->max);
    }
    if (b->output_of[p] != BENCH_NO_POINT) {
        json_integer_member(w, "safe", point->safe);
    }
    write_time(w, "stamp-us", point->stamp_us);
    write_time(w, "filter-us", point->filter_us);
    write_time(w, "glitch-us", point->glitch_us);
    json_close(w, '}');
}

static bool write_bench(struct bench *b, uint32_t session, uint64_t id, uint64_t now)
{
    const struct bench_card *card = b->card;
    struct writer w = line(b);
    begin_answer(&w, "bench", session, id);
    json_unsigned_member(&w, "next", b->next_n);
    json_unsigned_member(&w, "link", 1);
    json_text_member(&w, "name", card->name);
    json_hex8_member(&w, "boot", b->boot);
    json_unsigned_member(&w, "now-us", now);
    json_unsigned_member(&w, "clock-ppm", card->clock_ppm);
    json_unsigned_member(&w, "queue", BENCH_QUEUE);
    json_unsigned_member(&w, "max-beat-ms", card->max_beat_ms);
    json_unsigned_member(&w, "max-line", BENCH_MAX_LINE);
    json_boolean_member(&w, "dense", card->dense);
    json_open_member(&w, "points", '[');
    for (unsigned p = 0; p < card->point_count; p++) {
        write_point(&w, b, p);
    }
    json_close(&w, ']');
    return w.written <= BENCH_LINE_LIMIT && keep(b, &w);
}

static bool write_state_at(struct bench *b, uint64_t now)
{
    struct writer w = line(b);
    begin_numbered(b, &w, "state", b->session);
    json_unsigned_member(&w, "t-us", now);
    json_boolean_member(&w, "armed", b->armed);
    json_boolean_member(&w, "stop", (b->condition & BENCH_STOP_BUTTON) != 0);
    json_unsigned_member(&w, "bad-lines", b->bad_lines);
    json_open_member(&w, "digital", '{');
    for (unsigned p = 0; p < b->card->point_count; p++) {
        enum bench_kind kind = point_of(b, p)->kind;
        if (kind == BENCH_DIGITAL_IN) {
            json_unsigned_member(&w, point_of(b, p)->name, b->pins[p].reported);
        } else if (kind == BENCH_DIGITAL_OUT) {
            json_unsigned_member(&w, point_of(b, p)->name, b->outputs[b->output_of[p]].value != 0);
        }
    }
    json_close(&w, '}');
    b->state_due_us = now + STATE_EVERY_US;
    return keep_numbered(b, &w);
}

bool write_state(struct bench *b)
{
    return write_state_at(b, now_us(b));
}

bool write_bench_and_state(struct bench *b, const struct message *message)
{
    size_t before = b->out_count;
    if (write_bench(b, message->session, message->id, now_us(b)) && write_state(b)) {
        return true;
    }
    b->out_count = before;
    return false;
}

/* Whether a greeting fits into the outgoing bytes, with the longest numbers that it can hold. */
bool bench_line_fits(struct bench *b)
{
    uint64_t longest = ((uint64_t) 1 << 53) - 1;
    b->next_n = longest;
    b->bad_lines = UINT32_MAX;
    bool fits = write_bench(b, 0, longest, longest) && write_state_at(b, longest);
    b->next_n = 0;
    b->bad_lines = 0;
    b->out_count = 0;
    return fits;
}

bool write_done(struct bench *b, uint32_t session, uint64_t id, uint64_t at_us)
{
    struct writer w = line(b);
    begin_answer(&w, "done", session, id);
    json_unsigned_member(&w, "next", b->next_n);
    if (at_us != BENCH_NEVER) {
        json_unsigned_member(&w, "at-us", at_us);
    }
    return keep(b, &w);
}

bool write_refused(struct bench *b, uint32_t session, uint64_t id, struct refusal refusal)
{
    struct writer w = line(b);
    begin_answer(&w, "refused", session, id);
    if (refusal.member == MEMBERS) {
        json_text_member(&w, "why", WHY_WORDS[refusal.why]);
    } else {
        char why[48];
        size_t length = 0;
        for (const char *from = WHY_WORDS[refusal.why]; *from != 0; from++) {
            why[length++] = *from;
        }
        why[length++] = ':';
        why[length++] = ' ';
        for (const char *from = MEMBER_NAMES[refusal.member]; *from != 0; from++) {
            why[length++] = *from;
        }
        why[length] = 0;
        json_text_member(&w, "why", why);
    }
    return keep(b, &w);
}

bool write_queued(struct bench *b, uint32_t session, uint64_t id)
{
    struct writer w = line(b);
    begin_answer(&w, "queued", session, id);
    return keep(b, &w);
}

bool write_pong(struct bench *b)
{
    struct writer w = line(b);
    begin_answer(&w, "pong", b->pong_session, b->pong_id);
    json_unsigned_member(&w, "next", b->next_n);
    json_unsigned_member(&w, "now-us", now_us(b));
    return keep(b, &w);
}

static bool write_edge(struct bench *b, const struct bench_event *event)
{
    struct writer w = line(b);
    begin_numbered(b, &w, "edge", event->session);
    json_unsigned_member(&w, "t-us", event->t_us);
    json_text_member(&w, "point", point_of(b, event->point)->name);
    json_unsigned_member(&w, "to", event->level);
    return keep_numbered(b, &w);
}

static bool write_safe(struct bench *b, const struct bench_event *event)
{
    struct writer w = line(b);
    begin_numbered(b, &w, "safe", event->session);
    json_unsigned_member(&w, "t-us", event->t_us);
    json_text_member(&w, "why", CAUSE_WORDS[event->word]);
    if (event->level != 0) {
        json_hex8_member(&w, "by", (uint32_t) event->id);
    }
    return keep_numbered(b, &w);
}

static bool write_fault(struct bench *b, const struct bench_event *event)
{
    struct writer w = line(b);
    begin_numbered(b, &w, "fault", event->session);
    json_unsigned_member(&w, "t-us", event->t_us);
    if (event->point != BENCH_NO_POINT) {
        json_text_member(&w, "point", point_of(b, event->point)->name);
    }
    json_text_member(&w, "why", TROUBLE_WORDS[event->word]);
    return keep_numbered(b, &w);
}

bool write_event(struct bench *b, const struct bench_event *event)
{
    struct refusal refusal = {(enum why) event->word, MEMBERS};
    switch ((enum event_kind) event->kind) {
    case EVENT_QUEUED:
        return write_queued(b, event->session, event->id);
    case EVENT_DONE:
        return write_done(b, event->session, event->id, event->t_us);
    case EVENT_REFUSED:
        return write_refused(b, event->session, event->id, refusal);
    case EVENT_EDGE:
        return write_edge(b, event);
    case EVENT_STATE:
        return write_state(b);
    case EVENT_SAFE:
        return write_safe(b, event);
    case EVENT_FAULT:
        return write_fault(b, event);
    }
    return true;
}
