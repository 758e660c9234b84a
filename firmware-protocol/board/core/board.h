/*
 * The board: measures each period, keeps what it measured, answers the host. It has no clock and no interrupt of its
 * own: the port lets time pass and hands bytes over, and everything follows from the order of those calls.
 */
#ifndef BOARD_H
#define BOARD_H

#include <stdint.h>

#define FIRMWARE_NAME "reference-2"
#define INPUTS 4

void board_start(void);
/* So many milliseconds have passed, at most 1000 at once. */
void board_pass(uint16_t milliseconds);
/* A byte of the host. Nothing is sent from here, so that a port may call it while it waits for room to send. */
void board_hear(uint8_t byte);
/* Obeys the commands that have come whole by now, and replies; what comes meanwhile waits for the next time. */
void board_answer(void);

#endif
