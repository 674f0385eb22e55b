/*
 * A world in another process, in step with the bench: before the bench's clock goes on over a stretch of time in which
 * its outputs stay as they are, it writes to standard output up to when, and what it has driven since the last stretch;
 * then it waits for what its inputs are meanwhile, on standard input.
 *
 *     bench: 1000 W1=1@730 H1=2048@730        end of the stretch, then outputs with the time at which they were driven
 *     world: P1=812@500 P1=813@1000 D1=0@950  inputs as they change in the stretch, each with its time
 *
 * Times are in microseconds of the bench's clock, values in counts; an input without a time changes at the stretch's
 * end. A stretch is one tick to 100 ms long. The first one tells every output. An empty line changes nothing. The bench
 * ends when the other process closes its end.
 */
#ifndef ELSEWHERE_H
#define ELSEWHERE_H

#include "world.h"

/* Begins it: from now on the world's inputs are what the other process says. */
void elsewhere_start(struct world *world);

/* One stretch: tells, waits and puts. False: the other process has gone, or said what cannot be taken (told on standard
   error). */
bool elsewhere_step(struct world *world, uint64_t until_us);

#endif
