/* Random bytes, random lines with a sound CRC, and sound sessions in a random order, under the sanitizers. */
#include <stdio.h>
#include <string.h>

#include "../core/parts.h"
#include "check.h"
#include "fake.h"

#define ROUNDS 40000u

static uint64_t seed;

static unsigned below(unsigned bound)
{
    return (unsigned) (next_random(&seed) % bound);
}

static const char *one_of(const char *const *some, unsigned count)
{
    return some[below(count)];
}

#define ONE_OF(some) one_of((some), (unsigned) (sizeof (some) / sizeof (some)[0]))

static const char *random_number(void)
{
    static char text[40];
    static const char *const odd[] = {"0", "-1", "1.5", "1e9", "9007199254740991", "9007199254740992",
                                      "-9007199254740991", "null", "\"1\"", "true", "[]", "18446744073709551616"};
    if (below(4) == 0) {
        return ONE_OF(odd);
    }
    snprintf(text, sizeof text, "%lld", (long long) fake.now - 1000 + (long long) below(2000000));
    return text;
}

static const char *random_member(void)
{
    static char text[400];
    static const char *const names[] = {"link", "host", "name", "every-us", "batch", "flush-ms", "dense", "boot",
                                        "until-us", "beat-ms", "at-us", "over-us", "k", "seen-us", "id", "m"};
    static const char *const points[] = {"P1", "P2", "D1", "W1", "H1", "C1", "U1", "M1", "W2", "H2", "P9", "\\u0050"};
    static const char *const values[] = {"\"a\"", "[\"P1\",\"H1\"]", "[]", "{}", "true", "1", "100", "1000", "10000",
                                         "\"" BOOT "\"", "{\"W1\":1}", "{\"H1\":100,\"M1\":5}", "{\"P1\":[1,4000]}",
                                         "[[[[{\"a\":[]}]]]]", "\"\\ud834\\udd1e\""};
    switch (below(5)) {
    case 0:
        snprintf(text, sizeof text, "\"%s\":%s", ONE_OF(names), random_number());
        break;
    case 1:
        snprintf(text, sizeof text, "\"points\":{\"%s\":%s}", ONE_OF(points), random_number());
        break;
    case 2:
        snprintf(text, sizeof text, "\"points\":[\"%s\",\"%s\"]", ONE_OF(points), ONE_OF(points));
        break;
    case 3:
        snprintf(text, sizeof text, "\"limits\":{\"%s\":[%s,3000]}", ONE_OF(points), random_number());
        break;
    default:
        snprintf(text, sizeof text, "\"%s\":%s", ONE_OF(names), ONE_OF(values));
    }
    return text;
}

/* Something like a command, often a sound one. */
static void random_command(char *text, size_t room)
{
    static const char *const kinds[] = {"hello", "arm", "arm", "arm", "set", "set", "set", "stream", "stream",
                                        "beat", "beat", "beat", "ping", "self-test", "safe", "nothing"};
    static const char *const usual[] = {
        ",\"link\":1,\"host\":\"x\"", OUR_BOOT ",\"beat-ms\":300",
        OUR_BOOT ",\"beat-ms\":100,\"limits\":{\"P1\":[1,4000],\"P2\":[null,4094]}",
        OUR_BOOT ",\"beat-ms\":500", OUR_BOOT ",\"points\":{\"W1\":1,\"H1\":900}",
        OUR_BOOT ",\"points\":{\"W2\":0,\"U1\":900}", OUR_BOOT ",\"points\":{\"M1\":0}",
        ",\"name\":\"s\",\"points\":[\"P1\",\"P2\"],\"every-us\":1000,\"batch\":9,\"flush-ms\":20",
        ",\"name\":\"t\",\"points\":[\"P1\",\"D1\"],\"every-us\":500,\"batch\":40,\"flush-ms\":90,\"dense\":true"};
    char session[9];
    snprintf(session, sizeof session, "%08lx",
             (unsigned long) (below(20) > 0 ? fake.bench.session : (uint32_t) next_random(&seed)));
    unsigned kind = below(sizeof kinds / sizeof kinds[0]);
    unsigned members = below(10) > 0 ? kind : below(16);
    members = members < sizeof usual / sizeof usual[0] ? members : below(sizeof usual / sizeof usual[0]);
    static unsigned id;
    id += below(3);
    int length = snprintf(text, room, "{\"m\":\"%s\",\"id\":%u,\"session\":\"%s\"", kinds[kind], id, session);
    if (below(5) > 0) {
        length += snprintf(text + length, room - (size_t) length, "%s,\"until-us\":%llu,\"k\":%u,\"seen-us\":%llu",
                           usual[members], (unsigned long long) fake.now + 100000, id, (unsigned long long) fake.now);
    }
    if (below(4) == 0) {
        length += snprintf(text + length, room - (size_t) length, ",\"at-us\":%llu,\"over-us\":%u",
                           (unsigned long long) fake.now + below(100000), below(50000));
    }
    for (unsigned more = below(3); more > 0; more--) {
        length += snprintf(text + length, room - (size_t) length, ",%s", random_member());
    }
    snprintf(text + length, room - (size_t) length, "}");
}

