/*
 * The reference bench on this machine: a pseudo-terminal in place of the serial line, a simulated world in place of the
 * points. Its clock is counted in ticks, which are caught up with the machine's clock, so that a process that was kept
 * waiting still samples on its grid.
 *
 * SIGUSR1 presses and releases the stop button, SIGUSR2 makes and mends a supply fault, SIGTERM and SIGINT end it.
 */
#define _POSIX_C_SOURCE 200809L

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "elsewhere.h"
#include "setup.h"
#include "terminal.h"
#include "world.h"

#define TALK_EVERY_US 1000u
#define CAUGHT_UP_AT_ONCE_US 20000u

struct choices {
    const char *points;
    unsigned baud, tick_us, step_us;
    unsigned long seed;
    double speed;
    bool until_input_ends, world_elsewhere;
};

static struct bench bench;
static struct setup setup;
static struct world world;
static struct terminal terminal;
static uint64_t bench_us;

static volatile sig_atomic_t ended;
static volatile sig_atomic_t condition;

static void on_signal(int which)
{
    if (which == SIGUSR1) {
        condition ^= BENCH_STOP_BUTTON;
    } else if (which == SIGUSR2) {
        condition ^= BENCH_SUPPLY_FAULT;
    } else {
        ended = 1;
    }
}

static uint64_t board_now(void *self)
{
    (void) self;
    return bench_us;
}

static enum bench_reading board_read(void *self, unsigned point, int32_t *counts)
{
    (void) self;
    *counts = world_counts(&world, point);
    return BENCH_GOOD;
}

static void board_drive(void *self, unsigned point, int32_t value)
{
    (void) self;
    world_drive(&world, point, value);
}

static unsigned board_condition(void *self)
{
    (void) self;
    return (unsigned) condition;
}

static size_t board_send(void *self, const uint8_t *bytes, size_t length)
{
    (void) self;
    return terminal_send(&terminal, bytes, length);
}

static size_t board_receive(void *self, uint8_t *bytes, size_t room)
{
    (void) self;
    return terminal_receive(&terminal, bytes, room);
}

static uint32_t board_boot(void *self)
{
    (void) self;
    uint32_t boot = 0;
    int source = open("/dev/urandom", O_RDONLY);
    if (source < 0 || read(source, &boot, sizeof boot) != (ssize_t) sizeof boot) {
        boot = (uint32_t) time(NULL) * 2654435761u ^ (uint32_t) getpid();
    }
    if (source >= 0) {
        (void) close(source);
    }
    return boot;
}

static bool board_change(void *self, struct bench_change *change)
{
    (void) self;
    return world_change(&world, change);
}

static uint64_t machine_us(void)
{
    struct timespec now;
    (void) clock_gettime(CLOCK_MONOTONIC, &now);
    return (uint64_t) now.tv_sec * 1000000u + (uint64_t) now.tv_nsec / 1000u;
}

/* Ticks up to that time, or for as long as one go may take. */
static void catch_up(uint64_t until_us, const struct choices *choices)
{
    unsigned tick_us = choices->tick_us;
    uint64_t most_us = bench_us + CAUGHT_UP_AT_ONCE_US;
    until_us = until_us < most_us ? until_us : most_us;
    while (bench_us + tick_us <= until_us) {
        bench_us += tick_us;
        if (choices->world_elsewhere && bench_us % choices->step_us == 0 && !elsewhere_step(&world, bench_us)) {
            ended = 1;
            return;
        }
        world_step(&world, bench_us);
        bench_tick(&bench);
        terminal_pass(&terminal, tick_us);
        if (bench_us / TALK_EVERY_US != (bench_us - tick_us) / TALK_EVERY_US) {
            bench_talk(&bench);
        }
    }
}

/* Waits for a byte, for the end of the input where that counts, or for the next millisecond. */
static bool wait_for_something(bool until_input_ends)
{
    struct pollfd waited[2] = {{terminal.master, POLLIN, 0}, {STDIN_FILENO, POLLIN, 0}};
    char byte;
    if (poll(waited, until_input_ends ? 2 : 1, 1) > 0 && waited[1].revents != 0) {
        return read(STDIN_FILENO, &byte, 1) > 0;
    }
    return true;
}

