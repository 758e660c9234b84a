#include "crc.h"

/* One byte at once by shifts alone: no table, which would cost 512 bytes, and no loop over bits. */
uint16_t crc_add(uint16_t crc, uint8_t byte)
{
    uint8_t mixed = (uint8_t)((crc >> 8) ^ byte);
    mixed = (uint8_t)(mixed ^ (mixed >> 4));
    return (uint16_t)((crc << 8) ^ ((uint16_t)mixed << 12) ^ ((uint16_t)mixed << 5) ^ mixed);
}
