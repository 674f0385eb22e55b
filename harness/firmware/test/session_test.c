/* What the bench does with each message in each state, and how sessions begin, are taken over and end. */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "fake.h"

#define OTHER "0badcafe"

enum state { NO_SESSION, DISARMED, ARMED, STATES };

static void prepare(enum state state)
{
    if (state == NO_SESSION) {
        fake_start(ALL_POINTS);
    } else if (state == DISARMED) {
        fake_greeted(ALL_POINTS);
    } else {
        fake_armed(500, NULL);
    }
}

/* A message of every kind, sound in itself, for a session. */
static const char *command(const char *m, const char *session)
{
    static char text[400];
    const char *rest = "";
    unsigned long long until = fake.now + 1000;
    if (strcmp(m, "hello") == 0) {
        rest = ",\"link\":1,\"host\":\"lapwing\"";
    } else if (strcmp(m, "stream") == 0) {
        rest = ",\"name\":\"s\",\"points\":[\"P1\"],\"every-us\":10000,\"batch\":5,\"flush-ms\":1000";
    } else if (strcmp(m, "arm") == 0) {
        rest = OUR_BOOT ",\"beat-ms\":300";
    } else if (strcmp(m, "set") == 0) {
        rest = OUR_BOOT ",\"points\":{\"W1\":1}";
    }
    snprintf(text, sizeof text, "{\"m\":\"%s\",\"id\":77,\"session\":\"%s\"%s,\"until-us\":%llu}", m, session, rest,
             until);
    return text;
}

static void check_answer(const char *m, enum state state, const char *session, const char *expected)
{
    prepare(state);
    const char *answer = fake_answer("%s", command(m, session));
    char found[64] = "";
    char tail[32];
    snprintf(tail, sizeof tail, "\"session\":\"%s\"", session);
    if (*answer != 0) {
        const char *why = strstr(answer, "\"why\":\"");
        const char *word = why != NULL ? why + 7 : answer + 6;
        size_t length = strcspn(word, "\":");
        memcpy(found, word, length);
        CHECK(strstr(answer, tail) != NULL);
        CHECK(strstr(answer, "\"id\":77") != NULL);
    }
    char what[200];
    char wanted[200];
    snprintf(what, sizeof what, "%s in state %d of %s: %s", m, (int) state, session, found);
    snprintf(wanted, sizeof wanted, "%s in state %d of %s: %s", m, (int) state, session, expected);
    CHECK_SAME(wanted, what);
}

/* The contract's table: no session; disarmed, its session; armed, its session; another session's (disarmed, armed). */
static void every_message_in_every_state_is_answered_as_the_table_says(void)
{
    static const char *const table[][6] = {
        {"hello", "bench", "bench", "bench", "bench", "busy"},
        {"ping", "no-session", "pong", "pong", "busy", "busy"},
        {"stream", "no-session", "done", "done", "busy", "busy"},
        {"self-test", "no-session", "queued", "armed", "busy", "busy"},
        {"arm", "no-session", "done", "armed", "busy", "busy"},
        {"set", "no-session", "not-armed", "done", "busy", "busy"},
        {"juggle", "no-session", "unsupported", "unsupported", "busy", "busy"}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        check_answer(table[i][0], NO_SESSION, SESSION, table[i][1]);
        check_answer(table[i][0], DISARMED, SESSION, table[i][2]);
        check_answer(table[i][0], ARMED, SESSION, table[i][3]);
        check_answer(table[i][0], DISARMED, OTHER, table[i][4]);
        check_answer(table[i][0], ARMED, OTHER, table[i][5]);
    }
}

static void safe_is_done_in_every_state_for_everyone(void)
{
    static const char *const sessions[] = {SESSION, OTHER};
    for (unsigned state = 0; state < STATES; state++) {
        for (unsigned s = 0; s < 2; s++) {
            prepare((enum state) state);
            unsigned drives = fake.drives[M1];
            const char *answer = fake_answer("%s", command("safe", sessions[s]));
            CHECK(fake.drives[M1] == drives + 1 && fake.counts[M1] == 250);
            CHECK(!bench_is_armed(&fake.bench));
            if (state == ARMED) {
                char by[48];
                snprintf(by, sizeof by, "\"why\":\"host\",\"by\":\"%s\"}", sessions[s]);
                CHECK(strstr(answer, by) != NULL && strstr(answer, "\"session\":\"" SESSION "\"") != NULL);
                answer = fake_line();
                CHECK(strstr(answer, "\"m\":\"state\"") != NULL && strstr(answer, "\"armed\":false") != NULL);
                answer = fake_line();
            }
            CHECK(strstr(answer, "\"m\":\"done\",\"id\":77") != NULL && strstr(answer, sessions[s]) != NULL);
            CHECK(number_in(answer, "at-us") == (long long) fake.now);
            CHECK_SAME("", fake_line());
        }
    }
}

static void safe_is_done_whatever_else_the_message_holds(void)
{
    static const char *const lines[] = {
        "{\"m\":\"safe\"}", "{\"m\":\"safe\",\"id\":\"x\",\"session\":9}",
        "{\"session\":[],\"m\":\"s\\u0061fe\",\"id\":{}}",
        "{\"m\":\"safe\",\"m\":\"ping\",\"id\":3,\"id\":3" OURS "}"};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        fake_armed(500, NULL);
        const char *answer = fake_answer("%s", lines[i]);
        CHECK(!bench_is_armed(&fake.bench));
        CHECK(strstr(answer, "\"why\":\"host\"") != NULL);
        CHECK(fake_count("done") == 0);
        CHECK(fake.bench.bad_lines == 0);
    }
}

