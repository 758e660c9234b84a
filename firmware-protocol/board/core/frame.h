/* What goes over the wire, as PROTOCOL.md has it, and its bounds. */
#ifndef FRAME_H
#define FRAME_H

#include <stdbool.h>
#include <stdint.h>

#define PROTOCOL_REVISION 1
#define LINE_MAXIMUM 512
#define IDENTITY_MAXIMUM 32
#define PERIOD_LOWEST 100u
#define PERIOD_HIGHEST 60000u

#define VOLTAGE_HIGHEST 1000000L
#define COLD_LOWEST (-5500)
#define COLD_HIGHEST 15000

/* Board milliseconds since the start: high * 1 000 000 000 + low. So it prints without division by 64 bits. */
#define TICKS_LOW_END UINT32_C(1000000000)
struct ticks {
    uint16_t high;
    uint32_t low;
};

/* In the order in which their letters stand: o g s c r. */
enum { FAULT_OPEN = 1, FAULT_GROUND = 2, FAULT_SUPPLY = 4, FAULT_COLD = 8, FAULT_RANGE = 16 };
#define FAULT_LETTERS "ogscr"
#define FAULT_KINDS 5

enum form { FORM_NONE, FORM_VOLTAGE, FORM_TEMPERATURE };

struct reading {
    uint8_t form;
    uint8_t faults;
    /* Tenths of a microvolt, or hundredths of a degree. */
    int32_t value;
    /* Hundredths of a degree; beside a voltage only. */
    int16_t cold;
};

struct hello_head {
    const char *board;
    const char *firmware;
    bool simulated;
    uint32_t boot;
    struct ticks ticks;
    uint16_t period;
    uint8_t inputs;
    uint16_t kept;
};

struct sample_head {
    uint32_t boot;
    uint32_t sequence;
    struct ticks ticks;
    bool resent;
    uint16_t inputs;
};

enum outcome { OUTCOME_DONE, OUTCOME_REFUSED, OUTCOME_NOT_KEPT };

enum command_kind {
    COMMAND_ASK_HELLO,
    COMMAND_PERIOD,
    COMMAND_SEND_AGAIN,
    COMMAND_LAMP,
    COMMAND_HORN,
    COMMAND_PERMISSION,
    COMMAND_HEARTBEAT,
    /* A whole line of a kind that this board does not know; it is told so. */
    COMMAND_UNKNOWN
};

enum lamp_state { LAMP_OFF, LAMP_ON, LAMP_SLOW, LAMP_FAST };

struct command {
    uint8_t kind;
    uint16_t number;
    /* Milliseconds, a sequence number, or the place of a state in its list. */
    uint32_t value;
};

#endif
