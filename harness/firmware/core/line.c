/* The line: bytes in, cut into lines and checked; bytes out, answers and events before samples. */
#include "parts.h"

#include <string.h>

/* Space, eight hex digits. */
#define TAIL 9u

/* Bytes taken from the board in one call of bench_talk, so that sending has its turn too. */
#define TAKEN_AT_ONCE 1024u

static bool has_crc(const char *line, size_t length)
{
    const char *tail = line + length - TAIL;
    uint32_t crc = crc32_of(0, line, length - TAIL);
    if (tail[0] != ' ') {
        return false;
    }
    for (unsigned i = 0; i < 8; i++) {
        if (tail[1 + i] != "0123456789abcdef"[crc >> (28 - 4 * i) & 15]) {
            return false;
        }
    }
    return true;
}

static void end_line(struct bench *b)
{
    size_t length = b->in_length;
    bool overflow = b->in_overflow;
    b->in_length = 0;
    b->in_overflow = false;
    if (length == 0 && !overflow) {
        return;
    }
    struct text text = {b->in, length < TAIL ? 0 : length - TAIL};
    if (overflow || length < TAIL || memchr(b->in, '\r', length) != NULL || !has_crc(b->in, length)
        || !json_is_object(text)) {
        b->bad_lines++;
        return;
    }
    drain_events(b);
    handle_line(b, text);
}

static void take_byte(struct bench *b, char byte)
{
    if (byte == '\n') {
        end_line(b);
    } else if (b->in_length + 1 == BENCH_MAX_LINE) {
        b->in_overflow = true;
    } else {
        b->in[b->in_length++] = byte;
    }
}

void read_lines(struct bench *b)
{
    uint8_t bytes[64];
    size_t taken = 0;
    size_t count;
    do {
        count = b->board->receive(b->board->self, bytes, sizeof bytes);
        for (size_t i = 0; i < count; i++) {
            take_byte(b, (char) bytes[i]);
        }
        taken += count;
    } while (count > 0 && taken < TAKEN_AT_ONCE);
}

/* Events that found no place are counted into the numbering: the host sees the gap. */
static void own_up_to_lost_events(struct bench *b)
{
    lock(b);
    uint32_t lost = b->events_lost;
    b->events_lost = 0;
    if (lost > 0) {
        post_numbered(b, EVENT_FAULT, BENCH_NO_POINT, TROUBLE_OVERRUN, now_us(b));
    }
    unlock(b);
    b->next_n += lost;
}

void drain_events(struct bench *b)
{
    for (;;) {
        lock(b);
        bool any = b->event_count > 0;
        struct bench_event event = b->events[b->event_first];
        unlock(b);
        if (!any || !write_event(b, &event)) {
            break;
        }
        lock(b);
        b->event_first = (b->event_first + 1) % BENCH_EVENTS;
        b->event_count--;
        unlock(b);
    }
    if (b->event_count == 0 && b->events_lost > 0) {
        own_up_to_lost_events(b);
    }
}

/* Sends what it can of the outgoing bytes; true once they are all gone. */
static bool sent_answers(struct bench *b)
{
    while (b->out_count > 0) {
        size_t straight = BENCH_OUT_BYTES - b->out_first;
        size_t length = b->out_count < straight ? b->out_count : straight;
        size_t sent = b->board->send(b->board->self, b->out + b->out_first, length);
        if (sent == 0) {
            return false;
        }
        b->out_first = (b->out_first + sent) % BENCH_OUT_BYTES;
        b->out_count -= sent;
    }
    return true;
}

static bool sent_samples(struct bench *b)
{
    while (b->samples_sent < b->samples_length) {
        size_t sent = b->board->send(b->board->self, b->samples + b->samples_sent, b->samples_length - b->samples_sent);
        if (sent == 0) {
            return false;
        }
        b->samples_sent += sent;
    }
    return true;
}

/* Makes the oldest waiting batch ready to send, or writes the answer that waited behind a stream's last one. */
static bool made_next(struct bench *b)
{
    if (b->waiting_count == 0) {
        return false;
    }
    struct bench_waiting waiting = b->waiting[b->waiting_first];
    b->waiting_first = (b->waiting_first + 1) % BENCH_WAITING;
    b->waiting_count--;
    if (waiting.dropped) {
        return true;
    }
    if (waiting.ring == BENCH_RINGS) {
        (void) write_done(b, waiting.session, waiting.n, BENCH_NEVER);
    } else {
        (void) write_samples(b, &b->streams[waiting.ring], &waiting);
    }
    return true;
}

/* A message that has begun is finished first; then answers and events, a pong, and only then samples. */
void send_out(struct bench *b)
{
    for (;;) {
        if (!sent_samples(b) || !sent_answers(b)) {
            return;
        }
        if (b->pong_due) {
            b->pong_due = !write_pong(b);
        } else if (!made_next(b)) {
            return;
        }
    }
}
