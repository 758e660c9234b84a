/*
 * The core under noise, for a sanitizer to watch: random bytes, true commands, commands with a few bytes changed,
 * converters that answer anything, time that passes. What the board sends must stay whole lines of the wire whatever
 * happens. Arguments: seed, number of steps. The same seed gives the same run.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"
#include "crc.h"
#include "frame.h"
#include "host.h"

static uint32_t state;
static char line[LINE_MAXIMUM + 2];
static size_t length;
static unsigned long lines;

static uint32_t chance(uint32_t end)
{
    state += 0x9E3779B9u;
    uint32_t mixed = state ^ state >> 16;
    mixed *= 0x21F0AAADu;
    mixed ^= mixed >> 15;
    mixed *= 0x735A2D97u;
    mixed ^= mixed >> 15;
    return mixed % end;
}

static uint8_t any_byte(void)
{
    return (uint8_t)chance(256);
}

static void refuse(const char *why)
{
    fprintf(stderr, "fuzz: %s: %.*s\n", why, (int)length, line);
    exit(1);
}

static void hear(uint8_t byte)
{
    if (byte != '\n') {
        if (byte < 0x20 || byte > 0x7E) refuse("an unprintable byte was sent");
        if (length >= LINE_MAXIMUM) refuse("a line is too long");
        line[length++] = (char)byte;
        return;
    }
    if (length > 0) {
        uint16_t check = CRC_START;
        char tail[8];
        if (length < 6) refuse("a line is too short");
        for (size_t index = 0; index + 6 < length; index++) check = crc_add(check, (uint8_t)line[index]);
        snprintf(tail, sizeof tail, " ~%04x", check);
        if (memcmp(tail, line + length - 6, 6) != 0) refuse("a check value is wrong");
        lines++;
    }
    length = 0;
}

static const char *const commands[] = {
    "ask-hello command=%u", "period command=%u milliseconds=%u", "send-again command=%u from=%u", "lamp command=%u state=fast",
    "horn command=%u state=on", "permission command=%u state=given", "heartbeat command=%u", "unheard-of command=%u note=%u",
    "heartbeat command=%u a=b c=d a=e", "lamp command=%u state=on note=x"
};

static void tell_command(void)
{
    char told[LINE_MAXIMUM * 2];
    uint16_t check = CRC_START;
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
    int size = snprintf(told, sizeof told, commands[chance(sizeof commands / sizeof *commands)], chance(70000), chance(3) ? chance(2000) : chance(0xFFFFFFFFu));
#pragma GCC diagnostic pop
    for (int index = 0; index < size; index++) check = crc_add(check, (uint8_t)told[index]);
    size += snprintf(told + size, 8, " ~%04x", check);
    for (uint32_t changes = chance(3) ? 0 : chance(4); changes > 0; changes--) told[chance((uint32_t)size)] = (char)any_byte();
    board_hear('\n');
    for (int index = 0; index < size; index++) board_hear((uint8_t)told[index]);
    board_hear('\n');
    if (chance(2)) board_answer();
}

static void step(void)
{
    switch (chance(8)) {
    case 0:
        for (uint32_t left = chance(700); left > 0; left--) board_hear(any_byte());
        break;
    case 1:
        host_noise_with(chance(2) ? any_byte : NULL);
        break;
    case 2:
        host_inputs(any_byte());
        break;
    case 3: {
        struct host_unit unit = { (int32_t)chance(0x80000) - 0x40000, (int16_t)chance(65536), any_byte(), chance(9) > 0 };
        host_unit((uint8_t)chance(HOST_CHANNELS), &unit);
        break;
    }
    case 4:
        if (chance(40) == 0) board_start();
        break;
    case 5:
        tell_command();
        break;
    default:
        for (uint32_t left = chance(200); left > 0; left--) board_pass((uint16_t)(10 * (1 + chance(3))));
        break;
    }
}

int main(int count, char **arguments)
{
    if (count != 3) return 2;
    state = (uint32_t)strtoul(arguments[1], NULL, 10);
    host_hear_with(hear);
    host_power_up();
    board_start();
    for (unsigned long left = strtoul(arguments[2], NULL, 10); left > 0; left--) step();
    printf("%lu lines\n", lines);
    return 0;
}
