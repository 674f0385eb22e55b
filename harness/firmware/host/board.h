/*
 * The board that this machine stands in for: points, line and stop button for the core, and a timer whose interrupt is
 * the core's tick.
 *
 * A process is kept waiting now and then; a timer is not. So the board takes turns. In each it first takes the bytes
 * that have come, then reads the machine's clock, then lets every tick happen that was due by then, each at its own
 * instant, and then the core talks, at that reading. Nothing is so received or answered at a time before it came, and
 * what was due happened at its time. A tick overdue by more than BOARD_WATCHDOG_US is not made up: the board's watchdog
 * has bitten, every output is safe from then on, and the bench starts anew with another boot.
 */
#ifndef BOARD_H
#define BOARD_H

#include <signal.h>

#include "setup.h"

/* By the machine's clock. */
#define BOARD_WATCHDOG_US 2000000u

struct board_choices {
    unsigned baud;
    unsigned long seed;
    double speed;          /* how much faster than the machine's its clock runs; the line keeps its own pace */
    bool world_elsewhere;
};

/* Stop button and supply fault as signals have set them: bits of the board's condition, seen from the next tick on. */
extern volatile sig_atomic_t board_condition;

/* Starts the bench and opens its line. 0, or the program's exit code after the reason went to standard error. */
int board_start(struct setup *setup, const struct board_choices *choices, const char *path);

/* Its line, to wait for. */
int board_line(void);

/* Whether bytes that have come still wait for their turn. */
bool board_has_bytes(void);

/* One turn. False: the world in the other process has ended. */
bool board_turn(void);

#endif
