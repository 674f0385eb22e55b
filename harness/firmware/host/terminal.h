/* A pseudo-terminal that carries no more bytes in a time than a serial line of its baud rate would. */
#ifndef TERMINAL_H
#define TERMINAL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct terminal {
    int master, slave;
    double bytes_per_us;
    double out_credit, in_credit;  /* bytes that the line would carry by now */
    uint8_t taken[4096];           /* came over the line and not yet given to the core */
    size_t taken_next, taken_count;
};

/* Opens it, raw; `name` is what the other side opens. False where the machine does not give one. */
bool terminal_open(struct terminal *terminal, unsigned baud, char *name, size_t room);

/* So much time has passed since it was last told, all of it time in which the line could carry something. */
void terminal_pass(struct terminal *terminal, uint64_t us);

/* Takes what has come, as far as the line would have carried it and there is room. */
void terminal_take(struct terminal *terminal);

/* Whether some of that has not been received yet. */
bool terminal_has_bytes(const struct terminal *terminal);

/* Gives of what was taken; says how much. */
size_t terminal_receive(struct terminal *terminal, uint8_t *bytes, size_t room);

size_t terminal_send(struct terminal *terminal, const uint8_t *bytes, size_t length);

#endif
