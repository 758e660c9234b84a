#include "host.h"

#include <string.h>

#include "port.h"

#define REGISTERS 16
#define KEPT 1024

struct converter {
    uint8_t registers[REGISTERS];
    struct host_unit next;
    bool has_result;
};

static struct converter converters[HOST_CHANNELS];
static uint8_t kept[KEPT];
static bool kept_is_new = true;
static uint8_t inputs;
static struct host_outputs outputs;
static bool restart_asked;
static void (*hear)(uint8_t byte);
static uint8_t (*noise)(void);

static int selected = -1;
static bool addressed;
static bool writes;
static bool asked;
static uint8_t place;

/* Registers as the part has them after power up. */
static const uint8_t at_power_up[REGISTERS] = { 0x00, 0x03, 0xFF, 0x7F, 0xC0, 0x7F, 0xFF, 0x80 };

void host_unit_dips(uint8_t channel)
{
    memcpy(converters[channel].registers, at_power_up, REGISTERS);
    converters[channel].has_result = false;
}

void host_power_up(void)
{
    const struct host_unit cold_and_still = { 0, 25 * 256, 0, true };
    for (uint8_t channel = 0; channel < HOST_CHANNELS; channel++) {
        host_unit_dips(channel);
        converters[channel].next = cold_and_still;
    }
    if (kept_is_new) host_forget();
    selected = -1;
    restart_asked = false;
}

void host_forget(void)
{
    memset(kept, 0xFF, sizeof kept);
    kept_is_new = false;
}

void host_unit(uint8_t channel, const struct host_unit *unit)
{
    converters[channel].next = *unit;
}

void host_inputs(uint8_t next)
{
    inputs = next;
}

struct host_outputs host_outputs(void)
{
    return outputs;
}

bool host_restart_asked(void)
{
    return restart_asked;
}

void host_hear_with(void (*next)(uint8_t byte))
{
    hear = next;
}

void host_noise_with(uint8_t (*next)(void))
{
    noise = next;
}

void port_send(uint8_t byte)
{
    if (hear != NULL) hear(byte);
}

void port_select(uint8_t channel)
{
    selected = channel;
    addressed = false;
    asked = false;
}

/* A conversion begins when the select line rises, as the part has it; here it ends at once. */
void port_release(void)
{
    struct converter *one = selected < 0 ? NULL : &converters[selected];
    selected = -1;
    if (one == NULL || !asked || !one->next.converts) return;
    uint32_t code = ((uint32_t)one->next.code & 0x7FFFFu) << 5;
    one->registers[0x00] &= (uint8_t)~0x40u;
    one->registers[0x0A] = (uint8_t)((uint16_t)one->next.cold >> 8);
    one->registers[0x0B] = (uint8_t)one->next.cold;
    one->registers[0x0C] = (uint8_t)(code >> 16);
    one->registers[0x0D] = (uint8_t)(code >> 8);
    one->registers[0x0E] = (uint8_t)code;
    one->registers[0x0F] = one->next.faults;
    one->has_result = true;
}

uint8_t port_exchange(uint8_t byte)
{
    uint8_t answer = 0;
    if (noise != NULL) return noise();
    if (selected < 0) return 0xFF;
    struct converter *one = &converters[selected];
    if (!addressed) {
        addressed = true;
        writes = (byte & 0x80) != 0;
        place = byte & 0x0F;
        return 0;
    }
    if (writes) {
        if (place < 12) one->registers[place] = byte;
        if (place == 0 && (byte & 0x40)) asked = true;
    } else {
        answer = one->registers[place];
        if (place == 0x0E) one->has_result = false;
    }
    place = (uint8_t)((place + 1) & 0x0F);
    return answer;
}

bool port_ready(uint8_t channel)
{
    return noise != NULL ? (noise() & 1) != 0 : converters[channel].has_result;
}

uint8_t port_inputs(void)
{
    return inputs;
}

void port_lamp(bool on)
{
    outputs.lamp = on;
}

void port_horn(bool on)
{
    outputs.horn = on;
}

void port_permission(bool given)
{
    outputs.permission = given;
}

uint8_t port_keep_read(uint16_t where)
{
    return kept[where % KEPT];
}

void port_keep_write(uint16_t where, uint8_t byte)
{
    kept[where % KEPT] = byte;
}

void port_restart(void)
{
    restart_asked = true;
}