static void run(const struct choices *choices)
{
    uint64_t from_us = machine_us();
    while (!ended) {
        catch_up((uint64_t) ((double) (machine_us() - from_us) * choices->speed), choices);
        bench_talk(&bench);
        if (!wait_for_something(choices->until_input_ends)) {
            return;
        }
    }
}

static int usage(void)
{
    fprintf(stderr,
            "usage: bench [options] POINTS\n"
            "  Serves a bench on a pseudo-terminal and prints the name of its device.\n"
            "  POINTS                what the bench is made of (see setup.h, and the files beside it)\n"
            "  --baud 921600         what the line carries\n"
            "  --tick-us 100         period of sampling and driving, 1 to 1000\n"
            "  --speed 1             how much faster than the machine's its clock runs\n"
            "  --seed 1              of the readings' noise\n"
            "  --until-input-ends    ends when standard input does\n"
            "  --world-elsewhere     inputs come from another process, by standard input and output (elsewhere.h)\n"
            "  --step-us 1000        how often that process is asked, a multiple of the tick\n");
    return 64;
}

static bool read_choice(char **words, int *i, struct choices *choices)
{
    if (strcmp(words[*i], "--until-input-ends") == 0) {
        choices->until_input_ends = true;
        return true;
    }
    if (strcmp(words[*i], "--world-elsewhere") == 0) {
        choices->world_elsewhere = true;
        return true;
    }
    if (strncmp(words[*i], "--", 2) != 0) {
        bool first = choices->points == NULL;
        choices->points = words[*i];
        return first;
    }
    const char *option = words[(*i)++];
    char *end = "x";
    double number = words[*i] == NULL ? 0 : strtod(words[*i], &end);
    if (*end != 0 || !(number > 0) || number > 1e8) {
        return false;
    }
    if (strcmp(option, "--baud") == 0) {
        choices->baud = (unsigned) number;
    } else if (strcmp(option, "--tick-us") == 0) {
        choices->tick_us = (unsigned) number;
    } else if (strcmp(option, "--step-us") == 0) {
        choices->step_us = (unsigned) number;
    } else if (strcmp(option, "--speed") == 0) {
        choices->speed = number;
    } else if (strcmp(option, "--seed") == 0) {
        choices->seed = (unsigned long) number;
    } else {
        return false;
    }
    return true;
}

static void mind_signals(void)
{
    static const int minded[] = {SIGTERM, SIGINT, SIGHUP, SIGUSR1, SIGUSR2};
    struct sigaction action;
    memset(&action, 0, sizeof action);
    action.sa_handler = on_signal;
    for (size_t i = 0; i < sizeof minded / sizeof minded[0]; i++) {
        (void) sigaction(minded[i], &action, NULL);
    }
}

static int serve(const struct choices *choices)
{
    char device[128];
    if (!terminal_open(&terminal, choices->baud, device, sizeof device)) {
        perror("bench: no pseudo-terminal");
        return 3;
    }
    mind_signals();
    printf("%s\n", device);
    (void) fflush(stdout);
    run(choices);
    return 0;
}

int main(int count, char **words)
{
    static const struct bench_board board = {NULL,       board_now,     board_read, board_drive,  board_condition,
                                             board_send, board_receive, board_boot, board_change, NULL, NULL};
    struct choices choices = {NULL, 921600, 100, 1000, 1, 1, false, false};
    for (int i = 1; i < count; i++) {
        if (!read_choice(words, &i, &choices)) {
            return usage();
        }
    }
    if (choices.points == NULL || choices.tick_us == 0 || choices.step_us % choices.tick_us != 0
        || (choices.world_elsewhere && choices.until_input_ends)) {
        return usage();
    }
    if (!read_setup(choices.points, &setup)) {
        return 64;
    }
    setup.card.line_bytes_per_s = choices.baud / 10;
    setup.card.tick_us = choices.tick_us;
    setup.card.dense = true;
    world_start(&world, &setup, choices.seed);
    if (choices.world_elsewhere) {
        elsewhere_start(&world);
    }
    const char *wrong = bench_start(&bench, &board, &setup.card);
    if (wrong != NULL) {
        fprintf(stderr, "%s: %s\n", choices.points, wrong);
        return 64;
    }
    return serve(&choices);
}
