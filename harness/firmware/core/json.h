/* JSON (RFC 8259, UTF-8) as the host sends it: checked whole and strictly, then walked in place. Nothing is copied. */
#ifndef BENCH_JSON_H
#define BENCH_JSON_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "sizes.h"

/* Objects and arrays inside each other; text nested deeper is not taken. */
#define JSON_DEPTH_MAX 64u

/* A piece of a message, without a zero at its end. A member that is not there has `at` null. */
struct text {
    const char *at;
    size_t length;
};

/* Whether the text is one JSON object and nothing else. Line breaks are not taken, not even between its parts. */
bool json_is_object(struct text text);

/* What follows expects text that passed json_is_object, or values out of such text. */

/* Next member of an object or next element of an array. Begin with the whole value; each call shortens `rest`. */
bool json_next_member(struct text *rest, struct text *name, struct text *value);
bool json_next_element(struct text *rest, struct text *value);

bool json_is_object_value(struct text value);
bool json_is_array_value(struct text value);
bool json_is_string_value(struct text value);
bool json_is_null(struct text value);
bool json_boolean(struct text value, bool *out);

/* An integer, written as one (no fraction, no exponent), of a magnitude below 2^53. */
bool json_integer(struct text value, int64_t *out);

/* Whether the value is the string given, which is ASCII. Escapes in the value are resolved. */
bool json_is(struct text value, const char *ascii);

/* A string that matches [A-Za-z0-9-]{1,32}. */
bool json_name(struct text value, char name[BENCH_NAME_MAX + 1]);

/* A string of exactly eight lower-case hex digits. */
bool json_hex8(struct text value, uint32_t *out);

#endif
