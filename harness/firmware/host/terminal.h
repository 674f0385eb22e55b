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
};

/* Opens it, raw; `name` is what the other side opens. False where the machine does not give one. */
bool terminal_open(struct terminal *terminal, unsigned baud, char *name, size_t room);

/* So much bench time has passed. */
void terminal_pass(struct terminal *terminal, uint64_t us);

size_t terminal_send(struct terminal *terminal, const uint8_t *bytes, size_t length);
size_t terminal_receive(struct terminal *terminal, uint8_t *bytes, size_t room);

#endif
