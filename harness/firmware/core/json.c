#include "json.h"

#include <string.h>

struct scan {
    const unsigned char *at;
    const unsigned char *end;
    uint64_t objects;  /* bit d: what is open at depth d is an object, else an array */
    unsigned depth;
};

static bool is_digit(unsigned char c)
{
    return c >= '0' && c <= '9';
}

static int hex_value(unsigned char c)
{
    if (is_digit(c)) {
        return c - '0';
    }
    if (c >= 'a' && c <= 'f') {
        return c - 'a' + 10;
    }
    if (c >= 'A' && c <= 'F') {
        return c - 'A' + 10;
    }
    return -1;
}

static int peek(const struct scan *s)
{
    return s->at < s->end ? *s->at : -1;
}

static bool take(struct scan *s, int c)
{
    if (peek(s) != c) {
        return false;
    }
    s->at++;
    return true;
}

static void skip_space(struct scan *s)
{
    while (take(s, ' ') || take(s, '\t')) {
    }
}

static bool take_digits(struct scan *s)
{
    const unsigned char *from = s->at;
    while (s->at < s->end && is_digit(*s->at)) {
        s->at++;
    }
    return s->at > from;
}

static bool scan_number(struct scan *s)
{
    (void) take(s, '-');
    if (!take(s, '0') && !take_digits(s)) {
        return false;
    }
    if (take(s, '.') && !take_digits(s)) {
        return false;
    }
    if (take(s, 'e') || take(s, 'E')) {
        (void) (take(s, '+') || take(s, '-'));
        return take_digits(s);
    }
    return true;
}

static bool scan_escape(struct scan *s)
{
    s->at++;
    int c = peek(s);
    if (c < 0) {
        return false;
    }
    s->at++;
    if (c != 'u') {
        return strchr("\"\\/bfnrt", c) != NULL && c != 0;
    }
    for (int i = 0; i < 4; i++) {
        if (peek(s) < 0 || hex_value(*s->at) < 0) {
            return false;
        }
        s->at++;
    }
    return true;
}

/* RFC 3629, section 4: well-formed sequences only. */
static bool scan_utf8(struct scan *s)
{
    unsigned char lead = *s->at++;
    unsigned char low = 0x80;
    unsigned char high = 0xBF;
    int more;
    if (lead >= 0xC2 && lead <= 0xDF) {
        more = 1;
    } else if (lead >= 0xE0 && lead <= 0xEF) {
        more = 2;
        low = lead == 0xE0 ? 0xA0 : low;
        high = lead == 0xED ? 0x9F : high;
    } else if (lead >= 0xF0 && lead <= 0xF4) {
        more = 3;
        low = lead == 0xF0 ? 0x90 : low;
        high = lead == 0xF4 ? 0x8F : high;
    } else {
        return false;
    }
    for (; more > 0; more--) {
        int c = peek(s);
        if (c < low || c > high) {
            return false;
        }
        s->at++;
        low = 0x80;
        high = 0xBF;
    }
    return true;
}

static bool scan_string(struct scan *s)
{
    if (!take(s, '"')) {
        return false;
    }
    while (s->at < s->end) {
        unsigned char c = *s->at;
        if (c == '"') {
            s->at++;
            return true;
        }
        if (c < 0x20) {
            return false;
        }
        if (c == '\\') {
            if (!scan_escape(s)) {
                return false;
            }
        } else if (c < 0x80) {
            s->at++;
        } else if (!scan_utf8(s)) {
            return false;
        }
    }
    return false;
}

static bool scan_word(struct scan *s, const char *word)
{
    size_t length = strlen(word);
    if ((size_t) (s->end - s->at) < length || memcmp(s->at, word, length) != 0) {
        return false;
    }
    s->at += length;
    return true;
}

static bool scan_scalar(struct scan *s)
{
    int c = peek(s);
    if (c == '"') {
        return scan_string(s);
    }
    if (c == '-' || (c >= '0' && c <= '9')) {
        return scan_number(s);
    }
    return scan_word(s, "true") || scan_word(s, "false") || scan_word(s, "null");
}

static bool open_value(struct scan *s, bool object)
{
    if (s->depth == JSON_DEPTH_MAX) {
        return false;
    }
    uint64_t bit = (uint64_t) 1 << s->depth;
    s->objects = object ? s->objects | bit : s->objects & ~bit;
    s->depth++;
    s->at++;
    skip_space(s);
    return true;
}

static bool in_object(const struct scan *s)
{
    return (s->objects >> (s->depth - 1) & 1) != 0;
}

static bool scan_member_name(struct scan *s)
{
    skip_space(s);
    if (!scan_string(s)) {
        return false;
    }
    skip_space(s);
    return take(s, ':');
}

/* After a value: closes what ends here. `more` says whether another value is due. */
static bool scan_after_value(struct scan *s, bool *more)
{
    *more = false;
    while (s->depth > 0) {
        skip_space(s);
        if (take(s, ',')) {
            *more = true;
            return !in_object(s) || scan_member_name(s);
        }
        if (!take(s, in_object(s) ? '}' : ']')) {
            return false;
        }
        s->depth--;
    }
    return true;
}

/* A value, or its opening bracket where it is not empty: then `inside` is true and the first value in it is due. */
static bool scan_value(struct scan *s, bool *inside)
{
    *inside = false;
    skip_space(s);
    int c = peek(s);
    if (c != '{' && c != '[') {
        return scan_scalar(s);
    }
    bool object = c == '{';
    if (!open_value(s, object)) {
        return false;
    }
    if (take(s, object ? '}' : ']')) {
        s->depth--;
        return true;
    }
    *inside = true;
    return !object || scan_member_name(s);
}

bool json_is_object(struct text text)
{
    struct scan s = {(const unsigned char *) text.at, (const unsigned char *) text.at + text.length, 0, 0};
    skip_space(&s);
    if (peek(&s) != '{') {
        return false;
    }
    bool more = true;
    while (more) {
        bool inside;
        if (!scan_value(&s, &inside)) {
            return false;
        }
        if (!inside && !scan_after_value(&s, &more)) {
            return false;
        }
    }
    skip_space(&s);
    return s.at == s.end;
}
