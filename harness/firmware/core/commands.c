/* Commands: the contract's order of checks, sessions, ids, and who may do what. */
#include "parts.h"

enum command { HELLO, PING, SELF_TEST, STREAM, ARM, SET, UNKNOWN };

static enum command command_of(const struct message *message)
{
    static const char *const names[] = {"hello", "ping", "self-test", "stream", "arm", "set"};
    for (unsigned command = 0; command < UNKNOWN; command++) {
        if (json_is(message->value[MEMBER_M], names[command])) {
            return (enum command) command;
        }
    }
    return UNKNOWN;
}

static bool is_remembered(enum command command)
{
    return command == STREAM || command == ARM || command == SET || command == SELF_TEST;
}

/* `safe`: first of all, whatever else the message holds. Its answer needs a session and an id to go to. */
static void do_safe(struct bench *b, const struct message *message, bool has_session, bool has_id)
{
    lock(b);
    uint64_t at_us;
    if (b->armed) {
        at_us = disarm(b, CAUSE_HOST, has_session ? &message->session : NULL);
    } else {
        at_us = now_us(b);
        drive_all_safe(b);
    }
    if (has_session && has_id) {
        struct bench_event done = {message->id, at_us, message->session, EVENT_DONE, WHY_NONE, BENCH_NO_POINT, 0};
        post(b, &done);
    }
    unlock(b);
}

/* Every k received in the session is noted; only a fresh one, while armed, gives the outputs more time. */
static void do_beat(struct bench *b, const struct message *message)
{
    int64_t k;
    int64_t seen_us;
    if (is_refused(need_integer(message, MEMBER_K, TIMES, &k))
        || is_refused(need_integer(message, MEMBER_SEEN_US, TIMES, &seen_us))) {
        b->bad_lines++;
        return;
    }
    if (!b->in_session || message->session != b->session || (b->any_k && k <= b->greatest_k)) {
        return;
    }
    b->any_k = true;
    b->greatest_k = k;
    lock(b);
    int64_t now = (int64_t) now_us(b);
    if (b->armed && seen_us <= now && seen_us >= now - (int64_t) b->beat_limit_us) {
        b->beat_due_us = (uint64_t) now + b->beat_limit_us;
    }
    unlock(b);
}

static bool has_ended(const struct bench *b, uint32_t session)
{
    for (uint32_t i = 0; i < b->ended_count; i++) {
        if (b->ended[i] == session) {
            return true;
        }
    }
    return false;
}

static struct refusal check_session(const struct bench *b, const struct message *message, enum command command)
{
    if (has_ended(b, message->session)) {
        return refused(WHY_STALE, MEMBER_SESSION);
    }
    if (b->in_session && message->session == b->session) {
        return accepted();
    }
    if (command == HELLO) {
        return b->armed ? refused(WHY_BUSY, MEMBERS) : accepted();
    }
    return refused(b->in_session ? WHY_BUSY : WHY_NO_SESSION, MEMBERS);
}

static void take_over(struct bench *b, uint32_t session)
{
    if (b->in_session) {
        end_all_streams(b);
        b->ended[b->ended_next] = b->session;
        b->ended_next = (b->ended_next + 1) % BENCH_ENDED_SESSIONS;
        b->ended_count += b->ended_count < BENCH_ENDED_SESSIONS ? 1u : 0u;
    }
    lock(b);
    b->in_session = true;
    b->session = session;
    b->answer_count = 0;
    b->answer_next = 0;
    unlock(b);
    b->any_id = false;
    b->any_k = false;
    b->pong_due = false;
}

static struct refusal do_hello(struct bench *b, const struct message *message)
{
    if (!json_is_string_value(message->value[MEMBER_HOST])) {
        return refused(WHY_BAD_MESSAGE, MEMBER_HOST);
    }
    if (b->testing) {
        return need_rest(b);
    }
    if (!b->in_session || message->session != b->session) {
        take_over(b, message->session);
    }
    if (write_bench_and_state(b, message)) {
        lock(b);
        tell_faults(b, now_us(b));
        unlock(b);
    }
    return accepted();
}

/* The answer is written when the line is free, so that its clock reading is young. */
static void do_ping(struct bench *b, const struct message *message)
{
    if (b->pong_due) {
        (void) write_pong(b);
    }
    b->pong_due = true;
    b->pong_id = message->id;
    b->pong_session = message->session;
}

