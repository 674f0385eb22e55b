/* Streams: grids, batches, what the line cannot carry, and loss that shows. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "fake.h"

static const char *stream(unsigned id, const char *name, const char *points, long every_us, long batch, long flush_ms,
                          const char *more)
{
    return fake_answer("{\"m\":\"stream\",\"id\":%u" OURS ",\"name\":\"%s\",\"points\":%s,"
                       "\"every-us\":%ld,\"batch\":%ld,\"flush-ms\":%ld%s}", id, name, points, every_us, batch,
                       flush_ms, more);
}

static unsigned rows_in(const char *line)
{
    unsigned rows = 0;
    const char *v = strstr(line, "\"v\":[");
    for (const char *at = v != NULL ? v + 5 : ""; *at != 0; at++) {
        rows += *at == '[' ? 1u : 0u;
    }
    return rows;
}

/* Inputs follow the clock, so that each sample shows when it was taken. */
static void runs_with_clock_on_p1(uint64_t us)
{
    for (uint64_t end = fake.now + us; fake.now < end;) {
        fake.now += 100;
        fake.counts[P1] = (int32_t) (fake.now / 100 % 4096);
        fake_ticks();
        fake_talks();
    }
}

static void every_sample_stands_at_its_instant_of_the_grid(void)
{
    fake_greeted(ALL_POINTS);
    CHECK(strstr(stream(5, "s", "[\"P1\"]", 1000, 7, 1000, ""), "done") != NULL);
    fake_forget();
    runs_with_clock_on_p1(100000);
    long long next_us = -1;
    unsigned samples = 0;
    for (const char *line = fake_until("samples"); *line != 0; line = fake_until("samples")) {
        long long t_us = number_in(line, "t0-us");
        CHECK(next_us < 0 || t_us == next_us);
        CHECK(number_in(line, "of") == 5 && number_in(line, "every-us") == 1000 && rows_in(line) == 7);
        char *at = strstr(line, "\"v\":[") + 4;
        for (unsigned i = 0; i < 7; i++, samples++) {
            CHECK(strtol(at + strcspn(at, "0123456789"), &at, 10) == t_us / 100 % 4096);
            t_us += 1000;
        }
        next_us = t_us;
    }
    CHECK(samples == 98);
}

static void a_batch_is_sent_when_its_time_to_flush_has_come(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\",\"D1\",\"C1\"]", 10000, 50, 35, "");
    fake_forget();
    fake_runs(100);
    uint64_t first = fake.now;
    while (*fake_until("samples") == 0 && fake.now < first + 100000) {
        fake_runs(100);
    }
    CHECK(fake.now >= first + 34900 && fake.now <= first + 35200);
}

static void ending_a_stream_sends_the_rest_before_its_answer(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\",\"P2\"]", 1000, 20, 10000, "");
    fake_forget();
    fake_runs(29900);
    CHECK(rows_in(fake_until("samples")) == 20);
    fake_says("{\"m\":\"stream\",\"id\":6" OURS ",\"name\":\"s\",\"points\":[]}");
    fake_talks();
    const char *line = fake_line();
    CHECK(rows_in(line) == 10 && number_in(line, "n") == 2);
    line = fake_line();
    CHECK(strstr(line, "\"done\",\"id\":6") != NULL && number_in(line, "next") == 3);
    fake_forget();
    fake_runs(100000);
    CHECK_SAME("", fake_line());
}

static void a_replaced_stream_ends_before_the_new_one_begins(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\"]", 1000, 20, 10000, "");
    fake_forget();
    fake_runs(9900);
    CHECK(rows_in(stream(6, "s", "[\"P2\"]", 2000, 5, 10000, "")) == 10);
    CHECK(strstr(fake_line(), "\"done\",\"id\":6") != NULL);
    fake_forget();
    fake_runs(9900);
    const char *line = fake_line();
    CHECK(rows_in(line) == 5 && number_in(line, "of") == 6 && strstr(line, "[\"P2\"]") != NULL);
}

static void a_refused_replacement_leaves_the_stream_as_it_was(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\"]", 1000, 10, 10000, "");
    CHECK(strstr(stream(6, "s", "[\"P9\"]", 1000, 10, 10000, ""), "unknown-point") != NULL);
    fake_forget();
    fake_runs(20000);
    CHECK(fake_count("\"of\":5") == 2);
}

