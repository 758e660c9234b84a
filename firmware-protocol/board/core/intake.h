/*
 * Bytes of the host become commands, as PROTOCOL.md sections 2, 3, 5 and 7 have it, a byte at a time: a line may have
 * 512 characters, and a board with 2 KB of RAM cannot hold one beside its samples. Nothing is done with a line before
 * its check value has been seen to be right.
 */
#ifndef INTAKE_H
#define INTAKE_H

#include "frame.h"

/* The port was opened or the board has started: nothing is kept, and what comes before the first LF is dropped. */
void intake_restart(void);

/* True if this byte ended a line that is a command; it then stands in command. */
bool intake_take(uint8_t byte, struct command *command);

#endif
