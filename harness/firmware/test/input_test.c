/* Digital inputs and their stamps, the self-test, the states of every second, and cards that cannot be. */
#include <stdio.h>
#include <string.h>

#include "check.h"
#include "fake.h"

static void an_edge_is_stamped_at_its_first_transition(void)
{
    fake_greeted(ALL_POINTS);
    fake_runs(900);
    uint64_t first = fake.now + 100;
    for (unsigned bounce = 0; bounce < 3; bounce++) {
        fake.counts[D1] = 0;
        fake_runs(100);
        fake.counts[D1] = 1;
        fake_runs(100);
    }
    fake.counts[D1] = 0;
    fake_runs(1000);
    CHECK(fake_count("edge") == 1);
    const char *line = fake_until("edge");
    CHECK(number_in(line, "t-us") == (long long) first && number_in(line, "to") == 0);
}

static void a_pulse_shorter_than_a_glitch_is_not_sent(void)
{
    fake_greeted(ALL_POINTS);
    fake.counts[D1] = 0;
    fake_runs(100);
    fake.counts[D1] = 1;
    fake_runs(10000);
    CHECK(fake_count("edge") == 0);
    fake.counts[D1] = 0;
    fake_runs(400);
    fake.counts[D1] = 1;
    fake_runs(10000);
    CHECK(fake_count("edge") == 2);
}

static void a_captured_change_keeps_the_stamp_of_its_capture(void)
{
    fake.captures = true;
    fake_greeted(ALL_POINTS);
    fake.captures = false;
    struct bench_change change = {D1, 0, fake.now + 37};
    fake.changes[fake.change_count++] = change;
    fake_runs(100);
    CHECK(fake_count("edge") == 0);
    change.level = 1;
    change.t_us = fake.now + 1040;
    fake_runs(1100);
    fake.changes[fake.change_count++] = change;
    fake_runs(1000);
    const char *line = fake_until("edge");
    CHECK(number_in(line, "t-us") == 1000037 && number_in(line, "to") == 0);
    line = fake_until("edge");
    CHECK(number_in(line, "t-us") == 1001140 && number_in(line, "to") == 1);
}

/* Two changes that reach the core in one tick although the first one stood for long. */
static void changes_that_come_together_are_told_apart_by_their_stamps(void)
{
    fake.captures = true;
    fake_greeted(ALL_POINTS);
    fake.captures = false;
    fake.now += 5000;
    struct bench_change down = {D1, 0, fake.now - 4000};
    struct bench_change up = {D1, 1, fake.now - 2000};
    fake.changes[fake.change_count++] = down;
    fake.changes[fake.change_count++] = up;
    fake_ticks();
    fake_talks();
    CHECK(number_in(fake_until("edge"), "t-us") == (long long) fake.now - 4000);
    CHECK(number_in(fake_until("edge"), "t-us") == (long long) fake.now - 2000);
}

static void a_state_comes_once_a_second(void)
{
    fake_greeted(ALL_POINTS);
    fake_runs(10000000);
    CHECK(fake_count("\"state\"") == 10);
    const char *line = fake_line();
    CHECK(strstr(line, "\"armed\":false,\"stop\":false,\"bad-lines\":0,\"digital\":{\"D1\":1,\"W1\":0,\"W2\":1}}")
          != NULL);
    fake.condition = BENCH_STOP_BUTTON;
    fake_bytes("x\n", 2);
    fake_forget();
    fake_runs(1000000);
    CHECK(strstr(fake_line(), "\"stop\":true,\"bad-lines\":1") != NULL);
}

static void the_self_test_tells_each_point_that_failed(void)
{
    fake_greeted(ALL_POINTS);
    fake.worth[P2] = BENCH_OPEN_LOOP;
    fake.counts[W2] = 0;
    const char *self_test = "{\"m\":\"self-test\",\"id\":4" OURS "}";
    CHECK(strstr(fake_answer("%s", self_test), "\"queued\",\"id\":4") != NULL);
    fake_runs(10000);
    CHECK(strstr(fake_answer("%s", self_test), "\"queued\",\"id\":4") != NULL);
    CHECK(strstr(fake_answer("{\"m\":\"stream\",\"id\":5" OURS ",\"name\":\"s\",\"points\":[]}"), "busy")
          != NULL);
    CHECK(strstr(fake_answer("{\"m\":\"stream\",\"id\":8" OURS ",\"name\":\"s\"}"), "bad-message") != NULL);
    CHECK(strstr(fake_answer("{\"m\":\"hello\",\"id\":1" OURS ",\"link\":1,\"host\":\"x\"}"), "busy")
          != NULL);
    CHECK(strstr(fake_answer("{\"m\":\"ping\",\"id\":6" OURS "}"), "pong") != NULL);
    CHECK(strstr(fake_answer("{\"m\":\"safe\",\"id\":7" OURS "}"), "done") != NULL);
    fake.counts[W2] = 0;
    fake_forget();
    fake_runs(200000);
    const char *line = fake_line();
    CHECK(strstr(line, "\"point\":\"P2\",\"why\":\"self-test\"") != NULL);
    line = fake_line();
    CHECK(strstr(line, "\"point\":\"W2\",\"why\":\"self-test\"") != NULL);
    line = fake_line();
    CHECK(strstr(line, "\"done\",\"id\":4") != NULL && strstr(line, "at-us") == NULL);
    CHECK(strstr(fake_answer("%s", self_test), "\"done\",\"id\":4") != NULL);
}

