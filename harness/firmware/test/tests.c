/* Runs the tests of the core. Arguments: the contract's path; a seed; a word, to run only the claims that hold it. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"

const char *contract_path;
unsigned long test_seed = 20261124;

static const char *claim;
static unsigned wrong;
static bool claim_told;

static void tell_claim(void)
{
    if (!claim_told) {
        printf("FAILED %s (seed %lu)\n", claim, test_seed);
    }
    claim_told = true;
    wrong++;
}

void check(bool holds, const char *file, int line, const char *what)
{
    if (!holds) {
        tell_claim();
        printf("  %s:%d: does not hold: %s\n", file, line, what);
    }
}

void check_same(const char *expected, const char *found, const char *file, int line)
{
    if (strcmp(expected, found) != 0) {
        tell_claim();
        printf("  %s:%d:\n    expected %s\n    found    %s\n", file, line, expected, found);
    }
}

int main(int count, char **arguments)
{
    static const struct test *const all[] = {framing_tests, json_tests,  worked_tests, session_tests,
                                             id_tests,      safety_tests, limit_tests, set_tests,
                                             stream_tests,  input_tests, fuzz_tests};
    unsigned tests = 0;
    unsigned failed = 0;
    if (count < 2) {
        fprintf(stderr, "usage: core-tests CONTRACT [SEED [WORD]]\n");
        return 64;
    }
    contract_path = arguments[1];
    test_seed = count > 2 ? strtoul(arguments[2], NULL, 10) : test_seed;
    const char *word = count > 3 ? arguments[3] : "";
    for (size_t group = 0; group < sizeof all / sizeof all[0]; group++) {
        for (const struct test *test = all[group]; test->claim != NULL; test++) {
            if (strstr(test->claim, word) == NULL) {
                continue;
            }
            unsigned before = wrong;
            claim = test->claim;
            claim_told = false;
            test->run();
            tests++;
            failed += wrong > before ? 1u : 0u;
        }
    }
    printf("%u tests of the core, %u failed\n", tests, failed);
    return failed > 0 || tests == 0;
}
