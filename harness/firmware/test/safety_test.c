/* Arming, the heartbeat, and every way in which an armed bench becomes safe. */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "fake.h"

static const char *arm(unsigned id, const char *boot, long long until_us, long long beat_ms)
{
    return fake_answer("{\"m\":\"arm\",\"id\":%u" OURS ",\"boot\":\"%s\",\"until-us\":%lld,\"beat-ms\":%lld}",
                       id, boot, until_us, beat_ms);
}

static void beat(long long k, long long seen_us)
{
    fake_says("{\"m\":\"beat\"" OURS ",\"k\":%lld,\"seen-us\":%lld}", k, seen_us);
    fake_talks();
}

static void drive_something(void)
{
    fake_says("{\"m\":\"set\",\"id\":500" OURS OUR_BOOT
              ",\"until-us\":%llu,\"points\":{\"W1\":1,\"W2\":0,\"H1\":4000,\"U1\":5000,\"M1\":0}}",
              (unsigned long long) fake.now + 1000);
    fake_talks();
    CHECK(fake.counts[W1] == 1 && fake.counts[M1] == 0);
    fake_forget();
}

static bool is_safe(void)
{
    return fake.counts[W1] == 0 && fake.counts[W2] == 1 && fake.counts[H1] == 0 && fake.counts[U1] == 0
           && fake.counts[M1] == 250 && !bench_is_armed(&fake.bench);
}

/* safe, an edge for each digital output that changed, state. */
static void check_told(const char *why)
{
    char word[40];
    const char *line = fake_until("\"safe\"");
    long long n = number_in(line, "n");
    snprintf(word, sizeof word, "\"why\":\"%s\"", why);
    CHECK(strstr(line, word) != NULL);
    line = fake_line();
    CHECK(strstr(line, "\"point\":\"W1\",\"to\":0") != NULL && number_in(line, "n") == n + 1);
    line = fake_line();
    CHECK(strstr(line, "\"point\":\"W2\",\"to\":1") != NULL && number_in(line, "n") == n + 2);
    line = fake_line();
    CHECK(strstr(line, "\"state\"") != NULL && strstr(line, "\"armed\":false") != NULL);
    CHECK(number_in(line, "n") == n + 3);
}

static void outputs_are_safe_from_the_start_and_when_armed(void)
{
    fake_start(ALL_POINTS);
    CHECK(is_safe());
    fake_greeted(ALL_POINTS);
    const char *answer = arm(2, BOOT, 1500000, 300);
    CHECK(strstr(answer, "\"done\",\"id\":2") != NULL && number_in(answer, "at-us") == 1000000);
    answer = fake_line();
    CHECK(strstr(answer, "\"state\"") != NULL && strstr(answer, "\"armed\":true") != NULL);
    CHECK(fake.counts[W1] == 0 && fake.counts[W2] == 1 && fake.counts[M1] == 250);
}

static void arming_is_refused_with_the_word_for_it(void)
{
    static const struct {
        const char *boot;
        long long until_us, beat_ms;
        const char *why;
    } bad[] = {{"90c4a1f4", 1500000, 300, "stale"},      {"90C4A1F3", 1500000, 300, "bad-message"},
               {BOOT, 999999, 300, "late"},              {BOOT, 3000001, 300, "too-far"},
               {BOOT, -5, 300, "bad-message"},           {BOOT, 1500000, 99, "out-of-range"},
               {BOOT, 1500000, 501, "out-of-range"},     {BOOT, 9007199254740992, 300, "bad-message"}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        fake_greeted(ALL_POINTS);
        CHECK(strstr(arm(2, bad[i].boot, bad[i].until_us, bad[i].beat_ms), bad[i].why) != NULL);
        CHECK(is_safe());
    }
    fake_greeted(ALL_POINTS);
    CHECK(strstr(arm(2, BOOT, 3000000, 100), "done") != NULL);
    fake_greeted(ALL_POINTS);
    CHECK(strstr(arm(2, BOOT, 1000000, 500), "done") != NULL);
}