static void four_streams_run_at_once_each_with_its_own_grid(void)
{
    fake_greeted(ALL_POINTS);
    for (unsigned i = 0; i < 4; i++) {
        char name[2] = {(char) ('a' + i), 0};
        CHECK(strstr(stream(5 + i, name, "[\"P1\"]", 2000 + 500 * (long) i, 20, 10000, ""), "done") != NULL);
        fake_runs(300);
    }
    CHECK(strstr(stream(10, "e", "[\"P1\"]", 10000, 20, 10000, ""), "queue-full") != NULL);
    CHECK(strstr(stream(11, "b", "[\"P1\"]", 10000, 20, 10000, ""), "samples") != NULL);
    CHECK(strstr(fake_line(), "\"done\",\"id\":11") != NULL);
    fake_runs(200000);
    CHECK(fake_count("\"name\":\"a\"") == 5 && fake_count("\"name\":\"d\"") == 2);
    CHECK(fake_count("fault") == 0);
}

static void streams_are_refused_with_the_word_for_it(void)
{
    static const struct {
        const char *name, *points;
        long every_us, batch, flush_ms;
        const char *more, *why;
    } bad[] = {{"a b", "[\"P1\"]", 1000, 10, 100, "", "bad-message: name"},
               {"", "[\"P1\"]", 1000, 10, 100, "", "bad-message: name"},
               {"s", "{\"P1\":1}", 1000, 10, 100, "", "bad-message: points"},
               {"s", "[1]", 1000, 10, 100, "", "bad-message: points"},
               {"s", "[\"P1\",\"P1\"]", 1000, 10, 100, "", "bad-message: points"},
               {"s", "[\"P1\",\"P3\"]", 1000, 10, 100, "", "unknown-point"},
               {"s", "[\"P1\"]", 0, 10, 100, "", "bad-message: every-us"},
               {"s", "[\"P1\"]", 1000, 0, 100, "", "bad-message: batch"},
               {"s", "[\"P1\"]", 1000, 10, -1, "", "bad-message: flush-ms"},
               {"s", "[\"P1\"]", 1000, 10, 100, ",\"dense\":1", "bad-message: dense"},
               {"s", "[\"P1\"]", 99, 10, 100, "", "unsupported"},
               {"s", "[\"P1\"]", 1000, 100000, 100, "", "unsupported: batch"},
               {"s", "[\"P1\",\"P2\",\"D1\",\"C1\"]", 200, 20, 100, "", "unsupported: every-us"},
               {"s", "[\"C1\"]", 1000, 10, 100, ",\"dense\":true", "unsupported: dense"},
               {"s", "[\"P1\",\"H1\"]", 1000, 10, 100, "", "wrong-kind"},
               {"s", "[\"W1\"]", 1000, 10, 100, "", "wrong-kind"},
               {"s", "[\"P1\"]", 1000, 10, 0, "", "bad-message: flush-ms"},
               {"s", "[\"P1\"]", 2147483648, 10, 100, "", "bad-message: every-us"},
               {"s", "[\"P1\"]", 1000, 2147483648, 100, "", "bad-message: batch"},
               {"s", "[\"P1\"]", 1000, 10, 2147483648, "", "bad-message: flush-ms"}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        fake_greeted(ALL_POINTS);
        const char *answer = stream(5, bad[i].name, bad[i].points, bad[i].every_us, bad[i].batch, bad[i].flush_ms,
                                    bad[i].more);
        CHECK_SAME(bad[i].why, strstr(answer, bad[i].why) != NULL ? bad[i].why : answer);
    }
}

static void a_grid_that_no_tick_meets_is_refused_where_the_stamp_would_not_hold(void)
{
    fake_greeted(ALL_POINTS);
    CHECK(strstr(stream(5, "s", "[\"P1\"]", 1050, 10, 100, ""), "unsupported: every-us") != NULL);
    CHECK(strstr(stream(6, "s", "[\"C1\"]", 1050, 10, 100, ""), "done") != NULL);
}

static void ticks_that_jitter_within_the_stamp_leave_nothing_out(void)
{
    uint64_t seed = test_seed;
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\"]", 1000, 10, 10000, "");
    stream(6, "q", "[\"P2\"]", 500, 10, 10000, "");
    fake_forget();
    fake.now = 1100009;
    for (unsigned i = 1; i <= 1000; i++) {
        fake_ticks();
        fake_talks();
        fake.now = 1100000 + 100 * i + next_random(&seed) % 10;
    }
    CHECK(fake_count("overrun") == 0);
    CHECK(fake_count("\"name\":\"s\"") == 10 && fake_count("\"name\":\"q\"") == 20);
    long long first_us = number_in(fake_until("\"name\":\"s\""), "t0-us");
    for (unsigned i = 1; i < 10; i++) {
        CHECK(number_in(fake_until("\"name\":\"s\""), "t0-us") == first_us + 10000 * (long long) i);
    }
}

