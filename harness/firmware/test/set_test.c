/* Sets: now, at their moment, over a time; and what is refused. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "fake.h"

static const char *set(unsigned id, const char *points, long long until_us, const char *more)
{
    return fake_answer("{\"m\":\"set\",\"id\":%u" OURS OUR_BOOT
                       ",\"until-us\":%lld,\"points\":%s%s}", id, until_us, points, more);
}

static const char *set_at(unsigned id, const char *points, long long at_us)
{
    char more[40];
    snprintf(more, sizeof more, ",\"at-us\":%lld", at_us);
    return set(id, points, at_us + 5000, more);
}

static void a_set_drives_its_points_together_and_tells_the_edges(void)
{
    fake_armed(500, NULL);
    const char *answer = set(10, "{\"W1\":1,\"H1\":2048,\"U1\":440000,\"M1\":1000,\"W2\":1,\"H2\":-2000000000}",
                             (long long) fake.now, "");
    CHECK(strstr(answer, "done") != NULL && number_in(answer, "at-us") == (long long) fake.now);
    CHECK(fake.counts[W1] == 1 && fake.counts[H1] == 2048 && fake.counts[U1] == 440000 && fake.counts[M1] == 1000);
    CHECK(fake.counts[H2] == -2000000000);
    answer = fake_line();
    CHECK(strstr(answer, "\"edge\"") != NULL && strstr(answer, "\"point\":\"W1\",\"to\":1") != NULL);
    CHECK(number_in(answer, "t-us") == (long long) fake.now);
    CHECK_SAME("", fake_line());
}

static void sets_are_refused_with_the_word_for_it(void)
{
    static const struct {
        const char *points;
        long long until_us;
        const char *more, *why;
    } bad[] = {{"{\"W1\":1}", 999999, "", "late"},
               {"{\"W1\":1}", 3000001, "", "too-far"},
               {"{\"W1\":1}", 1000500, ",\"at-us\":999999", "late"},
               {"{\"W1\":1}", 61000002, ",\"at-us\":61000001", "too-far"},
               {"{\"W1\":1}", 1000400, ",\"at-us\":1000500", "bad-message: until-us"},
               {"{\"W1\":1}", 999998, ",\"at-us\":999999", "bad-message: until-us"},
               {"{\"W1\":1}", -1, "", "bad-message: until-us"},
               {"{\"W1\":1}", 1000500, ",\"at-us\":-1", "bad-message: at-us"},
               {"{\"W1\":1}", 1000500, ",\"over-us\":9007199254740992", "bad-message: over-us"},
               {"{\"W1\":1}", 3000501, ",\"at-us\":1000500", "too-far"},
               {"{\"W1\":1}", 1000500, ",\"over-us\":-1", "bad-message: over-us"},
               {"{\"W1\":1}", 1000500, ",\"at-us\":null", "bad-message: at-us"},
               {"{}", 1000500, "", "bad-message: points"},
               {"[]", 1000500, "", "bad-message: points"},
               {"{\"W1\":true}", 1000500, "", "bad-message: points"},
               {"{\"W1\":1.0}", 1000500, "", "bad-message: points"},
               {"{\"W1\":1,\"W1\":1}", 1000500, "", "bad-message: points"},
               {"{\"W9\":1}", 1000500, "", "unknown-point"},
               {"{\"W1\":1,\"W9\":1}", 1000500, "", "unknown-point"},
               {"{\"P1\":1}", 1000500, "", "wrong-kind"},
               {"{\"W1\":1,\"D1\":1}", 1000500, "", "wrong-kind"},
               {"{\"W1\":2}", 1000500, "", "out-of-range"},
               {"{\"W1\":-1}", 1000500, "", "out-of-range"},
               {"{\"W1\":1,\"H1\":4096}", 1000500, "", "out-of-range"},
               {"{\"M1\":1001}", 1000500, "", "out-of-range"},
               {"{\"H2\":4294967296}", 1000500, "", "out-of-range"}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        fake_armed(500, NULL);
        const char *answer = set(10, bad[i].points, bad[i].until_us, bad[i].more);
        CHECK_SAME(bad[i].why, strstr(answer, bad[i].why) != NULL ? bad[i].why : answer);
        fake_runs(10000);
        CHECK(fake.counts[W1] == 0 && fake.counts[H1] == 0 && fake.counts[M1] == 250);
    }
}

static void the_first_failing_check_gives_the_word(void)
{
    fake_greeted(ALL_POINTS);
    CHECK(strstr(set(9, "{\"W1\":true}", 0, ""), "bad-message") != NULL);
    CHECK(strstr(set(10, "{\"P9\":1}", 0, ""), "not-armed") != NULL);
    fake_armed(500, NULL);
    CHECK(strstr(set(11, "{\"P9\":1}", 0, ""), "late") != NULL);
    CHECK(strstr(set(12, "{\"H1\":9999,\"P9\":1}", 1000000, ""), "unknown-point") != NULL);
    CHECK(strstr(set(13, "{\"H1\":9999,\"P1\":1}", 1000000, ""), "wrong-kind") != NULL);
}

static void a_timed_set_is_driven_at_its_moment(void)
{
    fake_armed(500, NULL);
    long long at_us = (long long) fake.now + 20000;
    CHECK(strstr(set_at(10, "{\"W1\":1}", at_us), "queued") != NULL);
    fake_runs(19900);
    CHECK(fake.counts[W1] == 0);
    fake_runs(100);
    CHECK(fake.counts[W1] == 1);
    const char *line = fake_until("done");
    CHECK(number_in(line, "at-us") == at_us);
    CHECK(number_in(line, "next") == number_in(fake_until("edge"), "n"));
}

static void timed_sets_go_in_the_order_of_their_moments_and_then_of_their_ids(void)
{
    fake_armed(500, NULL);
    long long at_us = (long long) fake.now + 20000;
    set_at(10, "{\"H1\":1}", at_us + 100);
    set_at(11, "{\"H1\":2}", at_us);
    set_at(12, "{\"H1\":3}", at_us + 100);
    set_at(13, "{\"H1\":4}", at_us);
    fake_forget();
    fake.now = (uint64_t) at_us + 1000;
    fake_ticks();
    fake_talks();
    CHECK(fake.counts[H1] == 3);
    static const int order[] = {11, 13, 10, 12};
    for (unsigned i = 0; i < 4; i++) {
        CHECK(number_in(fake_line(), "id") == order[i]);
    }
}

static void a_moment_missed_by_more_than_allowed_is_late(void)
{
    fake_armed(500, NULL);
    set_at(10, "{\"W1\":1}", (long long) fake.now + 20000);
    fake_forget();
    fake.now += 25001;
    fake_ticks();
    fake_talks();
    CHECK(fake.counts[W1] == 0);
    CHECK(strstr(fake_line(), "\"why\":\"late\"") != NULL);
}

static void the_queue_holds_what_it_says(void)
{
    fake_armed(500, NULL);
    long long at_us = (long long) fake.now + 50000;
    for (unsigned i = 0; i < BENCH_QUEUE; i++) {
        const char *answer = set_at(10 + i, "{\"W1\":1,\"H1\":5,\"W2\":0,\"U1\":6,\"M1\":7,\"H2\":8}", at_us);
        CHECK(strstr(answer, "queued") != NULL);
    }
    CHECK(strstr(set_at(100, "{\"W1\":1}", at_us), "queue-full") != NULL);
    CHECK(strstr(set(101, "{\"W1\":1}", at_us, ""), "done") != NULL);
    fake_forget();
    fake_runs(50000);
    CHECK(fake_count("done") == BENCH_QUEUE);
    CHECK(strstr(set_at(102, "{\"W1\":1}", (long long) fake.now + 1), "queued") != NULL);
}

static void a_ramp_is_a_straight_line_from_what_is_output(void)
{
    fake_armed(500, NULL);
    set(10, "{\"H1\":1000}", (long long) fake.now, "");
    uint64_t start = fake.now;
    const char *answer = set(11, "{\"H1\":3000,\"W1\":1}", (long long) fake.now, ",\"over-us\":100000");
    CHECK(strstr(answer, "done") != NULL && number_in(answer, "at-us") == (long long) start);
    CHECK(fake.counts[W1] == 1 && fake.counts[H1] == 1000);
    while (fake.now < start + 100000) {
        fake_runs(100);
        CHECK(fake.counts[H1] == 1000 + (int32_t) ((fake.now - start) / 50));
    }
    fake_runs(50000);
    CHECK(fake.counts[H1] == 3000);
}

static void a_ramp_goes_down_and_over_the_widest_range_too(void)
{
    fake_armed(500, NULL);
    set(10, "{\"H2\":2000000000}", (long long) fake.now, "");
    uint64_t start = fake.now;
    set(11, "{\"H2\":-2000000000}", (long long) fake.now, ",\"over-us\":200000");
    int32_t before = fake.counts[H2];
    while (fake.now < start + 200000) {
        fake_runs(100);
        CHECK(fake.counts[H2] < before);
        before = fake.counts[H2];
    }
    CHECK(before == -2000000000);
}

/* The step that a ramp of so many microseconds has made after so long, from 0 towards 2000000000. */
static void a_ramp_of_days_stays_on_its_line(void)
{
    fake_armed(500, NULL);
    uint64_t start = fake.now;
    set(11, "{\"H2\":2000000000}", (long long) fake.now, ",\"over-us\":1000000000000");
    fake_runs(400000);
    CHECK(fake.now == start + 400000);
    CHECK(abs(fake.counts[H2] - 800) <= 2);
}

