/* Prints the memory of a board that keeps without power, as an Intel HEX file for a programmer. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "host.h"
#include "port.h"
#include "settings.h"

#define RECORD 16u
#define WRITTEN 64u

static int refuse(const char *why)
{
    fprintf(stderr, "%s\nsettings IDENTITY MILLISECONDS LETTERS 50|60   for example: settings PB-0042 1000 KKKKJJ 50\n", why);
    return 2;
}

static void print_record(uint16_t place)
{
    unsigned sum = RECORD + (place >> 8) + (place & 0xFFu);
    printf(":%02X%04X00", RECORD, (unsigned)place);
    for (uint16_t index = 0; index < RECORD; index++) {
        uint8_t byte = port_keep_read((uint16_t)(place + index));
        printf("%02X", byte);
        sum += byte;
    }
    printf("%02X\n", (0x100u - (sum & 0xFFu)) & 0xFFu);
}

int main(int count, char **arguments)
{
    struct settings wanted;
    struct settings kept;
    size_t channels;
    long period;
    char *end;
    memset(&wanted, 0, sizeof wanted);
    if (count != 5) return refuse("Four words are needed.");
    channels = strlen(arguments[3]);
    if (strlen(arguments[1]) > IDENTITY_MAXIMUM || channels < 1 || channels > CHANNELS_MAXIMUM)
        return refuse("An identity has 1 to 32 characters, a board 1 to 8 channels.");
    memcpy(wanted.identity, arguments[1], strlen(arguments[1]));
    /* What is no number of 16 bits becomes 0, which no board takes. */
    period = strtol(arguments[2], &end, 10);
    wanted.period = (uint16_t)(*end == 0 && period > 0 && period <= UINT16_MAX ? period : 0);
    wanted.channels = (uint8_t)channels;
    memset(wanted.types, 'K', CHANNELS_MAXIMUM);
    memcpy(wanted.types, arguments[3], channels);
    wanted.mains_60_hertz = strcmp(arguments[4], "60") == 0;
    if (!wanted.mains_60_hertz && strcmp(arguments[4], "50") != 0) return refuse("The mains have 50 or 60 Hz.");
    host_forget();
    settings_write(&wanted);
    settings_read(&kept);
    if (memcmp(&kept, &wanted, sizeof kept) != 0)
        return refuse("A name is of A-Z a-z 0-9 . _ - , a period of 300 to 60000, a letter of K J T E N R S B.");
    for (uint16_t place = 0; place < WRITTEN; place = (uint16_t)(place + RECORD)) print_record(place);
    puts(":00000001FF");
    return 0;
}