static void the_bench_numbers_nothing_before_the_first_session(void)
{
    fake_start(ALL_POINTS);
    fake.counts[D1] = 0;
    fake.condition = BENCH_SUPPLY_FAULT;
    fake_runs(3000000);
    fake.condition = 0;
    fake_runs(1000);
    CHECK_SAME("", fake_line());
    const char *answer = fake_answer("%s", command("hello", SESSION));
    CHECK(number_in(answer, "next") == 0);
    answer = fake_line();
    CHECK(strstr(answer, "\"state\"") != NULL && number_in(answer, "n") == 0 && number_in(answer, "D1") == 0);
}

static void the_greeting_counts_on_within_its_boot(void)
{
    fake_greeted(ALL_POINTS);
    fake_runs(5500000);
    CHECK(fake_count("\"state\"") == 5);
    const char *answer = fake_answer("%s", command("hello", SESSION));
    CHECK(number_in(answer, "next") == 6);
    CHECK(number_in(fake_line(), "n") == 6);
    answer = fake_answer("%s", command("hello", OTHER));
    CHECK(number_in(answer, "next") == 7);
    CHECK(number_in(fake_line(), "n") == 7);
}

static void a_hello_that_is_none_opens_nothing(void)
{
    fake_start(ALL_POINTS);
    const char *answer = fake_answer("{\"m\":\"hello\",\"id\":1" OURS ",\"link\":2,\"host\":\"x\"}");
    CHECK(strstr(answer, "wrong-link") != NULL);
    answer = fake_answer("{\"m\":\"hello\",\"id\":1" OURS ",\"host\":\"x\"}");
    CHECK(strstr(answer, "wrong-link") != NULL);
    answer = fake_answer("{\"m\":\"hello\",\"id\":1" OURS ",\"link\":1}");
    CHECK(strstr(answer, "bad-message") != NULL);
    answer = fake_answer("{\"id\":1" OURS "}");
    CHECK(strstr(answer, "no-session") != NULL);
}

static void what_an_ended_session_still_sends_is_stale(void)
{
    static const char *const all[] = {"hello", "ping", "stream", "self-test", "arm", "set"};
    fake_greeted(ALL_POINTS);
    fake_says("%s", command("hello", OTHER));
    fake_talks();
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        CHECK(strstr(fake_answer("%s", command(all[i], SESSION)), "\"why\":\"stale") != NULL);
    }
    CHECK(strstr(fake_answer("%s", command("safe", SESSION)), "done") != NULL);
}

static void the_last_sixteen_ended_sessions_are_kept(void)
{
    char session[9];
    fake_start(ALL_POINTS);
    for (unsigned s = 0; s < 18; s++) {
        snprintf(session, sizeof session, "%08x", 0xabc000u + s);
        CHECK(strstr(fake_answer("%s", command("hello", session)), "\"bench\"") != NULL);
    }
    for (unsigned s = 17; s-- > 0;) {
        snprintf(session, sizeof session, "%08x", 0xabc000u + s);
        const char *expected = s == 0 ? "\"bench\"" : "stale";
        CHECK(strstr(fake_answer("%s", command("hello", session)), expected) != NULL);
    }
}

static void a_takeover_ends_streams_and_forgets_ids(void)
{
    fake_greeted(ALL_POINTS);
    fake_says("%s", command("stream", SESSION));
    fake_runs(25000);
    const char *line = fake_answer("%s", command("hello", OTHER));
    CHECK(strstr(line, "\"bench\"") != NULL && number_in(line, "next") == 2);
    line = fake_line();
    CHECK(number_in(line, "n") == 2);
    line = fake_line();
    CHECK(strstr(line, "\"samples\",\"n\":1" OURS) != NULL);
    fake_forget();
    fake_runs(200000);
    CHECK(fake_count("samples") == 0);
    CHECK(strstr(fake_answer("%s", command("stream", OTHER)), "done") != NULL);
}

static void unknown_members_are_ignored(void)
{
    fake_greeted(ALL_POINTS);
    const char *answer = fake_answer("{\"colour\":[1.5e3,{\"m\":\"safe\"}],\"m\":\"ping\",\"id\":5,\"p\":null,"
                                     "\"session\":\"" SESSION "\",\"\":{\"id\":9}}");
    CHECK(strstr(answer, "\"pong\",\"id\":5") != NULL);
}

static void every_ping_has_its_pong_even_when_the_line_is_slow(void)
{
    fake_greeted(ALL_POINTS);
    fake.send_room = 0;
    for (unsigned i = 0; i < 5; i++) {
        fake_says("{\"m\":\"ping\",\"id\":%u" OURS "}", 10 + i);
        fake_talks();
    }
    fake.now += 5000;
    fake.send_room = 100000;
    fake_talks();
    CHECK(fake_count("pong") == 5);
    CHECK(number_in(fake_until("\"id\":14"), "now-us") == (long long) fake.now);
}

const struct test session_tests[] = {TEST(every_message_in_every_state_is_answered_as_the_table_says),
                                     TEST(safe_is_done_in_every_state_for_everyone),
                                     TEST(safe_is_done_whatever_else_the_message_holds),
                                     TEST(the_bench_numbers_nothing_before_the_first_session),
                                     TEST(the_greeting_counts_on_within_its_boot),
                                     TEST(a_hello_that_is_none_opens_nothing),
                                     TEST(what_an_ended_session_still_sends_is_stale),
                                     TEST(the_last_sixteen_ended_sessions_are_kept),
                                     TEST(a_takeover_ends_streams_and_forgets_ids),
                                     TEST(unknown_members_are_ignored),
                                     TEST(every_ping_has_its_pong_even_when_the_line_is_slow),
                                     {NULL, NULL}};
