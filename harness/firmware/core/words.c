#include "words.h"

const char *const WHY_WORDS[] = {
    "",      "wrong-link",  "no-session", "busy", "stale",   "bad-message",   "unsupported", "not-armed",
    "armed", "stop-button", "fault",      "late", "too-far", "unknown-point", "wrong-kind",  "out-of-range",
    "limit", "queue-full",  "safe"};

const char *const CAUSE_WORDS[] = {"host", "beat-lost", "limit", "stop-button", "fault"};

const char *const TROUBLE_WORDS[] = {"over-range", "open-loop", "supply", "overrun", "self-test", "not-readable"};

/* In the order of enum bench_kind. */
const char *const KIND_WORDS[] = {
    "analog-in", "analog-out", "digital-in", "digital-out", "pulse-out", "pwm-out", "counter-in"};

const char *const MEMBER_NAMES[] = {
    "m",     "id",   "session",  "link",    "host",   "name",  "points",  "every-us", "batch",  "flush-ms",
    "dense", "boot", "until-us", "beat-ms", "limits", "at-us", "over-us", "k",        "seen-us"};
