/* Limits that hold for one arming, and what readings are worth. */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "fake.h"

static const char *arm_with(const char *limits)
{
    fake_greeted(ALL_POINTS);
    return fake_answer("{\"m\":\"arm\",\"id\":2" OURS OUR_BOOT
                       ",\"until-us\":%llu,\"beat-ms\":500,\"limits\":%s}",
                       (unsigned long long) fake.now + 1000, limits);
}

static void limits_are_refused_with_the_word_for_it(void)
{
    static const struct {
        const char *limits, *why;
    } bad[] = {{"[]", "bad-message"},
               {"{\"P1\":1}", "bad-message"},
               {"{\"P1\":[1]}", "bad-message"},
               {"{\"P1\":[1,2,3]}", "bad-message"},
               {"{\"P1\":[1,\"2\"]}", "bad-message"},
               {"{\"P1\":[1.5,3000]}", "bad-message"},
               {"{\"P1\":[600,3600],\"P1\":[600,3600]}", "bad-message"},
               {"{\"P9\":[600,3600]}", "unknown-point"},
               {"{\"p1\":[600,3600]}", "unknown-point"},
               {"{\"D1\":[0,1]}", "wrong-kind"},
               {"{\"H1\":[600,3600]}", "wrong-kind"},
               {"{\"C1\":[600,3600]}", "wrong-kind"},
               {"{\"P1\":[0,3600]}", "out-of-range"},
               {"{\"P1\":[600,4095]}", "out-of-range"},
               {"{\"P1\":[-1,null]}", "out-of-range"},
               {"{\"P1\":[null,5000000000]}", "out-of-range"},
               {"{\"P1\":[5000000000,null]}", "out-of-range"},
               {"{\"P1\":[3000,2000]}", "bad-message"},
               {"{\"P1\":[813,3600]}", "\"limit\""},
               {"{\"P1\":[600,811]}", "\"limit\""},
               {"{\"P1\":[600,3600],\"P2\":[null,1000]}", "\"limit\""}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        CHECK(strstr(arm_with(bad[i].limits), bad[i].why) != NULL);
        CHECK(!bench_is_armed(&fake.bench));
    }
}

static void limits_that_hold_let_the_bench_arm(void)
{
    static const char *const good[] = {"{}", "{\"P1\":[600,3600]}", "{\"P1\":[812,812]}", "{\"P1\":[null,3600]}",
                                       "{\"P1\":[1,null],\"P2\":[null,4094]}", "{\"P1\":[null,null]}"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        CHECK(strstr(arm_with(good[i]), "done") != NULL);
        CHECK(bench_is_armed(&fake.bench));
    }
}

/* Time from the last good reading to safe outputs. */
static uint64_t trips_after(void)
{
    uint64_t from = fake.now;
    while (bench_is_armed(&fake.bench) && fake.now < from + 100000) {
        fake.now += 100;
        fake_ticks();
    }
    fake_talks();
    return fake.now - from;
}

static void outside_for_twenty_milliseconds_is_safe_within_five_more(void)
{
    static const int32_t outside[] = {599, 3601, 0, 4095};
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++) {
        fake_armed(500, "{\"P1\":[600,3600]}");
        fake_runs(50000);
        CHECK(bench_is_armed(&fake.bench));
        fake.counts[P1] = outside[i];
        uint64_t after = trips_after();
        CHECK(after >= 18000 && after <= 25000);
        CHECK(strstr(fake_until("\"safe\""), "\"why\":\"limit\"") != NULL);
    }
}

static void an_input_that_cannot_be_read_is_as_good_as_outside(void)
{
    fake_armed(500, "{\"P1\":[null,null]}");
    fake_runs(50000);
    fake.worth[P1] = BENCH_NOT_READABLE;
    uint64_t after = trips_after();
    CHECK(after >= 18000 && after <= 25000);
    CHECK(strstr(fake_until("\"fault\""), "not-readable") != NULL);
    CHECK(strstr(fake_until("\"safe\""), "\"why\":\"limit\"") != NULL);
}

static void one_good_reading_in_time_keeps_the_bench_armed(void)
{
    fake_armed(500, "{\"P1\":[600,3600]}");
    for (unsigned i = 0; i < 20; i++) {
        fake.counts[P1] = 100;
        fake_runs(17000);
        fake.counts[P1] = 1000;
        fake_runs(2000);
    }
    CHECK(bench_is_armed(&fake.bench));
}

static void limits_hold_for_their_arming_only(void)
{
    fake_armed(500, "{\"P1\":[600,3600]}");
    fake_says("{\"m\":\"safe\",\"id\":3" OURS "}");
    fake_says("{\"m\":\"arm\",\"id\":4" OURS OUR_BOOT ",\"until-us\":%llu,\"beat-ms\":500}",
              (unsigned long long) fake.now + 1000);
    fake_talks();
    fake.counts[P1] = 100;
    fake_runs(100000);
    CHECK(bench_is_armed(&fake.bench));
}

static void a_lasting_fault_of_a_limited_point_disarms(void)
{
    static const enum bench_reading faults[] = {BENCH_OVER_RANGE, BENCH_OPEN_LOOP};
    static const char *const words[] = {"over-range", "open-loop"};
    for (unsigned i = 0; i < 2; i++) {
        fake_armed(500, "{\"P1\":[600,3600]}");
        fake_runs(5000);
        fake.worth[P1] = faults[i];
        fake_runs(5000);
        CHECK(bench_is_armed(&fake.bench));
        fake_runs(10000);
        CHECK(!bench_is_armed(&fake.bench));
        const char *line = fake_until("\"fault\"");
        CHECK(strstr(line, words[i]) != NULL && strstr(line, "\"point\":\"P1\"") != NULL);
        CHECK(strstr(fake_until("\"safe\""), "\"why\":\"fault\"") != NULL);
    }
}

static void a_fault_keeps_the_bench_from_arming_with_that_limit(void)
{
    fake_greeted(ALL_POINTS);
    fake.worth[P1] = BENCH_OPEN_LOOP;
    const char *answer = fake_answer("{\"m\":\"arm\",\"id\":2" OURS OUR_BOOT
                                     ",\"until-us\":1001000,\"beat-ms\":500,\"limits\":{\"P1\":[600,3600]}}");
    CHECK(strstr(answer, "\"why\":\"fault\"") != NULL);
    fake.worth[P1] = BENCH_NOT_READABLE;
    answer = fake_answer("{\"m\":\"arm\",\"id\":3" OURS OUR_BOOT
                         ",\"until-us\":1001000,\"beat-ms\":500,\"limits\":{\"P1\":[600,3600]}}");
    CHECK(strstr(answer, "\"why\":\"limit\"") != NULL);
}

const struct test limit_tests[] = {TEST(limits_are_refused_with_the_word_for_it),
                                   TEST(limits_that_hold_let_the_bench_arm),
                                   TEST(outside_for_twenty_milliseconds_is_safe_within_five_more),
                                   TEST(an_input_that_cannot_be_read_is_as_good_as_outside),
                                   TEST(one_good_reading_in_time_keeps_the_bench_armed),
                                   TEST(limits_hold_for_their_arming_only),
                                   TEST(a_lasting_fault_of_a_limited_point_disarms),
                                   TEST(a_fault_keeps_the_bench_from_arming_with_that_limit),
                                   {NULL, NULL}};
