#include "ring.h"

#define HEAD 3u
#define EACH 5u

static uint8_t store[RING_BYTES];
static uint8_t channels_held;
static uint8_t room;
static uint8_t count;
static uint8_t newest;

static uint16_t size_of_one(void)
{
    return (uint16_t)(HEAD + EACH * channels_held);
}

static uint8_t *at(uint8_t age)
{
    uint8_t place = newest >= age ? (uint8_t)(newest - age) : (uint8_t)(newest + room - age);
    return store + (uint16_t)(place * size_of_one());
}

void ring_restart(uint8_t channels)
{
    channels_held = channels;
    room = (uint8_t)(RING_BYTES / size_of_one() > 255 ? 255 : RING_BYTES / size_of_one());
    count = 0;
    newest = (uint8_t)(room - 1);
}

uint8_t ring_room(void)
{
    return room;
}

uint8_t ring_count(void)
{
    return count;
}

void ring_add(uint16_t step, uint8_t inputs)
{
    uint8_t *one;
    newest = (uint8_t)(newest + 1u == room ? 0 : newest + 1u);
    if (count < room) count++;
    one = at(0);
    one[0] = (uint8_t)step;
    one[1] = (uint8_t)(step >> 8);
    one[2] = inputs;
}

void ring_put(uint8_t channel, const struct taken *taken)
{
    uint8_t *each = at(0) + HEAD + EACH * channel;
    uint32_t code = (uint32_t)taken->code & 0x7FFFFu;
    each[0] = (uint8_t)code;
    each[1] = (uint8_t)(code >> 8);
    each[2] = (uint8_t)((code >> 16) | (uint8_t)(taken->flags << 3));
    each[3] = (uint8_t)taken->cold;
    each[4] = (uint8_t)((uint16_t)taken->cold >> 8);
}

uint16_t ring_step(uint8_t age)
{
    const uint8_t *one = at(age);
    return (uint16_t)(one[0] | (uint16_t)one[1] << 8);
}

uint8_t ring_inputs(uint8_t age)
{
    return at(age)[2];
}

void ring_get(uint8_t age, uint8_t channel, struct taken *taken)
{
    const uint8_t *each = at(age) + HEAD + EACH * channel;
    uint32_t code = each[0] | (uint32_t)each[1] << 8 | (uint32_t)(each[2] & 7u) << 16;
    taken->code = code & 0x40000u ? (int32_t)code - 0x80000 : (int32_t)code;
    taken->flags = (uint8_t)(each[2] >> 3);
    taken->cold = (int16_t)(each[3] | (uint16_t)each[4] << 8);
}
