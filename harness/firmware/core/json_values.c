/* Values of JSON text that json_is_object has found sound. */
#include "json.h"

#include <string.h>

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Of a hex digit. */
static int32_t hex_value(char c)
{
    return is_digit(c) ? c - '0' : (c | 0x20) - 'a' + 10;
}

static bool is_one_of(char c, const char *some)
{
    return c != 0 && strchr(some, c) != NULL;
}

/* Past the string that begins at `from`. */
static const char *string_end(const char *from)
{
    const char *at = from + 1;
    while (*at != '"') {
        at += *at == '\\' ? 2 : 1;
    }
    return at + 1;
}

/* Past the value that begins at `from`. */
static const char *value_end(const char *from, const char *end)
{
    const char *at = from;
    unsigned depth = 0;
    do {
        if (*at == '"') {
            at = string_end(at);
        } else if (is_one_of(*at, "{[")) {
            depth++;
            at++;
        } else if (is_one_of(*at, "}]")) {
            depth--;
            at++;
        } else {
            at++;
        }
    } while (depth > 0 || (!is_one_of(*from, "\"{[") && at < end && !is_one_of(*at, ",:}] \t")));
    return at;
}

static const char *past_space(const char *at, const char *end)
{
    while (at < end && is_one_of(*at, " \t")) {
        at++;
    }
    return at;
}

static struct text taken(const char **at, const char *end)
{
    struct text value = {*at, 0};
    *at = value_end(*at, end);
    value.length = (size_t) (*at - value.at);
    return value;
}

static bool next(struct text *rest, struct text *name, struct text *value)
{
    if (rest->at == NULL) {
        return false;
    }
    const char *end = rest->at + rest->length;
    const char *at = past_space(rest->at, end);
    if (at == end || !is_one_of(*at, "{[,")) {
        return false;
    }
    at = past_space(at + 1, end);
    if (is_one_of(*at, "}]")) {
        return false;
    }
    if (name != NULL) {
        *name = taken(&at, end);
        at = past_space(past_space(at, end) + 1, end);
    }
    *value = taken(&at, end);
    *rest = (struct text) {at, (size_t) (end - at)};
    return true;
}

bool json_next_member(struct text *rest, struct text *name, struct text *value)
{
    return next(rest, name, value);
}

bool json_next_element(struct text *rest, struct text *value)
{
    return next(rest, NULL, value);
}

static bool starts(struct text value, char c)
{
    return value.at != NULL && value.length > 0 && value.at[0] == c;
}

bool json_is_object_value(struct text value)
{
    return starts(value, '{');
}

bool json_is_array_value(struct text value)
{
    return starts(value, '[');
}

bool json_is_string_value(struct text value)
{
    return starts(value, '"');
}

bool json_is_null(struct text value)
{
    return starts(value, 'n');
}

bool json_boolean(struct text value, bool *out)
{
    *out = starts(value, 't');
    return *out || starts(value, 'f');
}

bool json_integer(struct text value, int64_t *out)
{
    int64_t limit = (int64_t) 1 << 53;
    int64_t sum = 0;
    size_t i = starts(value, '-') ? 1 : 0;
    if (value.at == NULL || i == value.length) {
        return false;
    }
    for (; i < value.length; i++) {
        if (!is_digit(value.at[i])) {
            return false;
        }
        sum = sum * 10 + (value.at[i] - '0');
        if (sum >= limit) {
            return false;
        }
    }
    *out = starts(value, '-') ? -sum : sum;
    return true;
}

/* Next character of a string value: an escaped one resolved, a byte of UTF-8 as it stands; -1 at the end. */
static int32_t next_character(const char **at)
{
    static const char escapes[] = "\"\\/bfnrt";
    static const char meant[] = "\"\\/\b\f\n\r\t";
    char c = *(*at)++;
    if (c == '"') {
        return -1;
    }
    if (c != '\\') {
        return (unsigned char) c;
    }
    c = *(*at)++;
    if (c != 'u') {
        return meant[strchr(escapes, c) - escapes];
    }
    int32_t code = 0;
    for (int i = 0; i < 4; i++) {
        code = code * 16 + hex_value(*(*at)++);
    }
    return code;
}

bool json_is(struct text value, const char *ascii)
{
    if (!json_is_string_value(value)) {
        return false;
    }
    const char *at = value.at + 1;
    int32_t c = next_character(&at);
    for (; c >= 0 && *ascii != 0; c = next_character(&at)) {
        if (c != (unsigned char) *ascii++) {
            return false;
        }
    }
    return c < 0 && *ascii == 0;
}

static bool is_name_character(int32_t c)
{
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

bool json_name(struct text value, char name[BENCH_NAME_MAX + 1])
{
    if (!json_is_string_value(value)) {
        return false;
    }
    const char *at = value.at + 1;
    size_t length = 0;
    for (int32_t c = next_character(&at); c >= 0; c = next_character(&at)) {
        if (length == BENCH_NAME_MAX || !is_name_character(c)) {
            return false;
        }
        name[length++] = (char) c;
    }
    name[length] = 0;
    return length > 0;
}

bool json_hex8(struct text value, uint32_t *out)
{
    char name[BENCH_NAME_MAX + 1];
    if (!json_name(value, name) || strlen(name) != 8) {
        return false;
    }
    *out = 0;
    for (int i = 0; i < 8; i++) {
        if (!is_one_of(name[i], "0123456789abcdef")) {
            return false;
        }
        *out = *out << 4 | (uint32_t) hex_value(name[i]);
    }
    return true;
}
