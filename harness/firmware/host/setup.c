#include "setup.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define WORDS_MAX 24

struct line {
    const char *path;
    unsigned number;
    unsigned count;
    char *words[WORDS_MAX];
};

static bool complain(const struct line *line, const char *what, const char *word)
{
    fprintf(stderr, "%s:%u: %s '%s'\n", line->path, line->number, what, word);
    return false;
}

static void split(struct line *line, char *text)
{
    text[strcspn(text, "#\r\n")] = 0;
    line->count = 0;
    for (char *word = strtok(text, " \t"); word != NULL && line->count < WORDS_MAX; word = strtok(NULL, " \t")) {
        line->words[line->count++] = word;
    }
}

static bool find(const struct setup *setup, const char *name, unsigned *point)
{
    for (*point = 0; *point < setup->card.point_count; (*point)++) {
        if (strcmp(setup->points[*point].name, name) == 0) {
            return true;
        }
    }
    return false;
}

/* Value of the word after `key`, where it stands from the given word on; `absent` where it does not. */
static bool number_after(const struct line *line, unsigned from, const char *key, double absent, double *out)
{
    *out = absent;
    for (unsigned i = from; i < line->count; i++) {
        if (strcmp(line->words[i], key) != 0) {
            continue;
        }
        char *end = "x";
        *out = i + 1 < line->count ? strtod(line->words[i + 1], &end) : 0;
        if (*end != 0 || !isfinite(*out) || fabs(*out) > 2147483647) {
            return complain(line, "a number of at most 2147483647 must follow", key);
        }
    }
    return true;
}

static bool whole_after(const struct line *line, unsigned from, const char *key, int32_t absent, int32_t *out)
{
    double number;
    if (!number_after(line, from, key, absent, &number)) {
        return false;
    }
    *out = (int32_t) number;
    return *out == number || complain(line, "a whole number must follow", key);
}

static bool time_after(const struct line *line, unsigned from, const char *key, uint32_t absent, uint32_t *out)
{
    int32_t number;
    if (!whole_after(line, from, key, (int32_t) absent, &number)) {
        return false;
    }
    *out = (uint32_t) number;
    return number >= 0 || complain(line, "no negative number may follow", key);
}

/* From `from` on the line holds pairs of these keys and their values, and bare words of `bare`. */
static bool only_known(const struct line *line, unsigned from, const char *keys, const char *bare)
{
    char framed[64];
    for (unsigned i = from; i < line->count; i++) {
        if (strlen(line->words[i]) > 40) {
            return complain(line, "does not belong here:", line->words[i]);
        }
        snprintf(framed, sizeof framed, " %s ", line->words[i]);
        if (strstr(keys, framed) != NULL) {
            i++;
        } else if (strstr(bare, framed) == NULL) {
            return complain(line, "does not belong here:", line->words[i]);
        }
    }
    return true;
}

static bool take_name(const struct line *line, struct setup *setup, unsigned place, const char **name)
{
    if (line->count < 2 || strlen(line->words[1]) > BENCH_NAME_MAX) {
        return complain(line, "a name of 1 to 32 characters must follow", line->words[0]);
    }
    strcpy(setup->names[place], line->words[1]);
    *name = setup->names[place];
    return true;
}

static bool read_bench(const struct line *line, struct setup *setup)
{
    return take_name(line, setup, BENCH_POINTS_MAX, &setup->card.name)
           && (strncmp(setup->card.name, "simulated-", 10) == 0
               || complain(line, "computes what it reports; its name must begin with 'simulated-':", line->words[1]))
           && only_known(line, 2, " clock-ppm max-beat-ms ", "")
           && time_after(line, 2, "clock-ppm", 50, &setup->card.clock_ppm)
           && time_after(line, 2, "max-beat-ms", 500, &setup->card.max_beat_ms);
}

static bool read_kind(const struct line *line, enum bench_kind *kind)
{
    static const char *const kinds[] = {"analog-in", "analog-out", "digital-in", "digital-out",
                                        "pulse-out", "pwm-out",    "counter-in"};
    for (unsigned i = 0; line->count > 2 && i < sizeof kinds / sizeof kinds[0]; i++) {
        if (strcmp(line->words[2], kinds[i]) == 0) {
            *kind = (enum bench_kind) i;
            return true;
        }
    }
    return complain(line, "no kind of point:", line->count > 2 ? line->words[2] : "");
}

