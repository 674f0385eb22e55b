#include "fake.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../core/parts.h"
#include "check.h"

struct fake fake;

static const struct bench_point POINTS[ALL_POINTS] = {
    {"P1", BENCH_ANALOG_IN, 0, 4095, 0, 800, 10, 0},
    {"P2", BENCH_ANALOG_IN, 0, 4095, 0, 800, 10, 0},
    {"D1", BENCH_DIGITAL_IN, 0, 0, 0, 0, 5, 200},
    {"W1", BENCH_DIGITAL_OUT, 0, 0, 0, 0, 0, 0},
    {"H1", BENCH_ANALOG_OUT, 0, 4095, 0, 0, 0, 0},
    {"C1", BENCH_COUNTER_IN, 0, 0, 0, 0, 0, 0},
    {"U1", BENCH_PULSE_OUT, 0, 2000000, 0, 0, 0, 0},
    {"M1", BENCH_PWM_OUT, 0, 1000, 250, 0, 0, 0},
    {"W2", BENCH_DIGITAL_OUT, 0, 0, 1, 0, 0, 0},
    {"H2", BENCH_ANALOG_OUT, -2000000000, 2000000000, 0, 0, 0, 0}};

static uint64_t clock_says(void *self)
{
    (void) self;
    return fake.reading_next < fake.reading_count ? fake.readings[fake.reading_next++] : fake.now;
}

static enum bench_reading reads(void *self, unsigned point, int32_t *counts)
{
    (void) self;
    *counts = fake.counts[point];
    return fake.worth[point];
}

static void drives(void *self, unsigned point, int32_t value)
{
    (void) self;
    fake.counts[point] = value;
    fake.drives[point]++;
}

static unsigned condition(void *self)
{
    (void) self;
    return fake.condition;
}

static size_t takes(void *self, const uint8_t *bytes, size_t length)
{
    (void) self;
    size_t room = sizeof fake.out - fake.out_length;
    room = room < fake.send_room ? room : fake.send_room;
    length = length < room ? length : room;
    memcpy(fake.out + fake.out_length, bytes, length);
    fake.out_length += length;
    fake.send_room -= length;
    return length;
}

static size_t gives(void *self, uint8_t *bytes, size_t room)
{
    (void) self;
    size_t length = fake.in_length - fake.in_next;
    length = length < room ? length : room;
    memcpy(bytes, fake.in + fake.in_next, length);
    fake.in_next += length;
    if (fake.in_next == fake.in_length) {
        fake.in_next = fake.in_length = 0;
    }
    return length;
}

static uint32_t boots(void *self)
{
    (void) self;
    return 0x90c4a1f3;
}

static bool changes(void *self, struct bench_change *change)
{
    (void) self;
    if (fake.change_next == fake.change_count) {
        return false;
    }
    *change = fake.changes[fake.change_next++];
    return true;
}

static void locks(void *self)
{
    (void) self;
    CHECK(fake.locked == 0);
    fake.locked++;
}

static void unlocks(void *self)
{
    (void) self;
    CHECK(fake.locked == 1);
    fake.locked--;
}

void fake_start(unsigned points)
{
    static const struct fake empty;
    bool captures = fake.captures;
    fake = empty;
    fake.captures = captures;
    struct bench_board board = {&fake, clock_says, reads, drives, condition, takes, gives, boots,
                                captures ? changes : NULL, locks, unlocks};
    struct bench_card card = {"bay-2", 50, 500, 92160, 100, true, POINTS, points};
    fake.board = board;
    fake.card = card;
    fake.now = 1000000;
    fake.counts[P1] = 812;
    fake.counts[P2] = 1024;
    fake.counts[D1] = 1;
    fake.send_room = sizeof fake.out;
    const char *wrong = bench_start(&fake.bench, &fake.board, &fake.card);
    check_same("fine", wrong == NULL ? "fine" : wrong, __FILE__, __LINE__);
    fake_talks();
    fake_forget();
}

void fake_greeted(unsigned points)
{
    fake_start(points);
    fake_says("{\"m\":\"hello\",\"id\":1" OURS ",\"link\":1,\"host\":\"lapwing\"}");
    fake_talks();
    fake_forget();
}

