/*
 * All that a bench knows, in one struct of fixed size, so that it can be laid down statically.
 *
 * Where bench_tick is an interrupt it owns what is marked so; bench_talk touches that only between lock and unlock.
 * All else belongs to bench_talk alone.
 */
#ifndef BENCH_STATE_H
#define BENCH_STATE_H

#include "bench.h"

#define BENCH_NEVER UINT64_MAX

/* Something to be told, in the order in which it happened. */
enum event_kind { EVENT_QUEUED, EVENT_DONE, EVENT_REFUSED, EVENT_EDGE, EVENT_STATE, EVENT_SAFE, EVENT_FAULT };

#define BENCH_NO_POINT 255u

struct bench_event {
    uint64_t id;       /* answers: the command's; EVENT_SAFE: the asker's session, if `level` says that it is known */
    uint64_t t_us;     /* EVENT_DONE: the measured instant, or BENCH_NEVER */
    uint32_t session;
    uint8_t kind;
    uint8_t word;      /* enum why, cause or trouble */
    uint8_t point;
    uint8_t level;
};

/* The answer to a command that is over. */
struct bench_answer {
    uint64_t id;
    uint64_t at_us;  /* or BENCH_NEVER */
    uint8_t why;     /* enum why; WHY_NONE: done */
    uint8_t member;  /* the member that was wrong; MEMBERS: none */
};

struct bench_output {
    uint8_t point;
    int32_t value;  /* being driven */
    bool ramp;
    int32_t from, to;
    uint64_t start_us, over_us;
};

struct bench_set {
    bool used;
    uint64_t id, at_us, until_us, over_us;
    uint64_t named;  /* bit o: output o */
    int32_t value[BENCH_OUTPUTS_MAX];
};

struct bench_limit {
    bool on, has_low, has_high;
    int32_t low, high;
    uint64_t good_us;  /* last good reading inside */
};

struct bench_pin {
    bool moving;        /* has left the reported level and not yet settled */
    uint8_t reported, raw;
    uint64_t left_us;   /* first transition */
    uint64_t last_us;   /* last transition */
};

struct bench_health {
    uint8_t reading;   /* enum bench_reading of the last one */
    bool told;         /* its fault has been told */
    uint64_t since_us;
};

enum ring_state { RING_FREE, RING_RUNNING, RING_ENDED };

/* What a stream was asked to be. */
struct bench_plan {
    char name[BENCH_NAME_MAX + 1];
    bool dense;
    uint8_t points[BENCH_STREAM_POINTS_MAX];
    uint8_t point_count;
    uint32_t session;
    uint32_t batch;
    uint32_t capacity;  /* samples that its ring holds */
    uint64_t of, every_us, flush_us;
    uint64_t late_us;   /* a sample taken later than this after its instant is left out */
    uint64_t early_us;  /* a tick that comes earlier than its instant by no more than this serves it */
};

struct bench_stream {
    /* Set while the ring is free; from then on only `state` changes, under lock. */
    uint8_t state;
    struct bench_plan plan;

    /* Tick's. */
    bool begun, gap_told;
    uint64_t due_us;
    uint64_t quiet_us;  /* until then no other overrun is told */
    uint32_t head;
    uint32_t filled;  /* samples from tail to head; talk takes away under lock */
    int32_t ring[BENCH_RING_WORDS];

    /* Talk's. */
    uint32_t tail, closed;  /* first sample kept; samples from there that are in closed batches */
    uint32_t run;           /* samples after those, found to follow each other without a gap */
    bool end_answered, end_has_answer;
    uint64_t end_id;
};

/* A closed batch, or the answer that must follow the last of them. */
struct bench_waiting {
    uint64_t n;        /* batch: its number; answer: the command's id */
    uint32_t session;
    uint8_t ring;      /* BENCH_RINGS: an answer */
    bool dropped;
    uint32_t count;
};

struct bench {
    const struct bench_board *board;
    const struct bench_card *card;
    uint32_t boot;
    uint8_t output_of[BENCH_POINTS_MAX];  /* point to output, BENCH_NO_POINT where it is none */
    uint8_t output_count;

    /* Tick's. */
    bool in_session, armed;
    uint32_t session;
    unsigned condition;
    uint64_t beat_limit_us, beat_due_us, scan_due_us;
    struct bench_output outputs[BENCH_OUTPUTS_MAX];
    struct bench_set sets[BENCH_QUEUE];
    struct bench_limit limits[BENCH_POINTS_MAX];
    struct bench_pin pins[BENCH_POINTS_MAX];
    struct bench_health health[BENCH_POINTS_MAX];
    bool testing;
    uint64_t test_id, test_end_us;
    bool test_good[BENCH_POINTS_MAX];
    struct bench_event events[BENCH_EVENTS];
    uint32_t event_first, event_count, events_lost;
    struct bench_answer answers[BENCH_REMEMBERED];
    uint32_t answer_next, answer_count;
    struct bench_stream streams[BENCH_RINGS];

    /* Talk's. */
    uint64_t next_n;
    uint64_t greatest_id;
    bool any_id, any_k;
    int64_t greatest_k;
    uint32_t ended[BENCH_ENDED_SESSIONS];
    uint32_t ended_next, ended_count;
    uint64_t state_due_us;
    uint32_t bad_lines;
    struct bench_limit staged[BENCH_POINTS_MAX];

    char in[BENCH_MAX_LINE];
    size_t in_length;
    bool in_overflow;

    uint8_t out[BENCH_OUT_BYTES];
    size_t out_first, out_count;
    uint64_t pong_id;
    uint32_t pong_session;
    bool pong_due;

    struct bench_waiting waiting[BENCH_WAITING];
    uint32_t waiting_first, waiting_count;
    uint8_t samples[BENCH_SAMPLES_BYTES];
    size_t samples_sent, samples_length;
};

#endif
