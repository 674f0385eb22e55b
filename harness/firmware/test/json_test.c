/* The reader takes JSON as RFC 8259 has it, and nothing else. */
#include <string.h>

#include "../core/json.h"
#include "check.h"

static bool is_object(const char *text)
{
    struct text whole = {text, strlen(text)};
    return json_is_object(whole);
}

/* Source: RFC 8259, sections 2 to 8 (grammar), and RFC 3629, section 4 (UTF-8). */
static void what_the_grammar_allows_is_taken(void)
{
    static const char *const good[] = {
        "{}", " { } ", "\t{\t\"a\"\t:\t1\t}\t", "{\"a\":[]}", "{\"a\":{}}", "{\"a\":[1,2,3]}", "{\"a\":[[],[{}],{}]}",
        "{\"a\":0}", "{\"a\":-0}", "{\"a\":-1}", "{\"a\":1.5}", "{\"a\":1e5}", "{\"a\":1E+5}", "{\"a\":0.1e-12}",
        "{\"a\":true,\"b\":false,\"c\":null}", "{\"\":\"\"}", "{\"a\":\"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u00e9\\uD834\"}",
        "{\"a\":\"\x7F\"}", "{\"a\":\"\xC3\xA9\"}", "{\"a\":\"\xE2\x82\xAC\"}", "{\"a\":\"\xF0\x9D\x84\x9E\"}",
        "{\"a\":\"\xED\x9F\xBF\xEE\x80\x80\xF4\x8F\xBF\xBF\"}", "{\"a\":1,\"a\":2}"};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        CHECK_SAME(good[i], is_object(good[i]) ? good[i] : "refused");
    }
}

static void what_the_grammar_forbids_is_not_taken(void)
{
    static const char *const bad[] = {
        "", " ", "1", "[]", "\"a\"", "null", "{", "}", "{}{}", "{} x", "{,}", "{\"a\"}", "{\"a\":}", "{\"a\":1,}",
        "{\"a\":1 \"b\":2}", "{a:1}", "{'a':1}", "{\"a\":[1,]}", "{\"a\":[,1]}", "{\"a\":[1 2]}", "{\"a\":[1}",
        "{\"a\":{1]}", "{\"a\":(1)}", "{\"a\":01}", "{\"a\":+1}", "{\"a\":.5}", "{\"a\":1.}", "{\"a\":1e}",
        "{\"a\":-}", "{\"a\":--1}", "{\"a\":0x1}", "{\"a\":NaN}", "{\"a\":Infinity}", "{\"a\":True}", "{\"a\":tru}",
        "{\"a\":truex}", "{\"a\":\"\x01\"}", "{\"a\":\"\\x41\"}", "{\"a\":\"\\u12\"}", "{\"a\":\"\\u12g4\"}",
        "{\"a\":\"\\\"}", "{\"a\":\"b}", "{\"a\":1}\n", "\n{\"a\":1}", "{\"a\":\"\x80\"}", "{\"a\":\"\xC0\x80\"}",
        "{\"a\":\"\xC1\xBF\"}", "{\"a\":\"\xE0\x9F\xBF\"}", "{\"a\":\"\xED\xA0\x80\"}", "{\"a\":\"\xF0\x8F\xBF\xBF\"}",
        "{\"a\":\"\xF4\x90\x80\x80\"}", "{\"a\":\"\xF5\x80\x80\x80\"}", "{\"a\":\"\xC3\"}", "{\"a\":\"\xE2\x82\"}",
        "{/**/}", "{\"a\":1}}", "{\"a\":[[1]}"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        CHECK_SAME("refused", is_object(bad[i]) ? bad[i] : "refused");
    }
}

static void nesting_is_taken_up_to_its_bound(void)
{
    for (unsigned depth = 60; depth < 70; depth++) {
        char text[300] = "{\"a\":";
        size_t length = strlen(text);
        memset(text + length, '[', depth - 1);
        memset(text + length + depth - 1, ']', depth - 1);
        text[length + 2 * (depth - 1)] = '}';
        CHECK(is_object(text) == (depth <= JSON_DEPTH_MAX));
    }
}

static struct text value_of(const char *object)
{
    struct text rest = {object, strlen(object)};
    struct text name;
    struct text value = {NULL, 0};
    CHECK(json_is_object(rest));
    CHECK(json_next_member(&rest, &name, &value));
    CHECK(json_is(name, "a"));
    CHECK(!json_next_member(&rest, &name, &name));
    return value;
}