static void what_is_wrong_already_is_told_to_whoever_greets(void)
{
    fake_greeted(ALL_POINTS);
    fake.worth[P2] = BENCH_OPEN_LOOP;
    fake_says("{\"m\":\"stream\",\"id\":4" OURS
              ",\"name\":\"s\",\"points\":[\"P1\",\"P2\"],\"every-us\":1000,\"batch\":10,\"flush-ms\":100}");
    fake_runs(50000);
    fake.condition = BENCH_SUPPLY_FAULT;
    fake_runs(1000);
    CHECK(fake_count("fault") == 2);
    fake_forget();
    const char *hello = "{\"m\":\"hello\",\"id\":1,\"session\":\"0badcafe\",\"link\":1,\"host\":\"x\"}";
    CHECK(strstr(fake_answer("%s", hello), "\"bench\"") != NULL);
    CHECK(strstr(fake_until("\"state\""), "0badcafe") != NULL);
    fake_runs(100);
    CHECK(strstr(fake_line(), "\"why\":\"supply\"") != NULL);
    CHECK(strstr(fake_line(), "\"point\":\"P2\",\"why\":\"open-loop\"") != NULL);
    fake.worth[P2] = BENCH_GOOD;
    fake.condition = 0;
    fake_runs(100);
    CHECK(strstr(fake_answer("%s", hello), "\"bench\"") != NULL);
    fake_runs(100);
    CHECK(fake_count("fault") == 0);
}

static void more_edges_than_the_bench_can_hold_leave_a_gap_in_the_numbers(void)
{
    fake_greeted(ALL_POINTS);
    fake.send_room = 0;
    for (unsigned i = 0; i < 500; i++) {
        fake.counts[D1] = (int32_t) (i & 1);
        fake_runs(400);
    }
    fake.send_room = 200000;
    fake_runs(100000);
    unsigned edges = fake_count("edge");
    CHECK(edges > 50 && edges < 490);
    CHECK(fake_count("overrun") == 1);
    long long last = 0;
    long long lines = 0;
    for (const char *line = fake_line(); *line != 0; line = fake_line(), lines++) {
        CHECK(number_in(line, "n") > last);
        last = number_in(line, "n");
    }
    CHECK(last - lines == (long long) (500 - edges));
}

static void a_card_that_cannot_be_is_not_started(void)
{
    struct bench_point points[BENCH_POINTS_MAX + 1];
    static const struct bench_point good = {"P1", BENCH_ANALOG_IN, 0, 4095, 0, 0, 0, 0};
    static const struct bench_point bad[] = {{"", BENCH_ANALOG_IN, 0, 1, 0, 0, 0, 0},
                                             {"P 1", BENCH_ANALOG_IN, 0, 1, 0, 0, 0, 0},
                                             {"P1", BENCH_ANALOG_IN, 0, 1, 0, 0, 0, 0},
                                             {"P2", BENCH_ANALOG_IN, 1, 1, 0, 0, 0, 0},
                                             {"W1", BENCH_DIGITAL_OUT, 0, 0, 2, 0, 0, 0},
                                             {"H1", BENCH_ANALOG_OUT, 0, 10, 11, 0, 0, 0}};
    struct bench_card card = {"bay-2", 50, 500, 92160, 100, true, points, 2};
    points[0] = good;
    fake_start(ALL_POINTS);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        points[1] = bad[i];
        CHECK(bench_start(&fake.bench, &fake.board, &card) != NULL);
    }
    card.point_count = 1;
    CHECK(bench_start(&fake.bench, &fake.board, &card) == NULL);
    card.max_beat_ms = 501;
    CHECK(bench_start(&fake.bench, &fake.board, &card) != NULL);
    card.max_beat_ms = 500;
    card.point_count = BENCH_POINTS_MAX + 1;
    CHECK(bench_start(&fake.bench, &fake.board, &card) != NULL);
}

const struct test input_tests[] = {TEST(an_edge_is_stamped_at_its_first_transition),
                                   TEST(a_pulse_shorter_than_a_glitch_is_not_sent),
                                   TEST(a_captured_change_keeps_the_stamp_of_its_capture),
                                   TEST(changes_that_come_together_are_told_apart_by_their_stamps),
                                   TEST(a_state_comes_once_a_second),
                                   TEST(the_self_test_tells_each_point_that_failed),
                                   TEST(what_is_wrong_already_is_told_to_whoever_greets),
                                   TEST(more_edges_than_the_bench_can_hold_leave_a_gap_in_the_numbers),
                                   TEST(a_card_that_cannot_be_is_not_started),
                                   {NULL, NULL}};
