/* The worked session of the contract, read from its text: the host's lines in, the bench's lines out, byte for byte. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "fake.h"

/* Lines that the host says in the worked session. */
static const char *const HOSTS[] = {"\"hello\"", "\"stream\"", "\"ping\"", "\"arm\"", "\"beat\"", "\"set\""};

static char lines[40][4096];
static unsigned line_count, line_next;
static char dense_hex[1024];

static void read_contract(void)
{
    char text[4096];
    FILE *file = fopen(contract_path, "r");
    line_count = 0;
    line_next = 0;
    dense_hex[0] = 0;
    if (file == NULL) {
        fprintf(stderr, "cannot read %s\n", contract_path);
        exit(70);
    }
    while (fgets(text, sizeof text, file) != NULL) {
        if (strncmp(text, "    {\"m\":", 9) == 0) {
            snprintf(lines[line_count++], sizeof lines[0], "%s", text + 4);
        } else if (line_count > 0 && strncmp(text, "    ", 4) == 0) {
            text[strcspn(text, "\n")] = 0;
            strncat(dense_hex, text + 4, sizeof dense_hex - strlen(dense_hex) - 1);
        }
    }
    fclose(file);
}

static bool is_hosts(const char *line)
{
    for (size_t i = 0; i < sizeof HOSTS / sizeof HOSTS[0]; i++) {
        if (strncmp(line + 5, HOSTS[i], strlen(HOSTS[i])) == 0) {
            return true;
        }
    }
    return false;
}

/* Says the next line of the session, which is the host's. */
static void host_says(void)
{
    CHECK(line_next < line_count && is_hosts(lines[line_next]));
    fake_bytes(lines[line_next], strlen(lines[line_next]));
    line_next++;
    fake_talks();
}

/* What the bench has sent since is the session's next lines, up to the host's next. */
static void bench_has_said(unsigned count)
{
    char expected[8192] = "";
    for (unsigned i = 0; i < count && line_next < line_count; i++) {
        CHECK(!is_hosts(lines[line_next]));
        strcat(expected, lines[line_next++]);
    }
    fake.out[fake.out_length] = 0;
    CHECK_SAME(expected, fake.out);
    fake_forget();
}

static void at(uint64_t now, int32_t p1, int32_t p2)
{
    fake.now = now;
    fake.counts[P1] = p1;
    fake.counts[P2] = p2;
    fake_ticks();
    fake_talks();
}

static void greeting_and_slow_stream(void)
{
    static const uint64_t greeting[] = {1200345, 1200400};
    fake_reads(greeting, 2);
    fake.now = 1200400;
    host_says();
    bench_has_said(2);
    fake.now = 1210000;
    host_says();
    bench_has_said(1);
    at(1210000, 812, 1024);
    fake.now = 1215000;
    host_says();
    bench_has_said(1);
}

static void arming_and_a_timed_set(void)
{
    static const uint64_t arming[] = {1220010, 1220010, 1220010};
    fake.now = 1220015;
    fake_reads(arming, 3);
    host_says();
    bench_has_said(2);
    fake.now = 1224180;
    host_says();
    bench_has_said(0);
    at(1260000, 813, 1023);
    fake.now = 1270000;
    host_says();
    bench_has_said(1);
    at(1300003, 813, 1023);
    bench_has_said(2);
    CHECK(fake.counts[W1] == 1 && fake.counts[H1] == 2048);
}

static void an_edge_and_a_lost_beat(void)
{
    static const uint64_t safe[] = {1524190, 1524190, 1524200};
    at(1310000, 812, 1024);
    bench_has_said(1);
    fake.counts[D1] = 0;
    at(1312217, 812, 1024);
    bench_has_said(0);
    at(1312417, 812, 1024);
    bench_has_said(1);
    at(1360000, 811, 1024);
    at(1410000, 812, 1024);
    bench_has_said(0);
    at(1460000, 812, 1025);
    bench_has_said(1);
    at(1510000, 812, 1025);
    fake_reads(safe, 3);
    fake.now = 1524230;
    fake_ticks();
    CHECK(fake.counts[W1] == 0 && fake.counts[H1] == 0);
    fake_talks();
    bench_has_said(3);
    CHECK(line_next == line_count);
}

static void a_dense_message(void)
{
    at(1560000, 812, 1025);
    fake.now = 1600000;
    fake_says("{\"m\":\"stream\",\"id\":6,\"session\":\"5be1c07d\",\"name\":\"quick\",\"points\":[\"P1\",\"P2\"],"
              "\"every-us\":200,\"batch\":50,\"flush-ms\":20,\"dense\":true}");
    fake_talks();
    CHECK_SAME("{\"m\":\"done\",\"id\":6,\"session\":\"5be1c07d\",\"next\":9}", fake_line());
    at(1600000, 512, 1024);
    at(1600200, 513, 1023);
    fake_forget();
    fake_says("{\"m\":\"stream\",\"id\":7,\"session\":\"5be1c07d\",\"name\":\"quick\",\"points\":[]}");
    fake_talks();
    char hex[1024] = "";
    size_t length = strlen(dense_hex) / 2;
    for (size_t i = 0; i < length && i < fake.out_length; i++) {
        sprintf(hex + 2 * i, "%02x", (unsigned char) fake.out[i]);
    }
    CHECK_SAME(dense_hex, hex);
    fake.out_next = length;
    CHECK_SAME("{\"m\":\"done\",\"id\":7,\"session\":\"5be1c07d\",\"next\":10}", fake_line());
}

static void the_worked_session_is_played_byte_for_byte(void)
{
    read_contract();
    CHECK(line_count == 21 && strlen(dense_hex) == 200);
    fake_start(WORKED_POINTS);
    fake.now = 1100000;
    greeting_and_slow_stream();
    arming_and_a_timed_set();
    an_edge_and_a_lost_beat();
    a_dense_message();
}

const struct test worked_tests[] = {TEST(the_worked_session_is_played_byte_for_byte), {NULL, NULL}};