static bool read_point(const struct line *line, struct setup *setup)
{
    unsigned place = setup->card.point_count;
    unsigned other;
    if (place == BENCH_POINTS_MAX) {
        return complain(line, "one point too many:", line->count > 1 ? line->words[1] : "");
    }
    struct bench_point *point = &setup->points[place];
    if (!take_name(line, setup, place, &point->name) || !read_kind(line, &point->kind)) {
        return false;
    }
    if (find(setup, point->name, &other)) {
        return complain(line, "there is a point of this name already:", point->name);
    }
    setup->card.point_count++;
    return only_known(line, 3, " min max safe filter-us stamp-us glitch-us ", "")
           && whole_after(line, 3, "min", 0, &point->min) && whole_after(line, 3, "max", 0, &point->max)
           && whole_after(line, 3, "safe", 0, &point->safe) && time_after(line, 3, "filter-us", 0, &point->filter_us)
           && time_after(line, 3, "stamp-us", 0, &point->stamp_us)
           && time_after(line, 3, "glitch-us", 0, &point->glitch_us);
}

static bool read_hold(const struct line *line, struct source *source)
{
    source->kind = SOURCE_HOLD;
    return only_known(line, 2, " at noise ", "") && number_after(line, 2, "at", 0, &source->plus)
           && number_after(line, 2, "noise", 0, &source->noise);
}

static bool read_follow(const struct line *line, struct source *source)
{
    source->kind = SOURCE_FOLLOW;
    return only_known(line, 4, " times plus within-ms noise ", "")
           && number_after(line, 4, "times", 1, &source->times) && number_after(line, 4, "plus", 0, &source->plus)
           && number_after(line, 4, "within-ms", 0, &source->within_ms)
           && number_after(line, 4, "noise", 0, &source->noise)
           && (source->within_ms >= 0 || complain(line, "no negative number may follow", "within-ms"));
}

static bool read_wire(const struct line *line, struct source *source)
{
    source->kind = SOURCE_WIRE;
    for (unsigned i = 4; i < line->count; i++) {
        source->inverted = source->inverted || strcmp(line->words[i], "inverted") == 0;
    }
    uint32_t after_us;
    if (!only_known(line, 4, " after-us ", " inverted ") || !time_after(line, 4, "after-us", 0, &after_us)) {
        return false;
    }
    source->after_us = after_us;
    return true;
}

static bool is_output(enum bench_kind kind)
{
    return kind != BENCH_ANALOG_IN && kind != BENCH_DIGITAL_IN && kind != BENCH_COUNTER_IN;
}

static bool read_source(const struct line *line, struct setup *setup)
{
    unsigned point;
    bool hold = strcmp(line->words[0], "hold") == 0;
    if (line->count < 2 || !find(setup, line->words[1], &point)) {
        return complain(line, "no such point (points come first):", line->count < 2 ? "" : line->words[1]);
    }
    struct source *source = &setup->sources[point];
    if (hold) {
        return read_hold(line, source);
    }
    if (line->count < 4 || strcmp(line->words[2], "from") != 0 || !find(setup, line->words[3], &source->from)) {
        return complain(line, "'from' and a point must follow", line->words[1]);
    }
    if (!is_output(setup->points[source->from].kind)) {
        return complain(line, "is no output:", line->words[3]);
    }
    return strcmp(line->words[0], "wire") == 0 ? read_wire(line, source) : read_follow(line, source);
}

static bool read_line(const struct line *line, struct setup *setup)
{
    const char *what = line->words[0];
    if (strcmp(what, "bench") == 0) {
        return read_bench(line, setup);
    }
    if (strcmp(what, "point") == 0) {
        return read_point(line, setup);
    }
    if (strcmp(what, "hold") == 0 || strcmp(what, "follow") == 0 || strcmp(what, "wire") == 0) {
        return read_source(line, setup);
    }
    return complain(line, "a line begins with bench, point, hold, follow or wire, not with", what);
}

bool read_setup(const char *path, struct setup *setup)
{
    char text[512];
    struct line line = {path, 0, 0, {NULL}};
    bool good = true;
    memset(setup, 0, sizeof *setup);
    setup->card.name = "bench";
    setup->card.clock_ppm = 50;
    setup->card.max_beat_ms = 500;
    setup->card.points = setup->points;
    FILE *file = fopen(path, "r");
    if (file == NULL) {
        fprintf(stderr, "%s: cannot be read\n", path);
        return false;
    }
    while (good && fgets(text, sizeof text, file) != NULL) {
        line.number++;
        split(&line, text);
        good = line.count == 0 || read_line(&line, setup);
    }
    (void) fclose(file);
    return good;
}
