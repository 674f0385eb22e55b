/*
 * How much a bench can hold. All memory of the core is one struct bench of fixed size; these figures set it.
 * Change them for a board by -DBENCH_...=n on the compiler's command line.
 */
#ifndef BENCH_SIZES_H
#define BENCH_SIZES_H

/* Points of all kinds, and outputs among them (at most 64). */
#ifndef BENCH_POINTS_MAX
#define BENCH_POINTS_MAX 32
#endif
#ifndef BENCH_OUTPUTS_MAX
#define BENCH_OUTPUTS_MAX 16
#endif

/* Timed sets that wait for their moment: the contract's `queue`. */
#ifndef BENCH_QUEUE
#define BENCH_QUEUE 16
#endif

/* Events made but not yet written into the outgoing bytes. Must hold one whole disarming. */
#ifndef BENCH_EVENTS
#define BENCH_EVENTS 128
#endif

/* Outgoing answers and events, in bytes. Must hold the `bench` line and a `state` line together. */
#ifndef BENCH_OUT_BYTES
#define BENCH_OUT_BYTES 4096
#endif

/* Longest `samples` message, in bytes; the contract allows 16384. */
#ifndef BENCH_SAMPLES_BYTES
#define BENCH_SAMPLES_BYTES 4096
#endif

/* Sample memory of one stream, in words of 32 bit: two for the time and one for each point of a sample. */
#ifndef BENCH_RING_WORDS
#define BENCH_RING_WORDS 512
#endif

/* Memories for streams: four that run, and those whose last samples still wait for the line. */
#ifndef BENCH_RINGS
#define BENCH_RINGS 6
#endif

/* Points of one stream. */
#ifndef BENCH_STREAM_POINTS_MAX
#define BENCH_STREAM_POINTS_MAX 16
#endif

/* Closed batches that wait for the line. */
#ifndef BENCH_WAITING
#define BENCH_WAITING 32
#endif

/* What the contract fixes. */
#define BENCH_MAX_LINE 4096u      /* bytes of a line from the host, with CRC and line feed: the least allowed */
#define BENCH_LINE_LIMIT 16384u   /* bytes of a line to the host, with CRC and line feed */
#define BENCH_STREAMS_MAX 4u      /* streams that run at once */
#define BENCH_REMEMBERED 256u     /* answers kept for repeats */
#define BENCH_ENDED_SESSIONS 16u  /* ended sessions kept */
#define BENCH_NAME_MAX 32u        /* characters of a name */

#if BENCH_OUTPUTS_MAX > 64
#error "a set names its outputs in 64 bits"
#endif
#if BENCH_POINTS_MAX > 255
#error "a point's number is one byte"
#endif
#if BENCH_EVENTS < BENCH_OUTPUTS_MAX + BENCH_QUEUE + 32
#error "the events of one disarming must fit"
#endif
#if BENCH_SAMPLES_BYTES > 16384
#error "the contract allows 16384 bytes a line"
#endif
#if BENCH_RINGS < 5
#error "four streams and one that ends"
#endif

#endif
