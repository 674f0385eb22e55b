/*
 * The reference bench on this machine: a pseudo-terminal in place of the serial line, a simulated world in place of the
 * points (board.h).
 *
 * SIGUSR1 presses and releases the stop button, SIGUSR2 makes and mends a supply fault, SIGTERM and SIGINT end it.
 */
#define _POSIX_C_SOURCE 200809L

#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "board.h"

struct choices {
    const char *points;
    unsigned tick_us;
    bool until_input_ends;
    struct board_choices board;
};

static struct setup setup;

static volatile sig_atomic_t ended;

static void on_signal(int which)
{
    if (which == SIGUSR1) {
        board_condition ^= BENCH_STOP_BUTTON;
    } else if (which == SIGUSR2) {
        board_condition ^= BENCH_SUPPLY_FAULT;
    } else {
        ended = 1;
    }
}

/* Waits for a byte, for the end of the input where that counts, or for the next millisecond. */
static bool wait_for_something(bool until_input_ends)
{
    struct pollfd waited[2] = {{board_line(), POLLIN, 0}, {STDIN_FILENO, POLLIN, 0}};
    char byte;
    if (poll(waited, until_input_ends ? 2 : 1, board_has_bytes() ? 0 : 1) > 0 && waited[1].revents != 0) {
        return read(STDIN_FILENO, &byte, 1) > 0;
    }
    return true;
}

static void run(bool until_input_ends)
{
    while (!ended && board_turn()) {
        if (!wait_for_something(until_input_ends)) {
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
            "  --speed 1             how much faster than the machine's its clock runs, up to 100\n"
            "  --seed 1              of the readings' noise\n"
            "  --until-input-ends    ends when standard input does\n"
            "  --world-elsewhere     inputs come from another process, by standard input and output (elsewhere.h)\n");
    return 64;
}

static bool read_choice(char **words, int *i, struct choices *choices)
{
    if (strcmp(words[*i], "--until-input-ends") == 0) {
        choices->until_input_ends = true;
        return true;
    }
    if (strcmp(words[*i], "--world-elsewhere") == 0) {
        choices->board.world_elsewhere = true;
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
    if (*end != 0 || !(number > 0) || number > 1e8 || (strcmp(option, "--speed") == 0 && number > 100)) {
        return false;
    }
    if (strcmp(option, "--baud") == 0) {
        choices->board.baud = (unsigned) number;
    } else if (strcmp(option, "--tick-us") == 0) {
        choices->tick_us = (unsigned) number;
    } else if (strcmp(option, "--speed") == 0) {
        choices->board.speed = number;
    } else if (strcmp(option, "--seed") == 0) {
        choices->board.seed = (unsigned long) number;
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
    (void) sigfillset(&action.sa_mask);
    for (size_t i = 0; i < sizeof minded / sizeof minded[0]; i++) {
        /* A press must not end the wait for the world in the other process; the end of the program must. */
        action.sa_flags = minded[i] == SIGUSR1 || minded[i] == SIGUSR2 ? SA_RESTART : 0;
        (void) sigaction(minded[i], &action, NULL);
    }
}

int main(int count, char **words)
{
    struct choices choices = {NULL, 100, false, {921600, 1, 1, false}};
    for (int i = 1; i < count; i++) {
        if (!read_choice(words, &i, &choices)) {
            return usage();
        }
    }
    if (choices.points == NULL || choices.tick_us == 0
        || (choices.board.world_elsewhere && choices.until_input_ends)) {
        return usage();
    }
    if (!read_setup(choices.points, &setup)) {
        return 64;
    }
    setup.card.tick_us = choices.tick_us;
    mind_signals();
    int refused = board_start(&setup, &choices.board, choices.points);
    if (refused == 0) {
        run(choices.until_input_ends);
    }
    return refused;
}
