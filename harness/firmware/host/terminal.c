#define _XOPEN_SOURCE 600

#include "terminal.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

/* What a line that was idle may carry at once, as a transmitter with a small memory would. */
#define BURST_US 1000u

static bool make_raw(int slave)
{
    struct termios settings;
    if (tcgetattr(slave, &settings) != 0) {
        return false;
    }
    settings.c_iflag &= (tcflag_t) ~(BRKINT | ICRNL | IGNCR | INLCR | INPCK | ISTRIP | IXON | IXOFF | PARMRK);
    settings.c_oflag &= (tcflag_t) ~OPOST;
    settings.c_lflag &= (tcflag_t) ~(ECHO | ECHONL | ICANON | IEXTEN | ISIG);
    settings.c_cflag &= (tcflag_t) ~(CSIZE | PARENB);
    settings.c_cflag |= CS8;
    settings.c_cc[VMIN] = 1;
    settings.c_cc[VTIME] = 0;
    return tcsetattr(slave, TCSANOW, &settings) == 0;
}

/* The bench keeps its own hand on the other end: a host that goes is silence, not an end. */
bool terminal_open(struct terminal *terminal, unsigned baud, char *name, size_t room)
{
    terminal->bytes_per_us = (double) baud / 10.0 / 1e6;
    terminal->out_credit = terminal->in_credit = 0;
    terminal->taken_next = terminal->taken_count = 0;
    terminal->master = posix_openpt(O_RDWR | O_NOCTTY);
    if (terminal->master < 0 || grantpt(terminal->master) != 0 || unlockpt(terminal->master) != 0) {
        return false;
    }
    const char *path = ptsname(terminal->master);
    if (path == NULL || (size_t) snprintf(name, room, "%s", path) >= room) {
        return false;
    }
    terminal->slave = open(name, O_RDWR | O_NOCTTY);
    return terminal->slave >= 0 && make_raw(terminal->slave)
           && fcntl(terminal->master, F_SETFL, O_NONBLOCK) == 0;
}

static double earn(double credit, double bytes, double most)
{
    credit += bytes;
    return credit < most ? credit : most;
}

void terminal_pass(struct terminal *terminal, uint64_t us)
{
    double bytes = (double) us * terminal->bytes_per_us;
    double most = (double) (us > BURST_US ? us : BURST_US) * terminal->bytes_per_us + 16;
    terminal->out_credit = earn(terminal->out_credit, bytes, most);
    terminal->in_credit = earn(terminal->in_credit, bytes, most);
}

size_t terminal_send(struct terminal *terminal, const uint8_t *bytes, size_t length)
{
    size_t may = (size_t) terminal->out_credit;
    ssize_t sent = may == 0 ? 0 : write(terminal->master, bytes, length < may ? length : may);
    if (sent <= 0) {
        return 0;
    }
    terminal->out_credit -= (double) sent;
    return (size_t) sent;
}

void terminal_take(struct terminal *terminal)
{
    if (terminal->taken_next == terminal->taken_count) {
        terminal->taken_next = terminal->taken_count = 0;
    }
    size_t room = sizeof terminal->taken - terminal->taken_count;
    size_t may = (size_t) terminal->in_credit;
    may = may < room ? may : room;
    ssize_t count = may == 0 ? 0 : read(terminal->master, terminal->taken + terminal->taken_count, may);
    if (count > 0) {
        terminal->taken_count += (size_t) count;
        terminal->in_credit -= (double) count;
    }
}

bool terminal_has_bytes(const struct terminal *terminal)
{
    return terminal->taken_next < terminal->taken_count;
}

size_t terminal_receive(struct terminal *terminal, uint8_t *bytes, size_t room)
{
    size_t count = terminal->taken_count - terminal->taken_next;
    count = count < room ? count : room;
    memcpy(bytes, terminal->taken + terminal->taken_next, count);
    terminal->taken_next += count;
    return count;
}
