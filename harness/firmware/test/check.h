/* A test is a function whose name is a claim; what it finds wrong it reports by CHECK and goes on. */
#ifndef CHECK_H
#define CHECK_H

#include <stdbool.h>

struct test {
    const char *claim;
    void (*run)(void);
};

#define TEST(name) {#name, name}

void check(bool holds, const char *file, int line, const char *what);
void check_same(const char *expected, const char *found, const char *file, int line);

#define CHECK(condition) check((condition), __FILE__, __LINE__, #condition)
#define CHECK_SAME(expected, found) check_same((expected), (found), __FILE__, __LINE__)

/* Where the contract's text lies, and the base of all seeds. */
extern const char *contract_path;
extern unsigned long test_seed;

/* Each ends with a null claim. */
extern const struct test framing_tests[];
extern const struct test json_tests[];
extern const struct test worked_tests[];
extern const struct test session_tests[];
extern const struct test id_tests[];
extern const struct test safety_tests[];
extern const struct test limit_tests[];
extern const struct test set_tests[];
extern const struct test stream_tests[];
extern const struct test input_tests[];
extern const struct test fuzz_tests[];

#endif
