/*
 * A world in another process, in step with the bench: on every step of the bench's clock the bench writes what it has
 * driven since to standard output and waits for what its inputs are, on standard input.
 *
 *     bench: 1000 W1=1@730 H1=2048@730        time of the step, then outputs with the time at which they were driven
 *     world: P1=812 D1=0@950                  inputs that have changed; of digital ones when, where that is known
 *
 * Times are in microseconds since boot, values in counts. The first step tells every output. An empty line changes
 * nothing. The bench ends when the other process closes its end.
 */
#ifndef ELSEWHERE_H
#define ELSEWHERE_H

#include "world.h"

/* Begins it: from now on the world's inputs are what the other process says. */
void elsewhere_start(struct world *world);

/* One step: tells, waits and puts. False: the other process has gone, or said what cannot be taken (told on standard
   error). */
bool elsewhere_step(struct world *world, uint64_t now_us);

#endif
