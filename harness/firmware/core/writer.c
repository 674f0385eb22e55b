#include "writer.h"

#include <string.h>

/* Four bits at a time: a table of 64 bytes, not of 1024. */
static const uint32_t CRC_OF_NIBBLE[16] = {
    0x00000000, 0x1DB71064, 0x3B6E20C8, 0x26D930AC, 0x76DC4190, 0x6B6B51F4, 0x4DB26158, 0x5005713C,
    0xEDB88320, 0xF00F9344, 0xD6D6A3E8, 0xCB61B38C, 0x9B64C2B0, 0x86D3D2D4, 0xA00AE278, 0xBDBDF21C};

static uint32_t crc_step(uint32_t crc, uint8_t byte)
{
    crc ^= byte;
    crc = crc >> 4 ^ CRC_OF_NIBBLE[crc & 15];
    return crc >> 4 ^ CRC_OF_NIBBLE[crc & 15];
}

uint32_t crc32_of(uint32_t crc, const void *bytes, size_t length)
{
    const uint8_t *at = bytes;
    crc = ~crc;
    while (length-- > 0) {
        crc = crc_step(crc, *at++);
    }
    return ~crc;
}

struct writer writer_into(uint8_t *to, size_t size, size_t at, size_t room)
{
    struct writer w = {to, size, at, room, 0, 0xFFFFFFFFu, false, false, 0, 0};
    return w;
}

static void put(struct writer *w, uint8_t byte)
{
    if (w->room == 0) {
        w->full = true;
        return;
    }
    w->to[w->at] = byte;
    w->at = w->at + 1 == w->size ? 0 : w->at + 1;
    w->room--;
    w->written++;
}

/* JSON lines. */

static void put_character(struct writer *w, char c)
{
    w->crc = crc_step(w->crc, (uint8_t) c);
    put(w, (uint8_t) c);
}

static void put_text(struct writer *w, const char *text)
{
    while (*text != 0) {
        put_character(w, *text++);
    }
}

static void put_quoted(struct writer *w, const char *text)
{
    put_character(w, '"');
    put_text(w, text);
    put_character(w, '"');
}

static void put_unsigned(struct writer *w, uint64_t value)
{
    char digits[20];
    size_t count = 0;
    do {
        digits[count++] = (char) ('0' + value % 10);
        value /= 10;
    } while (value > 0);
    while (count > 0) {
        put_character(w, digits[--count]);
    }
}

static void put_integer(struct writer *w, int64_t value)
{
    if (value < 0) {
        put_character(w, '-');
    }
    put_unsigned(w, value < 0 ? 0 - (uint64_t) value : (uint64_t) value);
}

static void hex8(uint32_t value, char text[9])
{
    for (int i = 0; i < 8; i++) {
        text[i] = "0123456789abcdef"[value >> (28 - 4 * i) & 15];
    }
    text[8] = 0;
}

static void put_separator(struct writer *w)
{
    if (w->comma) {
        put_character(w, ',');
    }
    w->comma = true;
}

static void put_name(struct writer *w, const char *name)
{
    put_separator(w);
    put_quoted(w, name);
    put_character(w, ':');
}

void json_begin(struct writer *w, const char *m)
{
    put_character(w, '{');
    w->comma = false;
    json_text_member(w, "m", m);
}

void json_integer_member(struct writer *w, const char *name, int64_t value)
{
    put_name(w, name);
    put_integer(w, value);
}

void json_unsigned_member(struct writer *w, const char *name, uint64_t value)
{
    put_name(w, name);
    put_unsigned(w, value);
}

void json_text_member(struct writer *w, const char *name, const char *value)
{
    put_name(w, name);
    put_quoted(w, value);
}

void json_hex8_member(struct writer *w, const char *name, uint32_t value)
{
    char text[9];
    hex8(value, text);
    json_text_member(w, name, text);
}