static struct refusal do_self_test(struct bench *b, const struct message *message)
{
    if (b->testing) {
        return need_rest(b);
    }
    if (b->armed) {
        return refused(WHY_ARMED, MEMBERS);
    }
    lock(b);
    begin_self_test(b, message->id, now_us(b));
    unlock(b);
    return accepted();
}

/* Whether the id was seen before; then it is answered from memory, or not at all while its answer is on its way. */
static bool answered_before(struct bench *b, const struct message *message)
{
    lock(b);
    bool pending = is_queued(b, message->id) || (b->testing && b->test_id == message->id);
    const struct bench_answer *kept = remembered(b, message->id);
    struct bench_answer answer = {0, BENCH_NEVER, WHY_NONE, MEMBERS};
    answer = kept != NULL ? *kept : answer;
    unlock(b);
    if (pending) {
        (void) write_queued(b, message->session, message->id);
    } else if (kept != NULL && answer.why != WHY_NONE) {
        (void) write_refused(b, message->session, message->id, refused((enum why) answer.why,
                                                                       (enum member) answer.member));
    } else if (kept != NULL && !is_waiting_answer(b, message->id)) {
        (void) write_done(b, message->session, message->id, answer.at_us);
    } else if (kept == NULL && b->any_id && message->id <= b->greatest_id) {
        (void) write_refused(b, message->session, message->id, refused(WHY_STALE, MEMBER_ID));
    } else if (kept == NULL) {
        b->any_id = true;
        b->greatest_id = message->id;
        return false;
    }
    return true;
}

static void keep_answer(struct bench *b, uint64_t id, struct refusal refusal)
{
    lock(b);
    remember(b, id, refusal, BENCH_NEVER);
    unlock(b);
}

static struct refusal do_command(struct bench *b, const struct message *message, enum command command)
{
    bool answer_waits = false;
    struct refusal r;
    switch (command) {
    case HELLO:
        return do_hello(b, message);
    case PING:
        do_ping(b, message);
        return accepted();
    case SELF_TEST:
        return do_self_test(b, message);
    case ARM:
        return do_arm(b, message);
    case SET:
        return do_set(b, message);
    case STREAM:
        r = do_stream(b, message, &answer_waits);
        if (!is_refused(r)) {
            keep_answer(b, message->id, r);
        }
        if (!is_refused(r) && !answer_waits) {
            (void) write_done(b, message->session, message->id, BENCH_NEVER);
        }
        return r;
    case UNKNOWN:
        break;
    }
    return json_is_string_value(message->value[MEMBER_M]) ? refused(WHY_UNSUPPORTED, MEMBERS)
                                                           : refused(WHY_BAD_MESSAGE, MEMBER_M);
}

static void handle_command(struct bench *b, const struct message *message)
{
    enum command command = command_of(message);
    int64_t link = 0;
    struct refusal r = accepted();
    if (command == HELLO && (!json_integer(message->value[MEMBER_LINK], &link) || link != 1)) {
        r = refused(WHY_WRONG_LINK, MEMBERS);
    }
    r = is_refused(r) ? r : check_session(b, message, command);
    if (is_refused(r)) {
        (void) write_refused(b, message->session, message->id, r);
        return;
    }
    if (is_remembered(command) && answered_before(b, message)) {
        return;
    }
    if (message->doubled != MEMBERS) {
        r = refused(WHY_BAD_MESSAGE, message->doubled);
    } else {
        r = do_command(b, message, command);
    }
    if (is_refused(r)) {
        if (is_remembered(command)) {
            keep_answer(b, message->id, r);
        }
        (void) write_refused(b, message->session, message->id, r);
    }
}

void handle_line(struct bench *b, struct text text)
{
    struct message message;
    int64_t id = 0;
    read_members(&message, text);
    bool has_session =
        message.doubled != MEMBER_SESSION && json_hex8(message.value[MEMBER_SESSION], &message.session);
    bool has_id =
        message.doubled != MEMBER_ID && !is_refused(need_integer(&message, MEMBER_ID, FROM_0, &id));
    message.id = (uint64_t) id;
    if (json_is(message.value[MEMBER_M], "safe")) {
        do_safe(b, &message, has_session, has_id);
        return;
    }
    bool beat = json_is(message.value[MEMBER_M], "beat");
    if (!has_session || !(has_id || beat)) {
        b->bad_lines++;
    } else if (beat) {
        do_beat(b, &message);
    } else if (events_have_room(b)) {
        /* Without room for what it may cause, a command waits for its repeat. */
        handle_command(b, &message);
    }
}
