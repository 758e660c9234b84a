/*
 * The core on a computer, for tests: it is told on standard input what happens, a line each, and writes on standard
 * output what the board sends, in hexadecimal, a line for each line told. Time passes only where it is told to.
 *
 *   start                                  the board starts
 *   pass MILLISECONDS                      time passes, 10 ms at once
 *   hear HEX                               bytes of the host
 *   unit CHANNEL CODE COLD FAULTS CONVERTS what a converter measures from now on; channels count from 0
 *   dip CHANNEL                            a converter loses its settings
 *   inputs BITS
 *   settings IDENTITY PERIOD CHANNELS TYPES 60HERTZ SIMULATED
 *   forget                                 the memory of a new chip
 *   outputs                                writes lamp, horn and permission as three digits
 *   hello BOARD FIRMWARE SIMULATED BOOT HIGH LOW PERIOD INPUTS KEPT { CHANNEL FORM LETTER } ...   encodes it
 *   sample BOOT SEQUENCE HIGH LOW RESENT INPUTS { CHANNEL FORM FAULTS VALUE COLD } ...   encodes it
 *   reply COMMAND OUTCOME
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"
#include "host.h"
#include "line.h"
#include "settings.h"

#define TOLD_MAXIMUM 20000

static char told[TOLD_MAXIMUM];

static void print_byte(uint8_t byte)
{
    printf("%02x", byte);
}

static void fail(const char *why)
{
    fprintf(stderr, "host board: %s: %s\n", why, told);
    exit(2);
}

/* The next word of the line, or a failure. */
static char *word(void)
{
    char *next = strtok(NULL, " ");
    if (next == NULL) fail("a word is missing");
    return next;
}

static long long number(void)
{
    char *end;
    long long value = strtoll(word(), &end, 10);
    if (*end != 0) fail("not a number");
    return value;
}

static void hear_hexadecimal(const char *digits)
{
    for (; digits[0] != 0 && digits[1] != 0; digits += 2) {
        const char pair[3] = { digits[0], digits[1], 0 };
        board_hear((uint8_t)strtoul(pair, NULL, 16));
    }
    board_answer();
}

static void encode_hello(void)
{
    struct hello_head head;
    char *channel;
    head.board = word();
    head.firmware = word();
    head.simulated = number() != 0;
    head.boot = (uint32_t)number();
    head.ticks.high = (uint16_t)number();
    head.ticks.low = (uint32_t)number();
    head.period = (uint16_t)number();
    head.inputs = (uint8_t)number();
    head.kept = (uint16_t)number();
    line_hello_head(&head);
    for (bool first = true; (channel = strtok(NULL, " ")) != NULL; first = false) {
        enum form form = (enum form)number();
        line_hello_channel(first, (uint8_t)atoi(channel), form, *word());
    }
    line_end();
}

static void encode_sample(void)
{
    struct sample_head head;
    char *channel;
    head.boot = (uint32_t)number();
    head.sequence = (uint32_t)number();
    head.ticks.high = (uint16_t)number();
    head.ticks.low = (uint32_t)number();
    head.resent = number() != 0;
    head.inputs = (uint16_t)number();
    line_sample_head(&head);
    while ((channel = strtok(NULL, " ")) != NULL) {
        struct reading reading;
        reading.form = (uint8_t)number();
        reading.faults = (uint8_t)number();
        reading.value = (int32_t)number();
        reading.cold = (int16_t)number();
        line_reading((uint8_t)atoi(channel), &reading);
    }
    line_end();
}

static void copy(char *to, const char *from, size_t room)
{
    size_t length = strlen(from);
    memcpy(to, from, length < room ? length : room);
}

static void keep_settings(void)
{
    struct settings settings;
    memset(&settings, 0, sizeof settings);
    copy(settings.identity, word(), IDENTITY_MAXIMUM);
    settings.period = (uint16_t)number();
    settings.channels = (uint8_t)number();
    copy(settings.types, word(), CHANNELS_MAXIMUM);
    settings.mains_60_hertz = number() != 0;
    settings.simulated = number() != 0;
    settings_write(&settings);
}

static void set_unit(void)
{
    struct host_unit unit;
    uint8_t channel = (uint8_t)number();
    unit.code = (int32_t)number();
    unit.cold = (int16_t)number();
    unit.faults = (uint8_t)number();
    unit.converts = number() != 0;
    if (channel >= HOST_CHANNELS) fail("no such channel");
    host_unit(channel, &unit);
}

static void do_told(const char *what)
{
    if (strcmp(what, "start") == 0) board_start();
    else if (strcmp(what, "pass") == 0) for (long long left = number(); left > 0; left -= 10) board_pass(left < 10 ? (uint16_t)left : 10);
    else if (strcmp(what, "hear") == 0) hear_hexadecimal(word());
    else if (strcmp(what, "unit") == 0) set_unit();
    else if (strcmp(what, "dip") == 0) host_unit_dips((uint8_t)(number() % HOST_CHANNELS));
    else if (strcmp(what, "inputs") == 0) host_inputs((uint8_t)number());
    else if (strcmp(what, "settings") == 0) keep_settings();
    else if (strcmp(what, "forget") == 0) host_forget();
    else if (strcmp(what, "outputs") == 0) {
        struct host_outputs outputs = host_outputs();
        printf("%d%d%d", outputs.lamp, outputs.horn, outputs.permission);
    } else if (strcmp(what, "hello") == 0) encode_hello();
    else if (strcmp(what, "sample") == 0) encode_sample();
    else if (strcmp(what, "reply") == 0) {
        uint16_t command = (uint16_t)number();
        line_reply(command, (enum outcome)number());
    } else fail("not known");
}

int main(void)
{
    host_hear_with(print_byte);
    host_power_up();
    while (fgets(told, sizeof told, stdin) != NULL) {
        told[strcspn(told, "\n")] = 0;
        const char *what = strtok(told, " ");
        if (what != NULL) do_told(what);
        putchar('\n');
    }
    return 0;
}
