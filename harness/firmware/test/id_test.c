/* Ids, repeats and remembered answers: a command is executed once, and its answer can be had again. */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "fake.h"

static const char *answer_to_set(unsigned id, unsigned value, const char *more)
{
    return fake_answer("{\"m\":\"set\",\"id\":%u" OURS OUR_BOOT
                       ",\"until-us\":%llu,\"points\":{\"H1\":%u}%s}",
                       id, (unsigned long long) fake.now + 500000, value, more);
}

static const char *answer_to_stream(unsigned id, const char *name)
{
    return fake_answer("{\"m\":\"stream\",\"id\":%u" OURS ",\"name\":\"%s\",\"points\":[]}", id, name);
}

static void a_repeated_set_is_executed_once_and_answered_with_its_instant(void)
{
    fake_armed(500, NULL);
    unsigned drives = fake.drives[H1];
    long long at_us = number_in(answer_to_set(10, 100, ""), "at-us");
    CHECK(at_us == (long long) fake.now);
    fake.now += 1000;
    fake.counts[D1] = 0;
    fake_ticks();
    fake.now += 300;
    fake_ticks();
    fake_talks();
    const char *answer = answer_to_set(10, 100, "");
    CHECK(strstr(answer, "done") != NULL && number_in(answer, "at-us") == at_us);
    CHECK(number_in(answer, "next") == (long long) fake.bench.next_n);
    CHECK(fake.drives[H1] == drives + 1);
}

static void a_repeat_says_what_was_done_and_not_what_is(void)
{
    fake_armed(500, NULL);
    const char *again = "{\"m\":\"arm\",\"id\":2" OURS OUR_BOOT
                        ",\"until-us\":1001000,\"beat-ms\":500}";
    fake_says("{\"m\":\"safe\",\"id\":3" OURS "}");
    fake_talks();
    CHECK(strstr(fake_answer("%s", again), "done") != NULL);
    CHECK(!bench_is_armed(&fake.bench));
}

static void a_refusal_is_remembered_too(void)
{
    fake_greeted(ALL_POINTS);
    CHECK(strstr(answer_to_set(10, 100, ""), "not-armed") != NULL);
    fake_says("{\"m\":\"arm\",\"id\":11" OURS OUR_BOOT ",\"until-us\":%llu,\"beat-ms\":500}",
              (unsigned long long) fake.now + 1000);
    fake_talks();
    CHECK(bench_is_armed(&fake.bench));
    CHECK(strstr(answer_to_set(10, 100, ""), "not-armed") != NULL);
    CHECK(fake.counts[H1] == 0);
}

static void a_pending_set_is_answered_queued_until_it_is_done(void)
{
    char at[40];
    fake_armed(500, NULL);
    snprintf(at, sizeof at, ",\"at-us\":%llu", (unsigned long long) fake.now + 50000);
    CHECK(strstr(answer_to_set(10, 100, at), "queued") != NULL);
    fake.now += 10000;
    CHECK(strstr(answer_to_set(10, 100, at), "queued") != NULL);
    CHECK_SAME("", fake_line());
    fake_runs(45000);
    CHECK(fake_count("\"done\",\"id\":10") == 1);
    CHECK(strstr(answer_to_set(10, 100, at), "done") != NULL);
}

static void an_id_below_the_greatest_and_not_remembered_is_stale(void)
{
    fake_greeted(ALL_POINTS);
    CHECK(strstr(answer_to_stream(10, "a"), "done") != NULL);
    CHECK(strstr(answer_to_stream(9, "a"), "stale") != NULL);
    CHECK(strstr(answer_to_stream(10, "a"), "done") != NULL);
    CHECK(strstr(answer_to_stream(11, "a"), "done") != NULL);
}

static void the_last_256_answers_are_kept(void)
{
    fake_greeted(ALL_POINTS);
    for (unsigned id = 10; id < 10 + 257; id++) {
        CHECK(strstr(answer_to_stream(id, "a"), "done") != NULL);
    }
    CHECK(strstr(answer_to_stream(10, "a"), "stale") != NULL);
    CHECK(strstr(answer_to_stream(11, "a"), "done") != NULL);
    CHECK(strstr(answer_to_stream(266, "a"), "done") != NULL);
}

static void a_pending_answer_is_kept_until_256_later_ones_have_ended(void)
{
    char at[40];
    fake_armed(500, NULL);
    snprintf(at, sizeof at, ",\"at-us\":%llu", (unsigned long long) fake.now + 100000);
    CHECK(strstr(answer_to_set(10, 100, at), "queued") != NULL);
    for (unsigned id = 11; id < 11 + 300; id++) {
        CHECK(strstr(answer_to_stream(id, "a"), "done") != NULL);
    }
    CHECK(strstr(answer_to_set(10, 100, at), "queued") != NULL);
    fake_runs(100000);
    for (unsigned id = 400; id < 400 + 255; id++) {
        CHECK(strstr(answer_to_stream(id, "a"), "done") != NULL);
    }
    CHECK(strstr(answer_to_set(10, 100, at), "done") != NULL);
    CHECK(strstr(answer_to_stream(700, "a"), "done") != NULL);
    CHECK(strstr(answer_to_set(10, 100, at), "stale") != NULL);
}

static void pings_and_hellos_need_no_rising_ids(void)
{
    fake_greeted(ALL_POINTS);
    CHECK(strstr(answer_to_stream(50, "a"), "done") != NULL);
    CHECK(strstr(fake_answer("{\"m\":\"ping\",\"id\":3" OURS "}"), "pong") != NULL);
    CHECK(strstr(fake_answer("{\"m\":\"ping\",\"id\":3" OURS "}"), "pong") != NULL);
    CHECK(strstr(fake_answer("{\"m\":\"hello\",\"id\":0" OURS ",\"link\":1,\"host\":\"\"}"), "bench")
          != NULL);
}

static void an_answer_that_found_no_room_is_had_by_the_repeat(void)
{
    fake_armed(500, NULL);
    fake.send_room = 0;
    for (unsigned i = 0; i < 200; i++) {
        fake_says("{\"m\":\"ping\",\"id\":%u" OURS "}", 1000 + i);
        fake_talks();
    }
    unsigned drives = fake.drives[H1];
    fake_says("{\"m\":\"set\",\"id\":10" OURS OUR_BOOT
              ",\"until-us\":%llu,\"points\":{\"H1\":7}}", (unsigned long long) fake.now + 1000);
    fake_talks();
    CHECK(fake.counts[H1] == 7);
    fake_forget();
    fake_talks();
    CHECK(strstr(answer_to_set(10, 7, ""), "done") != NULL);
    CHECK(fake.drives[H1] == drives + 1);
}

const struct test id_tests[] = {TEST(a_repeated_set_is_executed_once_and_answered_with_its_instant),
                                TEST(a_repeat_says_what_was_done_and_not_what_is),
                                TEST(a_refusal_is_remembered_too),
                                TEST(a_pending_set_is_answered_queued_until_it_is_done),
                                TEST(an_id_below_the_greatest_and_not_remembered_is_stale),
                                TEST(the_last_256_answers_are_kept),
                                TEST(a_pending_answer_is_kept_until_256_later_ones_have_ended),
                                TEST(pings_and_hellos_need_no_rising_ids),
                                TEST(an_answer_that_found_no_room_is_had_by_the_repeat),
                                {NULL, NULL}};
