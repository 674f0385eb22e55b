/*
 * Writes messages for the line: JSON lines with their CRC, and dense messages (CBOR, CRC, COBS). Bytes go into memory
 * given by the caller, circular or not. Where the room does not suffice the writer says so at the end, and the caller
 * takes nothing of it.
 */
#ifndef BENCH_WRITER_H
#define BENCH_WRITER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* CRC-32 (ISO-HDLC): reflected 0x04C11DB7, initial and final value all ones. Begin with 0. */
uint32_t crc32_of(uint32_t crc, const void *bytes, size_t length);

struct writer {
    uint8_t *to;
    size_t size;     /* bytes of `to`; after the last comes the first */
    size_t at;       /* next byte's place */
    size_t room;     /* bytes that may still be written */
    size_t written;
    uint32_t crc;
    bool full;
    bool comma;      /* the next member or element needs one before it */
    size_t code_at;  /* COBS: place of the open block's code */
    uint8_t code;    /* COBS: the open block's code so far; 0: none is open */
};

struct writer writer_into(uint8_t *to, size_t size, size_t at, size_t room);

/* A JSON line. Names and texts are written as they are: they hold nothing that JSON would escape. */
void json_begin(struct writer *w, const char *m);
void json_integer_member(struct writer *w, const char *name, int64_t value);
void json_unsigned_member(struct writer *w, const char *name, uint64_t value);
void json_text_member(struct writer *w, const char *name, const char *value);
void json_hex8_member(struct writer *w, const char *name, uint32_t value);
void json_boolean_member(struct writer *w, const char *name, bool value);
void json_open_member(struct writer *w, const char *name, char bracket);
void json_open(struct writer *w, char bracket);
void json_close(struct writer *w, char bracket);
void json_text(struct writer *w, const char *value);
void json_number(struct writer *w, int64_t value);

/* Closes the object and writes space, CRC and line feed. False: it did not fit. */
bool json_end(struct writer *w);

/* Consistent overhead byte stuffing of whatever is put between begin and end. */
void cobs_begin(struct writer *w);
void cobs_put(struct writer *w, uint8_t byte);
void cobs_end(struct writer *w);

/* A dense message: a CBOR map of that many members, opened by its zero byte. */
void dense_begin(struct writer *w, unsigned members);
void dense_text(struct writer *w, const char *value);
void dense_unsigned(struct writer *w, uint64_t value);
void dense_hex8(struct writer *w, uint32_t value);
void dense_array(struct writer *w, size_t elements);
void dense_bytes(struct writer *w, size_t length);
void dense_count(struct writer *w, int16_t count);
bool dense_end(struct writer *w);

#endif
