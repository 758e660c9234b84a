/* Lamp, horn and permission, and the heartbeat without which permission falls. PROTOCOL.md section 5. */
#ifndef OUTPUTS_H
#define OUTPUTS_H

#include "frame.h"

void outputs_restart(void);
/* A heartbeat, or a command that counts as one. */
void outputs_heartbeat(uint32_t now);
void outputs_lamp(enum lamp_state state);
void outputs_horn(bool on);
void outputs_permission(bool given);
/* Lets the lamp flash and watches the heartbeat. now: milliseconds, may run over. */
void outputs_pass(uint32_t now);

#endif
