#include "converter.h"

#include "port.h"

enum {
    REGISTER_CR0 = 0x00,
    REGISTER_NUMBER = 0x06,
    SETTINGS = 10,
    REGISTER_COLD = 0x0A,
    REGISTER_CODE = 0x0C,
    REGISTER_FAULTS = 0x0F,
    REGISTERS = 16,
    WRITE = 0x80
};

/* CR0: open wires are looked for, of less than 5 kilohm; one conversion at a time; the filter's mains. */
enum { CR0_ONE_SHOT = 0x40, CR0_OPEN_TEST = 0x10, CR0_50_HERTZ = 0x01 };
enum { FAULTS_COLD = 0x80, FAULTS_OVER = 0x02, FAULTS_OPEN = 0x01 };

/* 78.125 mV, the end of the scale at gain 8. */
#define CODE_END 131071L

static uint8_t first_setting(bool mains_60_hertz)
{
    return (uint8_t)(CR0_OPEN_TEST | (mains_60_hertz ? 0 : CR0_50_HERTZ));
}

/* Register 0 to 9 as they are to be. */
static uint8_t setting(uint8_t place, uint8_t channel, bool mains_60_hertz)
{
    switch (place) {
    case REGISTER_CR0:
        return first_setting(mains_60_hertz);
    case 0x01: /* CR1: no averaging, voltage mode, gain 8. */
        return 0x08;
    case 0x02: /* MASK: the fault pin is not used. */
        return 0xFF;
    case 0x03: /* Cold junction thresholds: as wide as they go. */
        return 0x7F;
    case 0x04:
        return 0xC0;
    case 0x05: /* Upper threshold of a linearised temperature, not used here: its low byte bears the channel's number. */
        return 0x7F;
    case REGISTER_NUMBER:
        return (uint8_t)(0xA0 | channel);
    case 0x07:
        return 0x80;
    default: /* Lower threshold's low byte; offset of the cold junction. */
        return 0x00;
    }
}

void converter_set(uint8_t channel, bool mains_60_hertz)
{
    port_select(channel);
    port_exchange(WRITE | REGISTER_CR0);
    for (uint8_t place = 0; place < SETTINGS; place++) port_exchange(setting(place, channel, mains_60_hertz));
    port_release();
}

bool converter_begin(uint8_t channel, bool mains_60_hertz)
{
    bool waits = port_ready(channel);
    /* A result that came too late for its sample is read out, which takes its sign away. */
    if (waits) {
        struct taken late;
        converter_fetch(channel, mains_60_hertz, &late);
        waits = port_ready(channel);
    }
    port_select(channel);
    port_exchange(WRITE | REGISTER_CR0);
    port_exchange((uint8_t)(first_setting(mains_60_hertz) | CR0_ONE_SHOT));
    port_release();
    return !waits;
}

void converter_fetch(uint8_t channel, bool mains_60_hertz, struct taken *taken)
{
    uint8_t registers[REGISTERS];
    bool ready = port_ready(channel);
    bool right = true;
    port_select(channel);
    port_exchange(REGISTER_CR0);
    for (uint8_t place = 0; place < REGISTERS; place++) registers[place] = port_exchange(0);
    port_release();
    for (uint8_t place = 0; place < SETTINGS; place++)
        right = right && registers[place] == setting(place, channel, mains_60_hertz);
    taken->code = 0;
    taken->cold = 0;
    taken->flags = TAKEN_SILENT;
    /* Beyond its supply it converts nothing: then no result is ready, and its fault bit says why. */
    if (!right || (!ready && !(registers[REGISTER_FAULTS] & FAULTS_OVER))) {
        converter_set(channel, mains_60_hertz);
        return;
    }
    uint32_t code = ((uint32_t)registers[REGISTER_CODE] << 16 | (uint32_t)registers[REGISTER_CODE + 1] << 8
                     | registers[REGISTER_CODE + 2]) >> 5;
    uint8_t faults = registers[REGISTER_FAULTS];
    taken->code = code & 0x40000u ? (int32_t)code - 0x80000 : (int32_t)code;
    taken->cold = (int16_t)((uint16_t)registers[REGISTER_COLD] << 8 | (registers[REGISTER_COLD + 1] & 0xFC));
    taken->flags = (uint8_t)((faults & FAULTS_OPEN ? TAKEN_OPEN : 0) | (faults & FAULTS_OVER ? TAKEN_OVER : 0)
                             | (faults & FAULTS_COLD ? TAKEN_COLD : 0));
}

/* Tenths of a microvolt: code * 390625 / 65536, rounded, in 32 bits. */
static int32_t voltage_of(int32_t code)
{
    uint32_t size = code < 0 ? 0 - (uint32_t)code : (uint32_t)code;
    uint32_t rest = (size >> 8) * 62945u + ((size & 255u) * 62945u >> 8);
    uint32_t voltage = size * 5u + ((rest + 128u) >> 8);
    return code < 0 ? -(int32_t)voltage : (int32_t)voltage;
}

/* Hundredths of a degree: 1/256 degree * 100, rounded. */
static int16_t cold_of(int16_t cold)
{
    int32_t scaled = (int32_t)cold * 25;
    return (int16_t)((scaled < 0 ? scaled - 32 : scaled + 32) / 64);
}

bool converter_reading(const struct taken *taken, struct reading *reading)
{
    if (taken->flags & TAKEN_SILENT) return false;
    reading->form = FORM_VOLTAGE;
    reading->faults = 0;
    reading->value = voltage_of(taken->code);
    reading->cold = cold_of(taken->cold);
    if (taken->flags & TAKEN_OPEN) reading->faults |= FAULT_OPEN;
    if (taken->flags & TAKEN_COLD) reading->faults |= FAULT_COLD;
    if (reading->cold < COLD_LOWEST || reading->cold > COLD_HIGHEST) {
        reading->faults |= FAULT_COLD;
        reading->form = FORM_NONE;
    }
    /* Beyond the supply the part converts no more and keeps its last number; at its end the number says nothing. */
    if ((taken->flags & TAKEN_OVER) || taken->code >= CODE_END || taken->code <= -CODE_END) {
        reading->faults |= FAULT_RANGE;
        reading->form = FORM_NONE;
    }
    return true;
}
