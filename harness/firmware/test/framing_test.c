/* Framing against published examples. */
#include <stdio.h>
#include <string.h>

#include "../core/parts.h"
#include "check.h"
#include "fake.h"

/* Source: the check value of CRC-32/ISO-HDLC in the Catalogue of parametrised CRC algorithms (reveng). */
static void the_crc_has_its_published_check_value(void)
{
    CHECK(crc32_of(0, "123456789", 9) == 0xCBF43926);
    CHECK(crc32_of(crc32_of(0, "1234", 4), "56789", 5) == 0xCBF43926);
    CHECK(crc32_of(0, "", 0) == 0);
}

struct stuffed {
    unsigned from, count;    /* bytes from, from + 1, ... before stuffing, or */
    const char *text;        /* this text instead */
    size_t text_length;
    const char *expected;    /* hex of the stuffed bytes, `..` for the plain bytes in between */
};

static void to_hex(const uint8_t *bytes, size_t length, char *text)
{
    for (size_t i = 0; i < length; i++) {
        sprintf(text + 2 * i, "%02x", bytes[i]);
    }
    text[2 * length] = 0;
}

static void check_stuffed(const uint8_t *plain, size_t length, const char *expected)
{
    uint8_t bytes[300];
    char hex[601];
    struct writer w = writer_into(bytes, sizeof bytes, 0, sizeof bytes);
    cobs_begin(&w);
    for (size_t i = 0; i < length; i++) {
        cobs_put(&w, plain[i]);
    }
    cobs_end(&w);
    CHECK(!w.full);
    to_hex(bytes, w.written, hex);
    CHECK_SAME(expected, hex);
}

/* Source: cmcqueen/cobs-python, src/cobs/cobs/test.py (commit 64f8c21), predefined encodings; the method is of
   Cheshire and Baker, Consistent overhead byte stuffing, IEEE/ACM Transactions on Networking 7(2), 1999. */
static void stuffing_gives_the_published_examples(void)
{
    uint8_t ramp[256];
    char hex[601];
    char expected[640];
    for (unsigned i = 0; i < 256; i++) {
        ramp[i] = (uint8_t) i;
    }
    check_stuffed(ramp, 0, "01");
    check_stuffed((const uint8_t *) "\0", 1, "0101");
    check_stuffed((const uint8_t *) "\0\0", 2, "010101");
    check_stuffed((const uint8_t *) "12345", 5, "063132333435");
    check_stuffed((const uint8_t *) "12345\0006789", 10, "0631323334350536373839");
    check_stuffed((const uint8_t *) "\00012345\0006789", 11, "010631323334350536373839");
    check_stuffed((const uint8_t *) "12345\0006789\0", 11, "063132333435053637383901");
    to_hex(ramp + 1, 254, hex);
    sprintf(expected, "ff%s", hex);
    check_stuffed(ramp + 1, 254, expected);
    sprintf(expected, "ff%s02ff", hex);
    check_stuffed(ramp + 1, 255, expected);
    sprintf(expected, "01ff%s02ff", hex);
    check_stuffed(ramp, 256, expected);
}

/* Undoes what dense_begin to dense_end made, checks its CRC, and gives the CBOR in hex. */
static void cbor_of(const uint8_t *bytes, size_t length, char *hex)
{
    uint8_t plain[600];
    size_t count = 0;
    CHECK(bytes[0] == 0 && bytes[length - 1] == 0);
    for (size_t i = 1; i < length - 1;) {
        uint8_t code = bytes[i++];
        for (uint8_t c = 1; c < code; c++) {
            plain[count++] = bytes[i++];
        }
        if (code != 0xFF && i < length - 1) {
            plain[count++] = 0;
        }
    }
    uint32_t crc = (uint32_t) plain[count - 4] << 24 | (uint32_t) plain[count - 3] << 16
                   | (uint32_t) plain[count - 2] << 8 | plain[count - 1];
    CHECK(crc == crc32_of(0, plain, count - 4));
    to_hex(plain, count - 4, hex);
}

/* Source: RFC 8949, appendix A. Each value stands as the one thing after an empty map's head (a0). */
static void dense_values_are_the_cbor_of_the_standard(void)
{
    static const struct {
        uint64_t value;
        const char *hex;
    } numbers[] = {{0, "00"}, {10, "0a"}, {23, "17"}, {24, "1818"}, {100, "1864"}, {1000, "1903e8"},
                   {1000000, "1a000f4240"}, {1000000000000, "1b000000e8d4a51000"},
                   {UINT64_MAX, "1bffffffffffffffff"}};
    uint8_t bytes[200];
    char hex[401];
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        struct writer w = writer_into(bytes, sizeof bytes, 0, sizeof bytes);
        dense_begin(&w, 0);
        dense_unsigned(&w, numbers[i].value);
        CHECK(dense_end(&w));
        cbor_of(bytes, w.written, hex);
        CHECK(strncmp(hex, "a0", 2) == 0);
        CHECK_SAME(numbers[i].hex, hex + 2);
    }
    struct writer w = writer_into(bytes, sizeof bytes, 0, sizeof bytes);
    dense_begin(&w, 0);
    dense_text(&w, "IETF");
    dense_text(&w, "");
    dense_bytes(&w, 4);
    dense_count(&w, 0x0201);
    dense_count(&w, 0x0403);
    dense_array(&w, 3);
    CHECK(dense_end(&w));
    cbor_of(bytes, w.written, hex);
    CHECK_SAME("a06449455446604401020304" "83", hex);
}

