#define _POSIX_C_SOURCE 200809L

#include "board.h"

#include <fcntl.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

#include "elsewhere.h"
#include "terminal.h"
#include "world.h"

/* The other process is asked for no longer time at once: its answer has its bounds. */
#define STRETCH_US 100000u

volatile sig_atomic_t board_condition;

static struct bench bench;
static struct setup *setup;
static struct world world;
static struct terminal terminal;
static struct board_choices choices;

static uint64_t started_us;  /* the machine's clock when the bench's was 0 */
static uint64_t turned_us;   /* the machine's clock at the last turn */
static uint64_t tick_us;     /* the last tick's instant */
static uint64_t now_us;      /* what the bench's clock shows: a tick's instant, or that of a turn */
static uint64_t known_us;    /* up to when the world's inputs are known */
static bool world_ended;
static unsigned condition;

static uint64_t machine_us(void)
{
    struct timespec now;
    (void) clock_gettime(CLOCK_MONOTONIC, &now);
    return (uint64_t) now.tv_sec * 1000000u + (uint64_t) now.tv_nsec / 1000u;
}

static uint64_t board_now(void *self)
{
    (void) self;
    return now_us;
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
    world_drive(&world, point, value, now_us);
}

static unsigned board_state(void *self)
{
    (void) self;
    return condition;
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

static const char *start_bench(void)
{
    static const struct bench_board board = {NULL,       board_now,     board_read, board_drive,  board_state,
                                             board_send, board_receive, board_boot, board_change, NULL, NULL};
    return bench_start(&bench, &board, &setup->card);
}

int board_start(struct setup *of, const struct board_choices *chosen, const char *path)
{
    char device[128];
    setup = of;
    choices = *chosen;
    setup->card.line_bytes_per_s = (uint32_t) (choices.baud / 10.0 / choices.speed);
    setup->card.dense = true;
    setup->card.max_beat_ms = (uint32_t) (setup->card.max_beat_ms * choices.speed);
    world_start(&world, setup, choices.seed);
    if (choices.world_elsewhere) {
        elsewhere_start(&world);
    }
    const char *wrong = start_bench();
    if (wrong != NULL) {
        fprintf(stderr, "%s: %s\n", path, wrong);
        return 64;
    }
    if (!terminal_open(&terminal, choices.baud, device, sizeof device)) {
        perror("bench: no pseudo-terminal");
        return 3;
    }
    printf("%s\n", device);
    (void) fflush(stdout);
    /* Time begins once the other process is there. */
    world_ended = choices.world_elsewhere && !elsewhere_step(&world, 0);
    started_us = turned_us = machine_us();
    return 0;
}

int board_line(void)
{
    return terminal.master;
}

bool board_has_bytes(void)
{
    return terminal_has_bytes(&terminal);
}

/* Up to when the outputs stay as they are, at most `us`: that far the world can go on without being told anything. */
static uint64_t outputs_stand_until(uint64_t us)
{
    for (unsigned q = 0; q < BENCH_QUEUE; q++) {
        us = bench.sets[q].used && bench.sets[q].at_us < us ? bench.sets[q].at_us : us;
    }
    us = bench.armed && bench.beat_due_us < us ? bench.beat_due_us : us;
    bool any = false;
    for (unsigned o = 0; o < bench.output_count; o++) {
        any = any || bench.outputs[o].ramp;
    }
    for (unsigned p = 0; bench.armed && p < setup->card.point_count; p++) {
        any = any || bench.limits[p].on;
    }
    return any ? tick_us : us;
}

/* The world's inputs become known up to that time, or for as long as may be asked for at once. */
static void learn_until(uint64_t us)
{
    if (choices.world_elsewhere && !world_ended) {
        known_us = us < known_us + STRETCH_US ? us : known_us + STRETCH_US;
        world_ended = !elsewhere_step(&world, known_us);
    }
}

/* Time goes on in the world alone. */
static void pass_until(uint64_t us)
{
    while (choices.world_elsewhere && !world_ended && known_us < us) {
        learn_until(us);
        world_step(&world, known_us);
    }
    world_step(&world, us);
}

static void tick_until(uint64_t us)
{
    while (!world_ended && tick_us + setup->card.tick_us <= us) {
        now_us = tick_us + setup->card.tick_us;
        if (known_us < now_us) {
            uint64_t until_us = outputs_stand_until(us);
            learn_until(until_us > now_us ? until_us - until_us % setup->card.tick_us : now_us);
        }
        tick_us = now_us;
        world_step(&world, tick_us);
        bench_tick(&bench);
    }
}

/* The watchdog bites when the next tick is overdue by its period: outputs safe from that instant, then a new boot. */
static void bite(uint64_t us, uint64_t period_us)
{
    fprintf(stderr, "bench: kept waiting for %.1f s; its watchdog has reset it\n",
            (double) (us - tick_us) / choices.speed / 1e6);
    now_us = tick_us + period_us;
    pass_until(now_us);
    (void) start_bench();
    tick_us = us - us % setup->card.tick_us;
    pass_until(tick_us);
}

bool board_turn(void)
{
    uint64_t watchdog_us = (uint64_t) (BOARD_WATCHDOG_US * choices.speed);
    uint64_t from_us = turned_us;
    turned_us = machine_us();
    terminal_pass(&terminal, turned_us - from_us);
    terminal_take(&terminal);  /* before the clock is read */
    uint64_t us = (uint64_t) ((double) (machine_us() - started_us) * choices.speed);
    if (us - tick_us > watchdog_us) {
        bite(us, watchdog_us);
    }
    tick_until(us);
    now_us = us;
    bench_talk(&bench);
    /* A signal says that the button is in, not since when: it counts from the next tick. */
    condition = (unsigned) board_condition;
    return !world_ended;
}
