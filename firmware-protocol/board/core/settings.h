/* What is told to a board once, and kept without power: who it is, its wires, the mains around it; and its starts counted. */
#ifndef SETTINGS_H
#define SETTINGS_H

#include "frame.h"

#define CHANNELS_MAXIMUM 8

struct settings {
    char identity[IDENTITY_MAXIMUM + 1];
    uint16_t period;
    uint8_t channels;
    /* Letters of IEC 60584-1; for the hello only, since the board measures voltage. */
    char types[CHANNELS_MAXIMUM];
    bool mains_60_hertz;
    /* True where software plays the converters: then the hello says so. */
    bool simulated;
};

/* What is kept, or if that is not whole: eight channels of type K, 50 Hz, a second, and the name "unnamed". */
void settings_read(struct settings *settings);

/* For the program that prepares the memory of a new board. */
void settings_write(const struct settings *settings);

/* The number of this start: one more than the last. Two places are written in turn, so that one outlives a loss of power. */
uint32_t settings_count_start(void);

#endif