static void a_line_that_does_not_fit_leaves_no_trace(void)
{
    for (size_t room = 0; room < 40; room++) {
        uint8_t bytes[64];
        memset(bytes, 0xEE, sizeof bytes);
        struct writer w = writer_into(bytes, sizeof bytes, 60, room);
        json_begin(&w, "x");
        json_integer_member(&w, "t", -5);
        bool fits = json_end(&w);
        CHECK(fits == (room >= 26));
        CHECK(bytes[(60 + room) % 64] == 0xEE);
    }
}

static long bad_lines_after(const char *bytes, size_t length)
{
    fake_greeted(WORKED_POINTS);
    fake_bytes(bytes, length);
    fake_talks();
    CHECK_SAME("", fake_line());
    return (long) fake.bench.bad_lines;
}

/* A line and how many it counts as bad. */
static void bad_lines_are_counted_and_not_answered(void)
{
    CHECK(bad_lines_after("\n\n\n", 3) == 0);
    CHECK(bad_lines_after("x\n", 2) == 1);
    CHECK(bad_lines_after("12345678\n", 9) == 1);
    CHECK(bad_lines_after(" 00000000\n", 10) == 1);
    CHECK(bad_lines_after("{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"} f030ef98\n", 51) == 1);
    CHECK(bad_lines_after("{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"} F030EF99\n", 51) == 1);
    CHECK(bad_lines_after("{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"} f030ef99\r\n", 52) == 1);
    CHECK(bad_lines_after("{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"}f030ef99\n", 50) == 1);
    CHECK(bad_lines_after("123456789 cbf43926\n", 19) == 1);
    CHECK(bad_lines_after("{\"m\":\"ping\"\0,\"id\":3,\"session\":\"5be1c07d\"} f030ef99\n", 52) == 1);
}

static void a_session_or_an_id_that_is_none_drops_the_line(void)
{
    static const char *const lines[] = {
        "{\"m\":\"ping\",\"id\":3}",
        "{\"m\":\"ping\",\"session\":\"5be1c07d\"}",
        "{\"m\":\"ping\",\"id\":3,\"session\":\"5BE1C07D\"}",
        "{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07\"}",
        "{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d0\"}",
        "{\"m\":\"ping\",\"id\":3,\"session\":5}",
        "{\"m\":\"ping\",\"id\":\"3\",\"session\":\"5be1c07d\"}",
        "{\"m\":\"ping\",\"id\":3.0,\"session\":\"5be1c07d\"}",
        "{\"m\":\"ping\",\"id\":3e0,\"session\":\"5be1c07d\"}",
        "{\"m\":\"ping\",\"id\":-3,\"session\":\"5be1c07d\"}",
        "{\"m\":\"ping\",\"id\":9007199254740992,\"session\":\"5be1c07d\"}",
        "{\"m\":\"ping\",\"id\":3,\"id\":4,\"session\":\"5be1c07d\"}",
        "{\"m\":\"ping\",\"id\":2147483648,\"session\":\"5be1c07d\"}",
        "{\"m\":\"beat\",\"k\":1,\"seen-us\":1}",
        "{\"m\":\"beat\",\"session\":\"5be1c07d\",\"seen-us\":1}",
        "{\"m\":\"beat\",\"session\":\"0badcafe\",\"k\":1,\"seen-us\":\"1\"}",
        "{\"m\":\"beat\",\"session\":\"5be1c07d\",\"k\":-1,\"seen-us\":1}"};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        fake_greeted(WORKED_POINTS);
        CHECK_SAME("", fake_answer("%s", lines[i]));
        CHECK(fake.bench.bad_lines == 1);
    }
}

static void a_line_up_to_the_longest_is_taken_and_one_beyond_is_dropped(void)
{
    char blanks[4096];
    for (int length = 4090; length <= 4100; length++) {
        fake_greeted(WORKED_POINTS);
        int rest = (int) strlen("{\"m\":\"ping\",\"id\":3,\"session\":\"5be1c07d\"} f030ef99\n");
        memset(blanks, ' ', sizeof blanks);
        blanks[length - rest] = 0;
        const char *answer = fake_answer("{\"m\":\"ping\",%s\"id\":3,\"session\":\"5be1c07d\"}", blanks);
        CHECK((strstr(answer, "pong") != NULL) == (length <= 4096));
        CHECK(fake.bench.bad_lines == (length <= 4096 ? 0u : 1u));
        answer = fake_answer("{\"m\":\"ping\",\"id\":4,\"session\":\"5be1c07d\"}");
        CHECK(strstr(answer, "\"id\":4") != NULL);
    }
}

static void the_first_byte_of_all_is_a_line_feed(void)
{
    fake_start(WORKED_POINTS);
    const char *wrong = bench_start(&fake.bench, &fake.board, &fake.card);
    CHECK(wrong == NULL);
    fake_forget();
    fake_talks();
    CHECK(fake.out_length == 1 && fake.out[0] == '\n');
}

const struct test framing_tests[] = {TEST(the_crc_has_its_published_check_value),
                                     TEST(stuffing_gives_the_published_examples),
                                     TEST(dense_values_are_the_cbor_of_the_standard),
                                     TEST(a_line_that_does_not_fit_leaves_no_trace),
                                     TEST(bad_lines_are_counted_and_not_answered),
                                     TEST(a_session_or_an_id_that_is_none_drops_the_line),
                                     TEST(a_line_up_to_the_longest_is_taken_and_one_beyond_is_dropped),
                                     TEST(the_first_byte_of_all_is_a_line_feed),
                                     {NULL, NULL}};
