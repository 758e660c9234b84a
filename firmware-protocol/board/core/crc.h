/* The check value over a line, PROTOCOL.md section 3: polynomial 0x1021, start 0xFFFF, nothing reflected or added. */
#ifndef CRC_H
#define CRC_H

#include <stdint.h>

#define CRC_START 0xFFFFu

uint16_t crc_add(uint16_t crc, uint8_t byte);

#endif
