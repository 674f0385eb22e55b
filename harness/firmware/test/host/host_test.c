/*
 * The bench for this machine as a process: greeted, armed, driven and left alone over its pseudo-terminal, by a host
 * of a few lines that shares nothing with it (the CRC here goes bit by bit). Arguments: the bench, the folder of its
 * points.
 */
#define _XOPEN_SOURCE 700

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

#define PATIENCE_MS 3000

static pid_t bench;
static int device = -1;
static unsigned failed;
static char boot[9];

static void check(bool holds, int line, const char *what)
{
    if (!holds) {
        printf("FAILED test/host/host_test.c:%d: does not hold: %s\n", line, what);
        failed++;
    }
}

#define CHECK(condition) check((condition), __LINE__, #condition)

static uint32_t crc_of(const char *text)
{
    uint32_t crc = 0xFFFFFFFF;
    for (; *text != 0; text++) {
        crc ^= (unsigned char) *text;
        for (int bit = 0; bit < 8; bit++) {
            crc = (crc & 1) != 0 ? crc >> 1 ^ 0xEDB88320 : crc >> 1;
        }
    }
    return ~crc;
}

static void say(const char *text)
{
    char line[2100];
    int length = snprintf(line, sizeof line, "\n%s %08lx\n", text, (unsigned long) crc_of(text));
    CHECK(write(device, line, (size_t) length) == length);
}

/* Next line, or "" when none comes. */
static const char *hear(void)
{
    static char line[20000];
    size_t length = 0;
    struct pollfd waited = {device, POLLIN, 0};
    while (length + 1 < sizeof line && poll(&waited, 1, PATIENCE_MS) > 0 && read(device, line + length, 1) == 1) {
        if (line[length] != '\n') {
            length++;
        } else if (length > 0) {
            line[length] = 0;
            char crc[9];
            strcpy(crc, length > 9 ? line + length - 8 : "");
            line[length > 9 ? length - 9 : 0] = 0;
            CHECK(strtoul(crc, NULL, 16) == crc_of(line));
            return line;
        }
    }
    return "";
}

static const char *hear_until(const char *text)
{
    const char *line = hear();
    while (*line != 0 && strstr(line, text) == NULL) {
        line = hear();
    }
    check(*line != 0, __LINE__, text);
    return line;
}

static long long number(const char *line, const char *name)
{
    char member[40];
    snprintf(member, sizeof member, "\"%s\":", name);
    const char *at = strstr(line, member);
    return at == NULL ? -1 : strtoll(at + strlen(member), NULL, 10);
}

/* A world in another process: D1 follows W1 at once, P1 counts milliseconds. First it passes on the device's name. */
static void live_elsewhere(int from_bench, int to_bench, int to_test)
{
    char line[4096];
    FILE *in = fdopen(from_bench, "r");
    FILE *out = fdopen(to_bench, "w");
    if (in == NULL || out == NULL || fgets(line, sizeof line, in) == NULL || write(to_test, line, strlen(line)) < 1) {
        _exit(1);
    }
    long long us = 0;
    while (fgets(line, sizeof line, in) != NULL) {
        char *w1 = strstr(line, " W1=");
        long long until_us = strtoll(line, NULL, 10);
        for (; us <= until_us; us += 1000) {
            fprintf(out, " P1=%lld@%lld", us / 1000 % 4096, us);
        }
        if (w1 != NULL) {
            fprintf(out, " D1=%.*s", (int) strcspn(w1 + 4, " \n"), w1 + 4);
        }
        fprintf(out, "\n");
        if (fflush(out) != 0) {
            break;
        }
    }
    _exit(0);
}

static void exec_bench(const char *program, const char *path, int in, int out, bool elsewhere)
{
    if (in >= 0) {
        (void) dup2(in, STDIN_FILENO);
    }
    (void) dup2(out, STDOUT_FILENO);
    for (int other = 3; other < 20; other++) {
        (void) close(other);
    }
    (void) execl(program, program, path, elsewhere ? "--world-elsewhere" : (char *) NULL, (char *) NULL);
    _exit(127);
}

static void open_device(int names)
{
    char name[200] = "";
    ssize_t length = read(names, name, sizeof name - 1);
    (void) close(names);
    name[strcspn(name, "\n")] = 0;
    CHECK(length > 1);
    device = open(name, O_RDWR | O_NOCTTY);
    CHECK(device >= 0);
}

/* Starts it and opens what it names. */
static void start(const char *program, const char *folder, const char *points)
{
    int out[2];
    char path[400];
    snprintf(path, sizeof path, "%s/%s", folder, points);
    CHECK(pipe(out) == 0);
    bench = fork();
    if (bench == 0) {
        exec_bench(program, path, -1, out[1], false);
    }
    (void) close(out[1]);
    open_device(out[0]);
}

static void start_elsewhere(const char *program, const char *folder, const char *points)
{
    int from_bench[2];
    int to_bench[2];
    int names[2];
    char path[400];
    snprintf(path, sizeof path, "%s/%s", folder, points);
    CHECK(pipe(from_bench) == 0 && pipe(to_bench) == 0 && pipe(names) == 0);
    bench = fork();
    if (bench == 0) {
        exec_bench(program, path, to_bench[0], from_bench[1], true);
    }
    (void) close(from_bench[1]);
    (void) close(to_bench[0]);
    if (fork() == 0) {
        (void) close(names[0]);
        live_elsewhere(from_bench[0], to_bench[1], names[1]);
    }
    (void) close(from_bench[0]);
    (void) close(to_bench[1]);
    (void) close(names[1]);
    open_device(names[0]);
}

