/* The machine of the host's port: converters with registers, memory that keeps, and what the board sends, caught. */
#ifndef HOST_H
#define HOST_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define HOST_CHANNELS 8

/* What the next conversion of a converter gives. */
struct host_unit {
    int32_t code;
    int16_t cold;
    uint8_t faults;
    /* False: it never has a result. */
    bool converts;
};

struct host_outputs {
    bool lamp;
    bool horn;
    bool permission;
};

/* All converters as from power up; the memory that keeps is left alone. */
void host_power_up(void);
/* The memory of a new chip. */
void host_forget(void);
void host_unit(uint8_t channel, const struct host_unit *unit);
/* A converter loses its settings, as it does when its supply dips. */
void host_unit_dips(uint8_t channel);
void host_inputs(uint8_t inputs);
struct host_outputs host_outputs(void);
bool host_restart_asked(void);

/* Who hears what the board sends. */
void host_hear_with(void (*hear)(uint8_t byte));
/* While this stands, it answers in place of the converters. */
void host_noise_with(uint8_t (*noise)(void));

#endif