/* Changes some bytes; the CRC that is put to it afterwards is sound all the same. */
static void maul(char *text)
{
    size_t length = strlen(text);
    for (unsigned i = below(4); i > 0 && length > 1; i--) {
        size_t at = below((unsigned) length);
        if (below(3) == 0) {
            memmove(text + at, text + at + 1, length - at);
            length--;
        } else {
            char c = (char) (1 + below(255));
            text[at] = c == '\n' ? ' ' : c;
        }
    }
}

static void say_something(void)
{
    char text[2000];
    switch (below(8)) {
    case 0:
        for (unsigned i = below(300); i > 0; i--) {
            char c = (char) below(256);
            fake_bytes(&c, 1);
        }
        break;
    case 1:
    case 2:
        random_command(text, sizeof text);
        maul(text);
        fake_says("%s", text);
        break;
    default:
        random_command(text, sizeof text);
        fake_says("%s", text);
    }
}

static bool told[1u << 18];

static void look_at(const char *line)
{
    long long n = number_in(line, "n");
    if (n >= 0 && n < (long long) sizeof told) {
        CHECK(!told[n]);
        told[n] = true;
    }
}

/* Takes what was sent: sound JSON lines with their CRC, no number twice, and dense messages between zeros. */
static void look_at_lines(void)
{
    const char *at = fake.out;
    const char *end = fake.out + fake.out_length;
    while (at < end) {
        const char *dense_end = *at == 0 ? memchr(at + 1, 0, (size_t) (end - at - 1)) : NULL;
        const char *line_end = *at != 0 ? memchr(at, '\n', (size_t) (end - at)) : NULL;
        if (dense_end != NULL) {
            at = dense_end + 1;
        } else if (line_end != NULL) {
            fake.out_next = (size_t) (at - fake.out);
            look_at(fake_line());
            at = line_end + 1;
        } else {
            break;
        }
    }
    size_t rest = (size_t) (end - at);
    memmove(fake.out, at, rest);
    fake.out_length = rest;
    fake.out_next = 0;
}

static void check_outputs(void)
{
    if (!bench_is_armed(&fake.bench)) {
        CHECK(fake.counts[W1] == 0 && fake.counts[H1] == 0 && fake.counts[W2] == 1 && fake.counts[M1] == 250);
    }
    CHECK(fake.counts[H1] >= 0 && fake.counts[H1] <= 4095 && fake.counts[M1] >= 0 && fake.counts[M1] <= 1000);
    CHECK((fake.counts[W1] & ~1) == 0 && fake.locked == 0);
    CHECK(fake.bench.event_count <= BENCH_EVENTS && fake.bench.waiting_count <= BENCH_WAITING);
    CHECK(fake.bench.out_count <= BENCH_OUT_BYTES);
}

static void disturb(void)
{
    fake.counts[P1] = (int32_t) below(4096);
    fake.counts[D1] = (int32_t) below(2);
    fake.worth[P2] = (enum bench_reading) (below(20) == 0 ? below(4) : 0);
    fake.condition = below(60) == 0 ? below(4) : 0;
    fake.send_room = below(3) == 0 ? below(50) : below(4000);
}

static void no_bytes_break_the_bench_or_leave_outputs_live(void)
{
    unsigned armings = 0;
    seed = test_seed;
    memset(told, 0, sizeof told);
    fake_greeted(ALL_POINTS);
    for (unsigned round = 0; round < ROUNDS; round++) {
        bool before = bench_is_armed(&fake.bench);
        if (below(3) > 0) {
            say_something();
        }
        disturb();
        fake_talks();
        fake.now += below(10) == 0 ? below(5000) : 100;
        fake_ticks();
        fake_talks();
        check_outputs();
        look_at_lines();
        armings += !before && bench_is_armed(&fake.bench) ? 1u : 0u;
    }
    CHECK(armings > 100);
    CHECK(fake.bench.next_n > 1000);
}

const struct test fuzz_tests[] = {TEST(no_bytes_break_the_bench_or_leave_outputs_live), {NULL, NULL}};