static void end(void)
{
    int status = -1;
    CHECK(kill(bench, SIGTERM) == 0);
    CHECK(waitpid(bench, &status, 0) == bench);
    CHECK(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    while (waitpid(-1, NULL, WNOHANG) > 0) {
    }
    (void) close(device);
}

static void greet(void)
{
    say("{\"m\":\"hello\",\"id\":1,\"session\":\"12345678\",\"link\":1,\"host\":\"a few lines\"}");
    const char *line = hear_until("\"bench\"");
    const char *at = strstr(line, "\"boot\":\"");
    memcpy(boot, at != NULL ? at + 8 : "00000000", 8);
    CHECK(strstr(hear(), "\"state\",\"n\":0") != NULL);
}

static long long clock_now(void)
{
    say("{\"m\":\"ping\",\"id\":2,\"session\":\"12345678\"}");
    return number(hear_until("pong"), "now-us");
}

/* Armed with 500 ms and one wire driven: the wire's answer comes after its 12 ms, and then the beat is missed. */
static void an_armed_bench_left_alone_becomes_safe(void)
{
    char text[400];
    long long now = clock_now();
    snprintf(text, sizeof text, "{\"m\":\"arm\",\"id\":3,\"session\":\"12345678\",\"boot\":\"%s\",\"until-us\":%lld,"
             "\"beat-ms\":500}", boot, now + 1000000);
    say(text);
    long long armed_us = number(hear_until("\"done\",\"id\":3"), "at-us");
    snprintf(text, sizeof text, "{\"m\":\"set\",\"id\":4,\"session\":\"12345678\",\"boot\":\"%s\",\"until-us\":%lld,"
             "\"points\":{\"W1\":1,\"H1\":4000}}", boot, now + 1000000);
    say(text);
    long long set_us = number(hear_until("\"done\",\"id\":4"), "at-us");
    CHECK(number(hear_until("\"W1\",\"to\":1"), "t-us") == set_us);
    CHECK(number(hear_until("\"D1\",\"to\":0"), "t-us") == set_us + 12000);
    long long safe_us = number(hear_until("\"safe\""), "t-us");
    CHECK(safe_us > armed_us + 500000 && safe_us <= armed_us + 505000);
    CHECK(number(hear_until("\"W1\",\"to\":0"), "t-us") > 0);
    CHECK(strstr(hear_until("\"state\""), "\"armed\":false") != NULL);
}

static void a_stream_leaves_nothing_out(void)
{
    say("{\"m\":\"stream\",\"id\":5,\"session\":\"12345678\",\"name\":\"s\",\"points\":[\"P1\",\"P2\"],"
        "\"every-us\":1000,\"batch\":50,\"flush-ms\":500}");
    (void) hear_until("\"done\",\"id\":5");
    long long due_us = -1;
    for (unsigned i = 0; i < 8; i++) {
        long long t_us = number(hear_until("samples"), "t0-us");
        CHECK(due_us < 0 || t_us == due_us);
        due_us = t_us + 50000;
    }
    say("{\"m\":\"stream\",\"id\":6,\"session\":\"12345678\",\"name\":\"s\",\"points\":[]}");
    (void) hear_until("\"done\",\"id\":6");
}

static void the_stop_button_shows(void)
{
    CHECK(kill(bench, SIGUSR1) == 0);
    CHECK(strstr(hear_until("\"stop\":true"), "\"state\"") != NULL);
}

static void a_world_elsewhere_keeps_step_with_the_bench(void)
{
    char text[400];
    say("{\"m\":\"stream\",\"id\":3,\"session\":\"12345678\",\"name\":\"s\",\"points\":[\"P1\"],"
        "\"every-us\":1000,\"batch\":5,\"flush-ms\":500}");
    const char *line = hear_until("samples");
    long long t_us = number(line, "t0-us");
    snprintf(text, sizeof text, "\"v\":[[%lld],[%lld],", t_us / 1000 % 4096, (t_us / 1000 + 1) % 4096);
    CHECK(strstr(line, text) != NULL);
    long long until_us = clock_now() + 1000000;
    snprintf(text, sizeof text, "{\"m\":\"arm\",\"id\":4,\"session\":\"12345678\",\"boot\":\"%s\",\"until-us\":%lld,"
             "\"beat-ms\":500}", boot, until_us);
    say(text);
    (void) hear_until("\"done\",\"id\":4");
    snprintf(text, sizeof text, "{\"m\":\"set\",\"id\":5,\"session\":\"12345678\",\"boot\":\"%s\",\"until-us\":%lld,"
             "\"points\":{\"W1\":1}}", boot, until_us);
    say(text);
    long long set_us = number(hear_until("\"done\",\"id\":5"), "at-us");
    CHECK(number(hear_until("\"D1\",\"to\":1"), "t-us") == set_us);
}

int main(int count, char **arguments)
{
    if (count != 3) {
        return 64;
    }
    start(arguments[1], arguments[2], "worked.points");
    greet();
    an_armed_bench_left_alone_becomes_safe();
    a_stream_leaves_nothing_out();
    the_stop_button_shows();
    end();
    start(arguments[1], arguments[2], "simulated.points");
    greet();
    end();
    start_elsewhere(arguments[1], arguments[2], "worked.points");
    greet();
    a_world_elsewhere_keeps_step_with_the_bench();
    end();
    printf("3 benches on pseudo-terminals, %u checks failed\n", failed);
    return failed > 0;
}