static void a_late_tick_skips_its_instants_and_says_so(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\"]", 1000, 10, 10000, "");
    fake_forget();
    fake_runs(4600);
    uint64_t origin = 1000100;
    fake.now = origin + 8200;
    fake_ticks();
    fake.now = origin + 8900;
    fake_runs(10100);
    CHECK(fake_count("overrun") == 1);
    const char *line = fake_until("samples");
    CHECK(rows_in(line) == 5 && number_in(line, "t0-us") == (long long) origin);
    line = fake_until("samples");
    CHECK(rows_in(line) == 10 && number_in(line, "t0-us") == (long long) origin + 9000);
}

static void a_reading_that_is_none_leaves_its_instant_out(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\",\"P2\"]", 1000, 10, 10000, "");
    fake_forget();
    fake_runs(4600);
    fake.worth[P2] = BENCH_NOT_READABLE;
    fake_runs(20000);
    fake.worth[P2] = BENCH_GOOD;
    fake_runs(11000);
    CHECK(fake_count("not-readable") == 1);
    CHECK(rows_in(fake_until("samples")) == 5);
    CHECK(rows_in(fake_until("samples")) == 10);
}

static void what_the_line_does_not_take_is_skipped_and_never_invented(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\",\"P2\"]", 1000, 10, 10000, "");
    fake_forget();
    fake.send_room = 0;
    runs_with_clock_on_p1(900000);
    fake.send_room = 200000;
    runs_with_clock_on_p1(30000);
    unsigned overruns = fake_count("overrun");
    CHECK(overruns == 1);
    long long n = 1;
    unsigned gaps = 0;
    long long next_us = -1;
    bool seen[4096] = {false};
    for (const char *line = fake_line(); *line != 0; line = fake_line()) {
        seen[number_in(line, "n")] = true;
        if (strstr(line, "samples") != NULL) {
            long long t_us = number_in(line, "t0-us");
            gaps += next_us >= 0 && t_us != next_us ? 1u : 0u;
            CHECK(strtoll(strstr(line, "\"v\":[[") + 6, NULL, 10) == t_us / 100 % 4096);
            next_us = t_us + 1000 * (long long) rows_in(line);
        }
    }
    CHECK(gaps == 1);
    for (; n < (long long) fake.bench.next_n; n++) {
        CHECK(seen[n]);
    }
}

static void samples_wait_half_a_second_for_the_line_and_no_longer(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\"]", 10000, 2, 10000, "");
    fake_forget();
    fake.send_room = 0;
    fake_runs(3000000);
    CHECK(fake.bench.streams[0].filled * 10000 <= 520000 + 10000);
    fake.send_room = 200000;
    fake_runs(100);
    CHECK(fake_count("overrun") == 1);
}

static void overruns_are_told_once_a_second(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\"]", 1000, 10, 10000, "");
    fake_forget();
    unsigned told = 0;
    for (unsigned i = 0; i < 36; i++) {  /* ticks that fail to come for 5 ms, 36 times in 0.9 s */
        fake.now += 5000;
        fake_ticks();
        fake_runs(20000);
        told += fake_count("overrun");
        fake_forget();
    }
    CHECK(told == 1);
}

static void answers_and_events_go_before_waiting_samples(void)
{
    fake_greeted(ALL_POINTS);
    stream(5, "s", "[\"P1\",\"P2\"]", 1000, 10, 10000, "");
    fake_forget();
    fake.send_room = 0;
    fake_runs(50000);
    fake_says("{\"m\":\"ping\",\"id\":7" OURS "}");
    fake.counts[D1] = 0;
    fake_runs(1000);
    fake.send_room = 100000;
    fake_runs(100);
    CHECK(strstr(fake_line(), "samples") != NULL);
    const char *line = fake_line();
    CHECK(strstr(line, "edge") != NULL);
    CHECK(strstr(fake_line(), "pong") != NULL);
    CHECK(fake_count("samples") >= 4);
}

