/*
 * The newest samples, for sending again. A sample of eight channels takes 43 bytes: of each channel the converter's 19
 * bits, its fault bits and its cold junction as the converter gives it; of time the step since the sample before.
 */
#ifndef RING_H
#define RING_H

#include <stdbool.h>
#include <stdint.h>

#ifndef RING_BYTES
/* 32 samples of eight channels. */
#define RING_BYTES (32u * 43u)
#endif

/* What a converter gave, as it gave it. */
struct taken {
    /* 19 bits with sign. */
    int32_t code;
    /* 1/256 degree, the two lowest bits 0. */
    int16_t cold;
    uint8_t flags;
};

enum { TAKEN_OPEN = 1, TAKEN_OVER = 2, TAKEN_COLD = 4, TAKEN_SILENT = 8 };

void ring_restart(uint8_t channels);
/* Samples that it holds when it is full. */
uint8_t ring_room(void);
uint8_t ring_count(void);
/* Makes room for the next sample, forgetting the oldest. step: milliseconds since the one before, at most 65535. */
void ring_add(uint16_t step, uint8_t inputs);
/* Of the sample that was added last. */
void ring_put(uint8_t channel, const struct taken *taken);

/* age: 0 is the newest. */
uint16_t ring_step(uint8_t age);
uint8_t ring_inputs(uint8_t age);
void ring_get(uint8_t age, uint8_t channel, struct taken *taken);

#endif
