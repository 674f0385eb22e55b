/* Members of a command, found once and read with the word that says what is wrong with them. */
#include "parts.h"

const struct range TIMES = {0, INT64_MAX};
const struct range FROM_0 = {0, INT32_MAX};
const struct range FROM_1 = {1, INT32_MAX};
const struct range ANY_INTEGER = {INT64_MIN, INT64_MAX};

void read_members(struct message *message, struct text text)
{
    static const struct message empty;
    *message = empty;
    message->doubled = MEMBERS;
    struct text name;
    struct text value;
    while (json_next_member(&text, &name, &value)) {
        for (unsigned member = 0; member < MEMBERS; member++) {
            if (!json_is(name, MEMBER_NAMES[member])) {
                continue;
            }
            if (message->value[member].at != NULL) {
                message->doubled = (enum member) member;
            } else {
                message->value[member] = value;
            }
        }
    }
}

struct refusal refused(enum why why, enum member member)
{
    struct refusal refusal = {why, member};
    return refusal;
}

struct refusal accepted(void)
{
    return refused(WHY_NONE, MEMBERS);
}

bool is_refused(struct refusal refusal)
{
    return refusal.why != WHY_NONE;
}

struct refusal need_integer(const struct message *message, enum member member, struct range range, int64_t *out)
{
    bool good = json_integer(message->value[member], out) && *out >= range.least && *out <= range.most;
    return good ? accepted() : refused(WHY_BAD_MESSAGE, member);
}

struct refusal may_integer(const struct message *message, enum member member, struct range range, int64_t *out)
{
    return message->value[member].at == NULL ? accepted() : need_integer(message, member, range, out);
}

struct refusal need_own_boot(const struct bench *b, const struct message *message)
{
    uint32_t boot;
    if (!json_hex8(message->value[MEMBER_BOOT], &boot)) {
        return refused(WHY_BAD_MESSAGE, MEMBER_BOOT);
    }
    return boot == b->boot ? accepted() : refused(WHY_STALE, MEMBER_BOOT);
}

struct refusal need_rest(const struct bench *b)
{
    return b->testing ? refused(WHY_BUSY, MEMBERS) : accepted();
}