void fake_armed(unsigned beat_ms, const char *limits)
{
    fake_greeted(ALL_POINTS);
    fake_says("{\"m\":\"arm\",\"id\":2" OURS OUR_BOOT ",\"until-us\":%llu,\"beat-ms\":%u%s%s}",
              (unsigned long long) fake.now + 1000, beat_ms, limits != NULL ? ",\"limits\":" : "",
              limits != NULL ? limits : "");
    fake_talks();
    CHECK(bench_is_armed(&fake.bench));
    fake_forget();
}

void fake_reads(const uint64_t *readings, unsigned count)
{
    memcpy(fake.readings, readings, count * sizeof readings[0]);
    fake.reading_count = count;
    fake.reading_next = 0;
}

void fake_bytes(const char *bytes, size_t length)
{
    if (fake.in_length + length > sizeof fake.in) {
        fprintf(stderr, "the fake line's buffer is too short for this test\n");
        exit(70);
    }
    memcpy(fake.in + fake.in_length, bytes, length);
    fake.in_length += length;
}

static void say(const char *format, va_list arguments)
{
    char text[8192];
    char tail[11];
    int length = vsnprintf(text, sizeof text, format, arguments);
    snprintf(tail, sizeof tail, " %08lx\n", (unsigned long) crc32_of(0, text, (size_t) length));
    fake_bytes(text, (size_t) length);
    fake_bytes(tail, 10);
}

void fake_says(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    say(format, arguments);
    va_end(arguments);
}

void fake_talks(void)
{
    do {
        bench_talk(&fake.bench);
    } while (fake.in_length > 0);
}

void fake_ticks(void)
{
    bench_tick(&fake.bench);
}

void fake_runs(uint64_t us)
{
    uint64_t end = fake.now + us;
    while (fake.now < end) {
        fake.now += end - fake.now < 100 ? end - fake.now : 100;
        fake_ticks();
        fake_talks();
    }
}

static bool is_sound(const char *line, size_t length)
{
    char tail[11];
    struct text text = {line, length - 9};
    snprintf(tail, sizeof tail, " %08lx", (unsigned long) crc32_of(0, line, length - 9));
    return memcmp(tail, line + length - 9, 9) == 0 && json_is_object(text);
}

const char *fake_line(void)
{
    static char line[16384];
    const char *from = fake.out + fake.out_next;
    const char *end = memchr(from, '\n', fake.out_length - fake.out_next);
    if (end == NULL) {
        return "";
    }
    size_t length = (size_t) (end - from);
    fake.out_next += length + 1;
    CHECK(length > 9 && length + 1 <= 16384 && is_sound(from, length));
    length = length > 9 ? length - 9 : 0;
    memcpy(line, from, length);
    line[length] = 0;
    return line;
}

void fake_forget(void)
{
    fake.out_next = fake.out_length = 0;
    fake.send_room = sizeof fake.out;
}

const char *fake_answer(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    fake_forget();
    say(format, arguments);
    va_end(arguments);
    fake_talks();
    return fake_line();
}

const char *fake_until(const char *text)
{
    const char *line = fake_line();
    while (*line != 0 && strstr(line, text) == NULL) {
        line = fake_line();
    }
    return line;
}

unsigned fake_count(const char *text)
{
    size_t next = fake.out_next;
    unsigned count = 0;
    while (*fake_until(text) != 0) {
        count++;
    }
    fake.out_next = next;
    return count;
}

long long number_in(const char *line, const char *name)
{
    char member[64];
    snprintf(member, sizeof member, "\"%s\":", name);
    const char *at = strstr(line, member);
    return at == NULL ? -1 : strtoll(at + strlen(member), NULL, 10);
}

/* SplitMix64 (Steele, Lea, Flood: Fast splittable pseudorandom number generators, 2014). */
uint64_t next_random(uint64_t *state)
{
    uint64_t z = *state += 0x9E3779B97F4A7C15u;
    z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9u;
    z = (z ^ z >> 27) * 0x94D049BB133111EBu;
    return z ^ z >> 31;
}
