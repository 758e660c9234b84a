#include "outputs.h"

#include "port.h"

#define HEARTBEAT_LONGEST 5000u
/* One flash in 2 s, and two a second. */
#define SLOW_HALF 1000u
#define FAST_HALF 250u

static enum lamp_state lamp;
static bool watched;
static uint32_t heartbeat_at;

void outputs_restart(void)
{
    lamp = LAMP_OFF;
    watched = false;
    port_lamp(false);
    port_horn(false);
    port_permission(false);
}

void outputs_heartbeat(uint32_t now)
{
    watched = true;
    heartbeat_at = now;
}

void outputs_lamp(enum lamp_state state)
{
    lamp = state;
}

void outputs_horn(bool on)
{
    port_horn(on);
}

void outputs_permission(bool given)
{
    port_permission(given);
}

void outputs_pass(uint32_t now)
{
    if (watched && now - heartbeat_at >= HEARTBEAT_LONGEST) {
        watched = false;
        port_permission(false);
        if (lamp != LAMP_OFF) lamp = LAMP_FAST;
    }
    switch (lamp) {
    case LAMP_OFF:
        port_lamp(false);
        break;
    case LAMP_ON:
        port_lamp(true);
        break;
    case LAMP_SLOW:
        port_lamp(now / SLOW_HALF % 2 == 0);
        break;
    case LAMP_FAST:
        port_lamp(now / FAST_HALF % 2 == 0);
        break;
    }
}