void json_boolean_member(struct writer *w, const char *name, bool value)
{
    put_name(w, name);
    put_text(w, value ? "true" : "false");
}

void json_open_member(struct writer *w, const char *name, char bracket)
{
    put_name(w, name);
    put_character(w, bracket);
    w->comma = false;
}

void json_open(struct writer *w, char bracket)
{
    put_separator(w);
    put_character(w, bracket);
    w->comma = false;
}

void json_close(struct writer *w, char bracket)
{
    put_character(w, bracket);
    w->comma = true;
}

void json_text(struct writer *w, const char *value)
{
    put_separator(w);
    put_quoted(w, value);
}

void json_number(struct writer *w, int64_t value)
{
    put_separator(w);
    put_integer(w, value);
}

bool json_end(struct writer *w)
{
    char crc[9];
    put_character(w, '}');
    hex8(~w->crc, crc);
    put(w, ' ');
    for (int i = 0; i < 8; i++) {
        put(w, (uint8_t) crc[i]);
    }
    put(w, '\n');
    return !w->full;
}

/* Dense messages: CBOR (RFC 8949, deterministic heads) through COBS, whose code byte is set when its block ends. */

void cobs_end(struct writer *w)
{
    if (w->code > 0 && !w->full) {
        w->to[w->code_at] = w->code;
    }
    w->code = 0;
}

void cobs_begin(struct writer *w)
{
    w->code_at = w->at;
    w->code = 1;
    put(w, 0);
}

/* A block is opened only when a byte comes for it: 254 bytes other than zero end without a further code. */
void cobs_put(struct writer *w, uint8_t byte)
{
    if (w->code == 0) {
        cobs_begin(w);
    }
    if (byte == 0) {
        cobs_end(w);
        cobs_begin(w);
        return;
    }
    put(w, byte);
    if (++w->code == 0xFF) {
        cobs_end(w);
    }
}

static void put_dense(struct writer *w, uint8_t byte)
{
    w->crc = crc_step(w->crc, byte);
    cobs_put(w, byte);
}

static void put_head(struct writer *w, unsigned major, uint64_t value)
{
    unsigned bytes = value < 24 ? 0 : value < 0x100 ? 1 : value < 0x10000 ? 2 : value < 0x100000000u ? 4 : 8;
    unsigned low = bytes == 0 ? (unsigned) value : bytes == 1 ? 24 : bytes == 2 ? 25 : bytes == 4 ? 26 : 27;
    put_dense(w, (uint8_t) (major << 5 | low));
    while (bytes > 0) {
        bytes--;
        put_dense(w, (uint8_t) (value >> (8 * bytes)));
    }
}

void dense_begin(struct writer *w, unsigned members)
{
    put(w, 0);
    cobs_begin(w);
    put_head(w, 5, members);
}

void dense_text(struct writer *w, const char *value)
{
    put_head(w, 3, strlen(value));
    while (*value != 0) {
        put_dense(w, (uint8_t) *value++);
    }
}

void dense_unsigned(struct writer *w, uint64_t value)
{
    put_head(w, 0, value);
}

void dense_hex8(struct writer *w, uint32_t value)
{
    char text[9];
    hex8(value, text);
    dense_text(w, text);
}

void dense_array(struct writer *w, size_t elements)
{
    put_head(w, 4, elements);
}

void dense_bytes(struct writer *w, size_t length)
{
    put_head(w, 2, length);
}

void dense_count(struct writer *w, int16_t count)
{
    uint16_t bits = (uint16_t) count;
    put_dense(w, (uint8_t) (bits & 0xFF));
    put_dense(w, (uint8_t) (bits >> 8));
}

bool dense_end(struct writer *w)
{
    uint32_t crc = ~w->crc;
    for (int shift = 24; shift >= 0; shift -= 8) {
        cobs_put(w, (uint8_t) (crc >> shift));
    }
    cobs_end(w);
    put(w, 0);
    return !w->full;
}
