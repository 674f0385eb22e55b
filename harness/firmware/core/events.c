/* Events on their way to the line, and answers kept for repeats. All of it is called by the tick or under lock. */
#include "parts.h"

/* What one disarming may need at once; edges and faults leave so much free. */
#define RESERVE (BENCH_OUTPUTS_MAX + BENCH_QUEUE + 8u)

void post(struct bench *b, const struct bench_event *event)
{
    if (b->event_count == BENCH_EVENTS) {
        bool numbered = event->kind >= EVENT_EDGE;
        b->events_lost += numbered ? 1u : 0u;
        return;
    }
    b->events[(b->event_first + b->event_count) % BENCH_EVENTS] = *event;
    b->event_count++;
}

bool events_have_room(const struct bench *b)
{
    return b->event_count + RESERVE < BENCH_EVENTS;
}

void post_numbered(struct bench *b, enum event_kind kind, unsigned point, unsigned word, uint64_t t_us)
{
    if (!b->in_session) {
        return;
    }
    struct bench_event event = {0, t_us, b->session, (uint8_t) kind, (uint8_t) word, (uint8_t) point, (uint8_t) word};
    post(b, &event);
}

void post_answer(struct bench *b, enum event_kind kind, uint64_t id, enum why why, uint64_t at_us)
{
    struct bench_event event = {id, at_us, b->session, (uint8_t) kind, (uint8_t) why, BENCH_NO_POINT, 0};
    post(b, &event);
}

void remember(struct bench *b, uint64_t id, struct refusal refusal, uint64_t at_us)
{
    struct bench_answer answer = {id, at_us, (uint8_t) refusal.why, (uint8_t) refusal.member};
    b->answers[b->answer_next] = answer;
    b->answer_next = (b->answer_next + 1) % BENCH_REMEMBERED;
    if (b->answer_count < BENCH_REMEMBERED) {
        b->answer_count++;
    }
}

const struct bench_answer *remembered(const struct bench *b, uint64_t id)
{
    for (uint32_t i = 0; i < b->answer_count; i++) {
        if (b->answers[i].id == id) {
            return &b->answers[i];
        }
    }
    return NULL;
}
