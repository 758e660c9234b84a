#include "settings.h"

#include <string.h>

#include "converter.h"
#include "crc.h"
#include "port.h"

/* Layout: version, bits, period, channels, letters, identity, check. */
#define VERSION 1
#define PLACE_BITS 1
#define PLACE_PERIOD 2
#define PLACE_CHANNELS 4
#define PLACE_TYPES 5
#define PLACE_IDENTITY (PLACE_TYPES + CHANNELS_MAXIMUM)
#define PLACE_CHECK (PLACE_IDENTITY + IDENTITY_MAXIMUM)
#define PLACE_STARTS 64
#define STARTS_SIZE 6
#define BIT_SIMULATED 1
#define BIT_60_HERTZ 2

static uint16_t check_over(uint16_t place, uint16_t length)
{
    uint16_t check = CRC_START;
    for (uint16_t index = 0; index < length; index++) check = crc_add(check, port_keep_read((uint16_t)(place + index)));
    return check;
}

static uint16_t word_at(uint16_t place)
{
    return (uint16_t)(port_keep_read(place) | (uint16_t)port_keep_read((uint16_t)(place + 1)) << 8);
}

static void put_word(uint16_t place, uint16_t word)
{
    port_keep_write(place, (uint8_t)word);
    port_keep_write((uint16_t)(place + 1), (uint8_t)(word >> 8));
}

static bool is_identity(char each)
{
    return (each >= 'A' && each <= 'Z') || (each >= 'a' && each <= 'z') || (each >= '0' && each <= '9') || each == '.'
        || each == '_' || each == '-';
}

static bool is_type(char each)
{
    return each != 0 && strchr("KJTENRSB", each) != 0;
}

/* Whole by its check, and usable: a check alone would pass what a wrong program wrote. */
static bool read_kept(struct settings *settings)
{
    uint8_t bits = port_keep_read(PLACE_BITS);
    uint8_t length = 0;
    if (port_keep_read(0) != VERSION || check_over(0, PLACE_CHECK) != word_at(PLACE_CHECK)) return false;
    settings->period = word_at(PLACE_PERIOD);
    settings->channels = port_keep_read(PLACE_CHANNELS);
    settings->simulated = (bits & BIT_SIMULATED) != 0;
    settings->mains_60_hertz = (bits & BIT_60_HERTZ) != 0;
    if (settings->period < PERIOD_SHORTEST || settings->period > PERIOD_HIGHEST) return false;
    if (settings->channels < 1 || settings->channels > CHANNELS_MAXIMUM) return false;
    for (uint8_t index = 0; index < CHANNELS_MAXIMUM; index++) {
        settings->types[index] = (char)port_keep_read((uint16_t)(PLACE_TYPES + index));
        if (!is_type(settings->types[index])) return false;
    }
    for (uint8_t index = 0; index < IDENTITY_MAXIMUM; index++) {
        char each = (char)port_keep_read((uint16_t)(PLACE_IDENTITY + index));
        if (each == 0) break;
        if (!is_identity(each)) return false;
        settings->identity[length++] = each;
    }
    settings->identity[length] = 0;
    return length > 0;
}

void settings_read(struct settings *settings)
{
    if (read_kept(settings)) return;
    memset(settings, 0, sizeof *settings);
    strcpy(settings->identity, "unnamed");
    settings->period = 1000;
    settings->channels = CHANNELS_MAXIMUM;
    memset(settings->types, 'K', CHANNELS_MAXIMUM);
}

void settings_write(const struct settings *settings)
{
    bool ended = false;
    port_keep_write(0, VERSION);
    port_keep_write(PLACE_BITS, (uint8_t)((settings->simulated ? BIT_SIMULATED : 0) | (settings->mains_60_hertz ? BIT_60_HERTZ : 0)));
    put_word(PLACE_PERIOD, settings->period);
    port_keep_write(PLACE_CHANNELS, settings->channels);
    for (uint8_t index = 0; index < CHANNELS_MAXIMUM; index++)
        port_keep_write((uint16_t)(PLACE_TYPES + index), (uint8_t)settings->types[index]);
    for (uint8_t index = 0; index < IDENTITY_MAXIMUM; index++) {
        ended = ended || settings->identity[index] == 0;
        port_keep_write((uint16_t)(PLACE_IDENTITY + index), ended ? 0 : (uint8_t)settings->identity[index]);
    }
    put_word(PLACE_CHECK, check_over(0, PLACE_CHECK));
}

/* The number in one of the two places, or 0 if it is not whole. */
static uint32_t starts_in(uint8_t which)
{
    uint16_t place = (uint16_t)(PLACE_STARTS + which * STARTS_SIZE);
    if (check_over(place, 4) != word_at((uint16_t)(place + 4))) return 0;
    return word_at(place) | (uint32_t)word_at((uint16_t)(place + 2)) << 16;
}

uint32_t settings_count_start(void)
{
    uint32_t first = starts_in(0);
    uint32_t second = starts_in(1);
    uint8_t older = first > second ? 1 : 0;
    uint32_t number = (first > second ? first : second) + 1;
    uint16_t place = (uint16_t)(PLACE_STARTS + older * STARTS_SIZE);
    if (number == 0) number = 1;
    put_word(place, (uint16_t)number);
    put_word((uint16_t)(place + 2), (uint16_t)(number >> 16));
    put_word((uint16_t)(place + 4), check_over(place, 4));
    return number;
}
