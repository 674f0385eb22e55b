/* The words of the contract, as numbers inside and as text on the line. */
#ifndef BENCH_WORDS_H
#define BENCH_WORDS_H

/* Why a command was refused. */
enum why {
    WHY_NONE,
    WHY_WRONG_LINK,
    WHY_NO_SESSION,
    WHY_BUSY,
    WHY_STALE,
    WHY_BAD_MESSAGE,
    WHY_UNSUPPORTED,
    WHY_NOT_ARMED,
    WHY_ARMED,
    WHY_STOP_BUTTON,
    WHY_FAULT,
    WHY_LATE,
    WHY_TOO_FAR,
    WHY_UNKNOWN_POINT,
    WHY_WRONG_KIND,
    WHY_OUT_OF_RANGE,
    WHY_LIMIT,
    WHY_QUEUE_FULL,
    WHY_SAFE
};

/* Why an armed bench became safe. */
enum cause { CAUSE_HOST, CAUSE_BEAT_LOST, CAUSE_LIMIT, CAUSE_STOP_BUTTON, CAUSE_FAULT };

/* What a `fault` is about. */
enum trouble {
    TROUBLE_OVER_RANGE,
    TROUBLE_OPEN_LOOP,
    TROUBLE_SUPPLY,
    TROUBLE_OVERRUN,
    TROUBLE_SELF_TEST,
    TROUBLE_NOT_READABLE  /* ours: the contract leaves its list open */
};

/* Members that the bench reads. */
enum member {
    MEMBER_M,
    MEMBER_ID,
    MEMBER_SESSION,
    MEMBER_LINK,
    MEMBER_HOST,
    MEMBER_NAME,
    MEMBER_POINTS,
    MEMBER_EVERY_US,
    MEMBER_BATCH,
    MEMBER_FLUSH_MS,
    MEMBER_DENSE,
    MEMBER_BOOT,
    MEMBER_UNTIL_US,
    MEMBER_BEAT_MS,
    MEMBER_LIMITS,
    MEMBER_AT_US,
    MEMBER_OVER_US,
    MEMBER_K,
    MEMBER_SEEN_US,
    MEMBERS
};

extern const char *const WHY_WORDS[];
extern const char *const CAUSE_WORDS[];
extern const char *const TROUBLE_WORDS[];
extern const char *const KIND_WORDS[];
extern const char *const MEMBER_NAMES[];

#endif
