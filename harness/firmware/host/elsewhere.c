#include "elsewhere.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LINE_MAX_BYTES 262144

void elsewhere_start(struct world *world)
{
    world->elsewhere = true;
    for (unsigned p = 0; p < world->setup->card.point_count; p++) {
        world->value[p] = 0;
        world->level[p] = 0;
    }
}

static void tell(struct world *world, uint64_t until_us)
{
    printf("%llu", (unsigned long long) until_us);
    for (unsigned i = 0; i < world->drive_count; i++) {
        const struct drive *drive = &world->drives[i];
        printf(" %s=%ld@%llu", world->setup->points[drive->point].name, (long) drive->value,
               (unsigned long long) drive->t_us);
    }
    world->drive_count = 0;
    printf("\n");
    (void) fflush(stdout);
}

static bool find(const struct world *world, const char *name, unsigned *point)
{
    for (*point = 0; *point < world->setup->card.point_count; (*point)++) {
        if (strcmp(world->setup->points[*point].name, name) == 0) {
            return true;
        }
    }
    return false;
}

/* NAME=COUNTS or NAME=COUNTS@TIME, the time not after the stretch. */
static bool put(struct world *world, char *word, uint64_t until_us)
{
    unsigned point;
    char *value = strchr(word, '=');
    char *end = value;
    if (value == NULL) {
        return false;
    }
    *value++ = 0;
    long counts = strtol(value, &end, 10);
    uint64_t t_us = until_us;
    if (end != value && *end == '@') {
        t_us = strtoull(end + 1, &end, 10);
    }
    if (end == value || *end != 0 || t_us > until_us || !find(world, word, &point)) {
        return false;
    }
    return world_put(world, point, (int32_t) counts, t_us);
}

bool elsewhere_step(struct world *world, uint64_t until_us)
{
    static char line[LINE_MAX_BYTES];
    tell(world, until_us);
    if (fgets(line, sizeof line, stdin) == NULL) {
        return false;
    }
    for (char *word = strtok(line, " \r\n"); word != NULL; word = strtok(NULL, " \r\n")) {
        if (!put(world, word, until_us)) {
            fprintf(stderr, "bench: the world says what this bench cannot take: %s\n", word);
            return false;
        }
    }
    return true;
}
