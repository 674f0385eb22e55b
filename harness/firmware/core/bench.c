#include "bench.h"

#include <string.h>

#include "parts.h"

uint64_t now_us(const struct bench *b)
{
    return b->board->now_us(b->board->self);
}

void lock(const struct bench *b)
{
    if (b->board->lock != NULL) {
        b->board->lock(b->board->self);
    }
}

void unlock(const struct bench *b)
{
    if (b->board->unlock != NULL) {
        b->board->unlock(b->board->self);
    }
}

const struct bench_point *point_of(const struct bench *b, unsigned point)
{
    return &b->card->points[point];
}

bool find_point(const struct bench *b, struct text name, unsigned *point)
{
    for (unsigned p = 0; p < b->card->point_count; p++) {
        if (json_is(name, point_of(b, p)->name)) {
            *point = p;
            return true;
        }
    }
    return false;
}

bool is_digital(enum bench_kind kind)
{
    return kind == BENCH_DIGITAL_IN || kind == BENCH_DIGITAL_OUT;
}

bool is_analogue(enum bench_kind kind)
{
    return kind == BENCH_ANALOG_IN || kind == BENCH_ANALOG_OUT || kind == BENCH_PULSE_OUT || kind == BENCH_PWM_OUT;
}

static bool is_output(enum bench_kind kind)
{
    return kind == BENCH_DIGITAL_OUT || (is_analogue(kind) && kind != BENCH_ANALOG_IN);
}

static bool is_name(const char *name)
{
    size_t length = strlen(name);
    return length >= 1 && length <= BENCH_NAME_MAX
           && strspn(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-") == length;
}

static const char *wrong_with_point(const struct bench_card *card, unsigned p)
{
    const struct bench_point *point = &card->points[p];
    if (!is_name(point->name)) {
        return "a point's name is not of letters, digits and hyphens, 1 to 32 of them";
    }
    for (unsigned other = 0; other < p; other++) {
        if (strcmp(card->points[other].name, point->name) == 0) {
            return "two points have one name";
        }
    }
    if (is_analogue(point->kind) && point->min >= point->max) {
        return "an analogue point's min is not below its max";
    }
    int32_t low = is_digital(point->kind) ? 0 : point->min;
    int32_t high = is_digital(point->kind) ? 1 : point->max;
    if (is_output(point->kind) && (point->safe < low || point->safe > high)) {
        return "an output's safe value is not one that it can take";
    }
    return NULL;
}

static bool is_computed(const char *name)
{
    static const char begins[] = "simulated-";
    return strlen(name) >= sizeof begins - 1 && memcmp(name, begins, sizeof begins - 1) == 0;
}

static const char *wrong_with_card(const struct bench_card *card)
{
    if (!is_name(card->name)) {
        return "the bench's name is not of letters, digits and hyphens, 1 to 32 of them";
    }
    /* What a bench computes may go up to 100 times faster than real time, and its limits with it. */
    uint32_t most_ms = is_computed(card->name) ? 50000 : 500;
    if (card->max_beat_ms < 100 || card->max_beat_ms > most_ms) {
        return "max_beat_ms is not within 100 to 500";
    }
    if (card->tick_us < 1 || card->tick_us > 1000) {
        return "tick_us is not within 1 to 1000";
    }
    if (card->point_count > BENCH_POINTS_MAX) {
        return "more points than BENCH_POINTS_MAX";
    }
    for (unsigned p = 0; p < card->point_count; p++) {
        const char *wrong = wrong_with_point(card, p);
        if (wrong != NULL) {
            return wrong;
        }
    }
    return NULL;
}

static bool found_outputs(struct bench *b)
{
    for (unsigned p = 0; p < b->card->point_count; p++) {
        b->output_of[p] = BENCH_NO_POINT;
        if (!is_output(point_of(b, p)->kind)) {
            continue;
        }
        if (b->output_count == BENCH_OUTPUTS_MAX) {
            return false;
        }
        b->outputs[b->output_count].point = (uint8_t) p;
        b->output_of[p] = b->output_count++;
    }
    return true;
}

const char *bench_start(struct bench *b, const struct bench_board *board, const struct bench_card *card)
{
    memset(b, 0, sizeof *b);
    b->board = board;
    b->card = card;
    const char *wrong = wrong_with_card(card);
    if (wrong != NULL) {
        return wrong;
    }
    if (!found_outputs(b)) {
        return "more outputs than BENCH_OUTPUTS_MAX";
    }
    drive_all_safe(b);
    b->boot = board->boot_id(board->self);
    if (!bench_line_fits(b)) {
        return "the greeting does not fit: raise BENCH_OUT_BYTES, or offer fewer points";
    }
    start_inputs(b, now_us(b));
    b->out[0] = '\n';  /* whatever stood on the line before ends here */
    b->out_first = 0;
    b->out_count = 1;
    return NULL;
}

void bench_tick(struct bench *b)
{
    uint64_t now = now_us(b);
    watch_condition(b, now);
    watch_beat(b, now);
    watch_limits(b, now);
    run_sets(b);
    run_ramps(b, now);
    watch_pins(b, now);
    sample_streams(b, now);
    run_self_test(b, now);
}

void bench_talk(struct bench *b)
{
    drain_events(b);
    read_lines(b);
    drain_events(b);
    if (b->in_session && now_us(b) >= b->state_due_us) {
        (void) write_state(b);
    }
    close_batches(b);
    send_out(b);
}

bool bench_is_armed(const struct bench *b)
{
    return b->armed;
}