static void the_clock_is_judged_just_before_outputs_are_driven(void)
{
    static const uint64_t slow[] = {1000000, 1000000, 1000101};
    fake_greeted(ALL_POINTS);
    fake_reads(slow, 3);
    CHECK(strstr(arm(2, BOOT, 1000100, 300), "late") != NULL);
    CHECK(is_safe());
}

static void without_a_beat_outputs_are_safe_within_the_limit_and_five_milliseconds(void)
{
    static const unsigned limits_ms[] = {100, 137, 300, 500};
    for (size_t i = 0; i < sizeof limits_ms / sizeof limits_ms[0]; i++) {
        fake_armed(limits_ms[i], NULL);
        uint64_t armed_us = fake.now;
        drive_something();
        while (fake.counts[W1] != 0 && fake.now < armed_us + 1000000) {
            fake.now += 100;
            fake_ticks();
        }
        CHECK(fake.now > armed_us + limits_ms[i] * 1000u);
        CHECK(fake.now <= armed_us + limits_ms[i] * 1000u + 5000);
        CHECK(is_safe());
        fake_talks();
        check_told("beat-lost");
    }
}

static void outputs_become_safe_even_when_nothing_is_read_or_sent(void)
{
    fake_armed(100, NULL);
    drive_something();
    for (unsigned i = 0; i < 2000; i++) {
        fake.now += 100;
        fake_ticks();
    }
    CHECK(is_safe());
}

static void a_counting_beat_gives_the_limit_anew(void)
{
    fake_armed(100, NULL);
    long long k = 0;
    for (unsigned i = 0; i < 60; i++) {
        fake_runs(33000);
        beat(++k, (long long) fake.now - 2000);
        CHECK(bench_is_armed(&fake.bench));
    }
    fake_runs(99900);
    CHECK(bench_is_armed(&fake.bench));
    fake_runs(5200);
    CHECK(is_safe());
}

/* Beats that must not count, each sent every 10 ms in place of good ones. */
static void a_beat_that_is_not_fresh_does_not_count(void)
{
    for (unsigned kind = 0; kind < 6; kind++) {
        fake_armed(100, NULL);
        uint64_t armed_us = fake.now;
        beat(1000, (long long) fake.now);
        for (long long i = 1; bench_is_armed(&fake.bench) && i < 100; i++) {
            fake_runs(10000);
            long long now = (long long) fake.now;
            const char *session = kind == 4 ? "0badcafe" : SESSION;
            long long k = kind == 0 ? 1000 : kind == 1 ? 1000 - i : 1000 + i;
            long long seen_us = kind == 2 ? now - 100001 : kind == 3 ? now + 1000000 : now;
            const char *m = kind == 5 ? "beats" : "beat";
            fake_says("{\"m\":\"%s\",\"session\":\"%s\",\"k\":%lld,\"seen-us\":%lld}", m, session, k, seen_us);
            fake_talks();
        }
        CHECK(is_safe());
        CHECK(fake.now - armed_us <= 120000);
    }
}

static void a_beat_as_old_as_the_limit_still_counts(void)
{
    fake_armed(100, NULL);
    fake_runs(50000);
    beat(1, (long long) fake.now - 100000);
    fake_runs(99000);
    CHECK(bench_is_armed(&fake.bench));
}

static void the_stop_button_disarms_and_keeps_from_arming(void)
{
    fake_armed(500, NULL);
    drive_something();
    fake.condition = BENCH_STOP_BUTTON;
    fake_runs(100);
    CHECK(is_safe());
    check_told("stop-button");
    CHECK(strstr(arm(600, BOOT, (long long) fake.now + 1000, 300), "stop-button") != NULL);
    fake.condition = 0;
    fake_runs(100);
    CHECK(strstr(arm(601, BOOT, (long long) fake.now + 1000, 300), "done") != NULL);
}