static void integers_are_read_up_to_fifty_three_bits(void)
{
    int64_t number = 7;
    CHECK(json_integer(value_of("{\"a\":0}"), &number) && number == 0);
    CHECK(json_integer(value_of("{\"a\" : -12 }"), &number) && number == -12);
    CHECK(json_integer(value_of("{\"a\":9007199254740991}"), &number) && number == 9007199254740991);
    CHECK(json_integer(value_of("{\"a\":-9007199254740991}"), &number) && number == -9007199254740991);
    CHECK(!json_integer(value_of("{\"a\":9007199254740992}"), &number));
    CHECK(!json_integer(value_of("{\"a\":99999999999999999999999999}"), &number));
    CHECK(!json_integer(value_of("{\"a\":1.0}"), &number));
    CHECK(!json_integer(value_of("{\"a\":1e2}"), &number));
    CHECK(!json_integer(value_of("{\"a\":\"1\"}"), &number));
    CHECK(!json_integer(value_of("{\"a\":null}"), &number));
    CHECK(!json_integer(value_of("{\"a\":[1]}"), &number));
}

static void names_are_read_through_their_escapes(void)
{
    char name[BENCH_NAME_MAX + 1];
    CHECK(json_name(value_of("{\"\\u0061\":\"P\\u0031\"}"), name));
    CHECK_SAME("P1", name);
    CHECK(json_name(value_of("{\"a\":\"12345678901234567890123456789012\"}"), name));
    CHECK(!json_name(value_of("{\"a\":\"123456789012345678901234567890123\"}"), name));
    CHECK(!json_name(value_of("{\"a\":\"\"}"), name));
    CHECK(!json_name(value_of("{\"a\":\"P_1\"}"), name));
    CHECK(!json_name(value_of("{\"a\":\"P\\u00001\"}"), name));
    CHECK(!json_name(value_of("{\"a\":\"P\xC3\xA9\"}"), name));
    CHECK(!json_name(value_of("{\"a\":1}"), name));
    CHECK(json_is(value_of("{\"a\":\"s\\u0061fe\"}"), "safe"));
    CHECK(!json_is(value_of("{\"a\":\"saf\"}"), "safe"));
    CHECK(!json_is(value_of("{\"a\":\"safer\"}"), "safe"));
    CHECK(!json_is(value_of("{\"a\":\"saf\\u0165\"}"), "safe"));
}

static void hex_is_eight_lower_case_digits(void)
{
    uint32_t hex = 0;
    CHECK(json_hex8(value_of("{\"a\":\"0123cdef\"}"), &hex) && hex == 0x0123cdef);
    CHECK(!json_hex8(value_of("{\"a\":\"0123CDEF\"}"), &hex));
    CHECK(!json_hex8(value_of("{\"a\":\"0123cde\"}"), &hex));
    CHECK(!json_hex8(value_of("{\"a\":\"0123cdefa\"}"), &hex));
    CHECK(!json_hex8(value_of("{\"a\":\"0123cdeg\"}"), &hex));
}

static void members_and_elements_are_walked_over_what_they_hold(void)
{
    const char *object = "{ \"a\" : {\"x\":\"}],:\\\"\"} , \"b\":[1 , [2,{}] ,\"]\"],\"c\":-1.5e3}";
    struct text rest = {object, strlen(object)};
    struct text name;
    struct text value;
    struct text element;
    CHECK(json_is_object(rest));
    CHECK(json_next_member(&rest, &name, &value) && json_is(name, "a") && json_is_object_value(value));
    CHECK(json_next_member(&rest, &name, &value) && json_is(name, "b") && json_is_array_value(value));
    CHECK(json_next_element(&value, &element) && element.length == 1);
    CHECK(json_next_element(&value, &element) && element.length == 6);
    CHECK(json_next_element(&value, &element) && json_is(element, "]"));
    CHECK(!json_next_element(&value, &element));
    CHECK(json_next_member(&rest, &name, &value) && json_is(name, "c") && value.length == 6);
    CHECK(!json_next_member(&rest, &name, &value));
}

const struct test json_tests[] = {TEST(what_the_grammar_allows_is_taken),
                                  TEST(what_the_grammar_forbids_is_not_taken),
                                  TEST(nesting_is_taken_up_to_its_bound),
                                  TEST(integers_are_read_up_to_fifty_three_bits),
                                  TEST(names_are_read_through_their_escapes),
                                  TEST(hex_is_eight_lower_case_digits),
                                  TEST(members_and_elements_are_walked_over_what_they_hold),
                                  {NULL, NULL}};
