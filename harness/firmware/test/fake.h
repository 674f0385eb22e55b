/* A bench on a board made of memory: the clock stands until the test moves it, the line is two buffers. */
#ifndef FAKE_H
#define FAKE_H

#include "../core/bench.h"

/* Points of the contract's worked session. */
enum { P1, P2, D1, W1, H1, WORKED_POINTS };

/* And some more. */
enum { C1 = WORKED_POINTS, U1, M1, W2, H2, ALL_POINTS };

struct fake {
    struct bench bench;
    struct bench_board board;
    struct bench_card card;

    uint64_t now;
    uint64_t readings[16];  /* what the clock says next, before it says `now` again */
    unsigned reading_count, reading_next;

    int32_t counts[ALL_POINTS];  /* what inputs read, and what outputs are driven with */
    enum bench_reading worth[ALL_POINTS];
    unsigned drives[ALL_POINTS];
    unsigned condition;
    bool captures;  /* the board stamps changes itself */
    struct bench_change changes[64];
    unsigned change_count, change_next;
    unsigned locked;

    char in[16384];
    size_t in_length, in_next;
    char out[262144];
    size_t out_length, out_next;
    size_t send_room;  /* bytes that the line still takes */
};

extern struct fake fake;

#define SESSION "5be1c07d"
#define BOOT "90c4a1f3"

/* The members that name them. */
#define OURS ",\"session\":\"" SESSION "\""
#define OUR_BOOT ",\"boot\":\"" BOOT "\""

/* A bench with the first so many points, started, at 1 s after boot; its first line feed is taken away. */
void fake_start(unsigned points);

/* The same, greeted by SESSION, the greeting's answers taken away. */
void fake_greeted(unsigned points);

/* Greeted and armed, with that heartbeat limit and those limits (null: none); answers taken away. */
void fake_armed(unsigned beat_ms, const char *limits);

void fake_reads(const uint64_t *readings, unsigned count);

/* Raw bytes to the bench; or JSON text, to which CRC and line feed are put. Not yet read. */
void fake_bytes(const char *bytes, size_t length);
void fake_says(const char *format, ...);

/* Time passes in steps of 100 us, with a tick and a talk at each. */
void fake_runs(uint64_t us);
void fake_talks(void);
void fake_ticks(void);

/* Everything sent and not yet taken: the JSON text of the next line (CRC checked), or "" when there is none. */
const char *fake_line(void);

/* Takes all that was sent. */
void fake_forget(void);

/* Says it, talks, and gives the first line of the answer. */
const char *fake_answer(const char *format, ...);

/* Takes lines up to the next that holds the text; "" when there is none. */
const char *fake_until(const char *text);

/* How many of the lines not yet taken hold the text. */
unsigned fake_count(const char *text);

/* Number after "name": in the line; -1 where it is not there. */
long long number_in(const char *line, const char *name);

/* Next of a sequence of random numbers. */
uint64_t next_random(uint64_t *state);

#endif