static void a_later_set_takes_over_only_the_points_that_it_names(void)
{
    fake_armed(500, NULL);
    set(10, "{\"H1\":1000,\"U1\":1000}", (long long) fake.now, ",\"over-us\":100000");
    fake_runs(50000);
    CHECK(fake.counts[H1] == 500 && fake.counts[U1] == 500);
    set(11, "{\"H1\":100}", (long long) fake.now, "");
    CHECK(fake.counts[H1] == 100);
    fake_runs(50000);
    CHECK(fake.counts[H1] == 100 && fake.counts[U1] == 1000);
}

static void a_timed_ramp_starts_from_what_is_output_at_its_moment(void)
{
    fake_armed(500, NULL);
    long long at_us = (long long) fake.now + 20000;
    char more[60];
    snprintf(more, sizeof more, ",\"at-us\":%lld,\"over-us\":10000", at_us);
    CHECK(strstr(set(10, "{\"H1\":2000}", at_us, more), "queued") != NULL);
    set(11, "{\"H1\":1000}", (long long) fake.now, "");
    fake_runs(20000);
    CHECK(fake.counts[H1] == 1000);
    fake_runs(5000);
    CHECK(fake.counts[H1] == 1500);
}

static void disarming_ends_ramps_and_drops_timed_sets(void)
{
    fake_armed(500, NULL);
    set(10, "{\"H1\":4000}", (long long) fake.now, ",\"over-us\":100000");
    set_at(11, "{\"W1\":1}", (long long) fake.now + 50000);
    fake_runs(10000);
    CHECK(fake.counts[H1] == 400);
    fake_says("{\"m\":\"safe\",\"id\":1" OURS "}");
    fake_runs(200000);
    CHECK(fake.counts[H1] == 0 && fake.counts[W1] == 0);
}

const struct test set_tests[] = {TEST(a_set_drives_its_points_together_and_tells_the_edges),
                                 TEST(sets_are_refused_with_the_word_for_it),
                                 TEST(the_first_failing_check_gives_the_word),
                                 TEST(a_timed_set_is_driven_at_its_moment),
                                 TEST(timed_sets_go_in_the_order_of_their_moments_and_then_of_their_ids),
                                 TEST(a_moment_missed_by_more_than_allowed_is_late),
                                 TEST(the_queue_holds_what_it_says),
                                 TEST(a_ramp_is_a_straight_line_from_what_is_output),
                                 TEST(a_ramp_goes_down_and_over_the_widest_range_too),
                                 TEST(a_ramp_of_days_stays_on_its_line),
                                 TEST(a_later_set_takes_over_only_the_points_that_it_names),
                                 TEST(a_timed_ramp_starts_from_what_is_output_at_its_moment),
                                 TEST(disarming_ends_ramps_and_drops_timed_sets),
                                 {NULL, NULL}};
