/* What the parts of the core offer each other. Functions marked (locked) are called by bench_tick, or under lock. */
#ifndef BENCH_PARTS_H
#define BENCH_PARTS_H

#include "bench.h"
#include "json.h"
#include "words.h"
#include "writer.h"

/* A command as it came; a member that is not there has `at` null. */
struct message {
    struct text value[MEMBERS];
    enum member doubled;  /* a member that came twice; MEMBERS: none */
    uint32_t session;
    uint64_t id;
};

/* What a number in a command may be: both allowed. */
struct range {
    int64_t least, most;
};

extern const struct range TIMES;        /* 0 to 2^53 - 1 */
extern const struct range FROM_0;       /* to 2^31 - 1 */
extern const struct range FROM_1;       /* to 2^31 - 1 */
extern const struct range ANY_INTEGER;

/* Why a command is refused, and which member is to blame (MEMBERS: none in particular). */
struct refusal {
    enum why why;
    enum member member;
};

/* bench.c */
uint64_t now_us(const struct bench *b);
void lock(const struct bench *b);
void unlock(const struct bench *b);
const struct bench_point *point_of(const struct bench *b, unsigned point);
bool find_point(const struct bench *b, struct text name, unsigned *point);
bool is_analogue(enum bench_kind kind);
bool is_digital(enum bench_kind kind);

/* events.c (locked) */
void post(struct bench *b, const struct bench_event *event);
void post_numbered(struct bench *b, enum event_kind kind, unsigned point, unsigned word, uint64_t t_us);
void post_answer(struct bench *b, enum event_kind kind, uint64_t id, enum why why, uint64_t at_us);
bool events_have_room(const struct bench *b);
void remember(struct bench *b, uint64_t id, struct refusal refusal, uint64_t at_us);
const struct bench_answer *remembered(const struct bench *b, uint64_t id);

/* outputs.c (locked) */
void drive_all_safe(struct bench *b);
void arm(struct bench *b, uint64_t beat_limit_us, uint64_t id, uint64_t at_us);
uint64_t disarm(struct bench *b, enum cause cause, const uint32_t *by);  /* when the outputs were driven */
void drive_set(struct bench *b, const struct bench_set *set, uint64_t at_us);
struct bench_set *free_set(struct bench *b);
bool is_queued(const struct bench *b, uint64_t id);
void watch_beat(struct bench *b, uint64_t now);
void run_sets(struct bench *b);
void run_ramps(struct bench *b, uint64_t now);

/* inputs.c (locked) */
void start_inputs(struct bench *b, uint64_t now);
void watch_condition(struct bench *b, uint64_t now);
void watch_pins(struct bench *b, uint64_t now);
void watch_limits(struct bench *b, uint64_t now);
enum bench_reading read_input(struct bench *b, unsigned point, int32_t *counts, uint64_t now);
void tell_faults(struct bench *b, uint64_t now);
bool is_inside(const struct bench_limit *limit, int32_t counts);
void begin_self_test(struct bench *b, uint64_t id, uint64_t now);
void run_self_test(struct bench *b, uint64_t now);

/* streams.c */
void sample_streams(struct bench *b, uint64_t now);  /* (locked) */
void close_batches(struct bench *b);
void end_stream(struct bench *b, struct bench_stream *stream, const uint64_t *answer_id);
void end_all_streams(struct bench *b);
struct bench_stream *running_stream(struct bench *b, const char *name);
void begin_stream(struct bench *b, const struct bench_plan *plan);
bool is_waiting_answer(const struct bench *b, uint64_t id);

/* samples.c */
size_t batch_bytes(const struct bench *b, const struct bench_plan *plan, uint32_t samples);
uint32_t samples_within(const struct bench *b, const struct bench_plan *plan, size_t bytes);
bool write_samples(struct bench *b, struct bench_stream *stream, const struct bench_waiting *batch);

/* answers.c: false where the room does not suffice; then nothing is written */
bool write_bench_and_state(struct bench *b, const struct message *message);
bool write_state(struct bench *b);
bool write_done(struct bench *b, uint32_t session, uint64_t id, uint64_t at_us);
bool write_refused(struct bench *b, uint32_t session, uint64_t id, struct refusal refusal);
bool write_queued(struct bench *b, uint32_t session, uint64_t id);
bool write_pong(struct bench *b);
bool write_event(struct bench *b, const struct bench_event *event);
bool bench_line_fits(struct bench *b);

/* line.c */
void drain_events(struct bench *b);
void read_lines(struct bench *b);
void send_out(struct bench *b);

/* commands.c */
void handle_line(struct bench *b, struct text text);

/* arming.c, setting.c, streaming.c: what a command does, once its session and id are known to be good */
struct refusal do_arm(struct bench *b, const struct message *message);
struct refusal do_set(struct bench *b, const struct message *message);
struct refusal do_stream(struct bench *b, const struct message *message, bool *answer_waits);

/* members.c */
void read_members(struct message *message, struct text text);
struct refusal refused(enum why why, enum member member);
struct refusal accepted(void);
bool is_refused(struct refusal refusal);
struct refusal need_integer(const struct message *message, enum member member, struct range range, int64_t *out);
struct refusal may_integer(const struct message *message, enum member member, struct range range, int64_t *out);

/* `busy` while a self-test runs. */
struct refusal need_rest(const struct bench *b);
struct refusal need_own_boot(const struct bench *b, const struct message *message);

#endif