static void while_armed_no_message_takes_longer_than_a_sixth_of_the_limit(void)
{
    fake_armed(100, NULL);
    fake.card.line_bytes_per_s = 30000;
    CHECK(strstr(stream(5, "s", "[\"P1\",\"P2\"]", 2000, 100, 10000, ""), "done") != NULL);
    fake_forget();
    for (long long k = 1; k <= 20; k++) {
        fake_runs(33000);
        fake_says("{\"m\":\"beat\"" OURS ",\"k\":%lld,\"seen-us\":%llu}", k, (unsigned long long) fake.now);
    }
    unsigned batches = 0;
    for (const char *line = fake_until("samples"); *line != 0; line = fake_until("samples"), batches++) {
        CHECK(strlen(line) + 10 <= 30000 / 60);
    }
    CHECK(batches > 5);
}

static void a_dense_stream_carries_eight_points_at_five_kilohertz(void)
{
    static const struct bench_point points[] = {
        {"A1", BENCH_ANALOG_IN, -32768, 32767, 0, 0, 10, 0}, {"A2", BENCH_ANALOG_IN, -32768, 32767, 0, 0, 10, 0},
        {"A3", BENCH_ANALOG_IN, -32768, 32767, 0, 0, 10, 0}, {"A4", BENCH_ANALOG_IN, -32768, 32767, 0, 0, 10, 0},
        {"A5", BENCH_ANALOG_IN, -32768, 32767, 0, 0, 10, 0}, {"A6", BENCH_ANALOG_IN, -32768, 32767, 0, 0, 10, 0},
        {"A7", BENCH_ANALOG_IN, -32768, 32767, 0, 0, 10, 0}, {"A8", BENCH_ANALOG_IN, -32768, 32767, 0, 0, 10, 0}};
    fake_start(WORKED_POINTS);
    fake.card.points = points;
    fake.card.point_count = 8;
    CHECK(bench_start(&fake.bench, &fake.board, &fake.card) == NULL);
    fake_says("{\"m\":\"hello\",\"id\":1" OURS ",\"link\":1,\"host\":\"x\"}");
    fake_talks();
    long batch = BENCH_RING_WORDS / 10 / 2;
    const char *answer = stream(5, "q", "[\"A1\",\"A2\",\"A3\",\"A4\",\"A5\",\"A6\",\"A7\",\"A8\"]", 200, batch, 1000,
                                ",\"dense\":true");
    CHECK_SAME("done", strstr(answer, "done") != NULL ? "done" : answer);
    fake_forget();
    uint64_t from = fake.now;
    double credit = 0;
    while (fake.now < from + 1000000) {
        credit += 9.216;
        fake.send_room = (size_t) credit;
        size_t before = fake.out_length;
        fake_runs(100);
        credit -= (double) (fake.out_length - before);
    }
    CHECK(fake.out_length > 80000 && fake.out_length < 92160);
    CHECK(fake.bench.streams[0].filled < (uint32_t) batch * 2 - 1);
    CHECK(fake.bench.streams[0].gap_told == false);
}

const struct test stream_tests[] = {TEST(every_sample_stands_at_its_instant_of_the_grid),
                                    TEST(a_batch_is_sent_when_its_time_to_flush_has_come),
                                    TEST(ending_a_stream_sends_the_rest_before_its_answer),
                                    TEST(a_replaced_stream_ends_before_the_new_one_begins),
                                    TEST(a_refused_replacement_leaves_the_stream_as_it_was),
                                    TEST(four_streams_run_at_once_each_with_its_own_grid),
                                    TEST(streams_are_refused_with_the_word_for_it),
                                    TEST(a_grid_that_no_tick_meets_is_refused_where_the_stamp_would_not_hold),
                                    TEST(ticks_that_jitter_within_the_stamp_leave_nothing_out),
                                    TEST(a_late_tick_skips_its_instants_and_says_so),
                                    TEST(a_reading_that_is_none_leaves_its_instant_out),
                                    TEST(what_the_line_does_not_take_is_skipped_and_never_invented),
                                    TEST(samples_wait_half_a_second_for_the_line_and_no_longer),
                                    TEST(overruns_are_told_once_a_second),
                                    TEST(answers_and_events_go_before_waiting_samples),
                                    TEST(while_armed_no_message_takes_longer_than_a_sixth_of_the_limit),
                                    TEST(a_dense_stream_carries_eight_points_at_five_kilohertz),
                                    {NULL, NULL}};