static void a_supply_fault_is_told_disarms_and_keeps_from_arming(void)
{
    fake_armed(500, NULL);
    drive_something();
    fake.condition = BENCH_SUPPLY_FAULT;
    fake_runs(100);
    CHECK(is_safe());
    CHECK(strstr(fake_line(), "\"fault\"") != NULL);
    check_told("fault");
    CHECK(strstr(arm(600, BOOT, (long long) fake.now + 1000, 300), "\"why\":\"fault\"") != NULL);
    fake.condition = 0;
    fake_runs(100);
    CHECK(strstr(arm(601, BOOT, (long long) fake.now + 1000, 300), "done") != NULL);
}

static void the_hosts_safe_tells_events_before_its_own_answer(void)
{
    fake_armed(500, NULL);
    drive_something();
    fake_says("{\"m\":\"safe\",\"id\":0" OURS "}");
    fake_talks();
    CHECK(is_safe());
    check_told("host");
    CHECK(strstr(fake_line(), "\"done\",\"id\":0") != NULL);
}

static void dropped_sets_are_refused_in_the_order_of_their_ids(void)
{
    static const unsigned delays_us[] = {90000, 50000, 70000, 60000};
    fake_armed(500, NULL);
    drive_something();
    for (unsigned i = 0; i < 4; i++) {
        unsigned long long at_us = fake.now + delays_us[i];
        fake_says("{\"m\":\"set\",\"id\":%u" OURS OUR_BOOT
                  ",\"at-us\":%llu,\"until-us\":%llu,\"points\":{\"W1\":0}}", 600 + i, at_us, at_us);
        fake_talks();
    }
    fake_forget();
    fake_says("{\"m\":\"safe\",\"id\":9,\"session\":\"0badcafe\"}");
    fake_talks();
    check_told("host");
    for (unsigned i = 0; i < 4; i++) {
        const char *line = fake_line();
        CHECK(number_in(line, "id") == 600 + i && strstr(line, "\"why\":\"safe\"") != NULL);
    }
    CHECK(strstr(fake_line(), "\"done\",\"id\":9,\"session\":\"0badcafe\"") != NULL);
    fake_runs(200000);
    CHECK(is_safe());
}

static void a_blocked_line_keeps_no_safe_from_its_outputs(void)
{
    fake_armed(500, NULL);
    drive_something();
    fake.send_room = 0;
    for (unsigned i = 0; i < 400; i++) {
        fake_says("{\"m\":\"ping\",\"id\":%u" OURS "}", i);
        fake_talks();
    }
    fake_says("{\"m\":\"safe\",\"id\":1" OURS "}");
    fake_talks();
    CHECK(is_safe());
    fake.send_room = 100000;
    fake_runs(200);
    check_told("host");
    CHECK(fake_count("\"done\",\"id\":1,") == 1);
}

const struct test safety_tests[] = {TEST(outputs_are_safe_from_the_start_and_when_armed),
                                    TEST(arming_is_refused_with_the_word_for_it),
                                    TEST(the_clock_is_judged_just_before_outputs_are_driven),
                                    TEST(without_a_beat_outputs_are_safe_within_the_limit_and_five_milliseconds),
                                    TEST(outputs_become_safe_even_when_nothing_is_read_or_sent),
                                    TEST(a_counting_beat_gives_the_limit_anew),
                                    TEST(a_beat_that_is_not_fresh_does_not_count),
                                    TEST(a_beat_as_old_as_the_limit_still_counts),
                                    TEST(the_stop_button_disarms_and_keeps_from_arming),
                                    TEST(a_supply_fault_is_told_disarms_and_keeps_from_arming),
                                    TEST(the_hosts_safe_tells_events_before_its_own_answer),
                                    TEST(dropped_sets_are_refused_in_the_order_of_their_ids),
                                    TEST(a_blocked_line_keeps_no_safe_from_its_outputs),
                                    {NULL, NULL}};
