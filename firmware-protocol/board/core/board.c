#include "board.h"

#include "converter.h"
#include "intake.h"
#include "line.h"
#include "outputs.h"
#include "port.h"
#include "ring.h"
#include "settings.h"

/* An old line is begun only if the next sample is further away than two lines take at 115 200 bit/s. */
#define LINES_AHEAD 50u
/* A contact counts as changed once it was seen so for so long. */
#define BOUNCE 20u

static struct settings settings;
static uint32_t boot;
static uint32_t now;
static struct ticks ticks;
static uint32_t sequence;
static uint16_t period;
static uint32_t sample_due;
/* Of the sample that is being measured, or was last. */
static uint32_t sampled_at;
static struct ticks sampled_ticks;
static uint8_t sampled_inputs;
static bool converting;
/* A bit for each channel of it whose converter cannot be trusted to tell when it is done. */
static uint8_t doubtful;

static uint8_t inputs;
static uint8_t inputs_seen;
static uint32_t inputs_seen_at;

/* Commands that came whole and wait; one that finds no room is as if lost on the line. */
#define WAITING 8u
static struct command waiting[WAITING];
static uint8_t waiting_count;

/* What a send-again still asks for. */
static struct {
    bool runs;
    uint16_t command;
    uint32_t from;
    enum outcome outcome;
} again;

static struct ticks ticks_before(struct ticks from, uint32_t milliseconds)
{
    if (from.low < milliseconds) {
        from.low += TICKS_LOW_END;
        from.high--;
    }
    from.low -= milliseconds;
    return from;
}

static void say_hello(void)
{
    const struct hello_head head = { settings.identity, FIRMWARE_NAME, settings.simulated, boot, ticks, period, INPUTS, ring_room() };
    line_hello_head(&head);
    for (uint8_t channel = 0; channel < settings.channels; channel++)
        line_hello_channel(channel == 0, (uint8_t)(channel + 1), FORM_VOLTAGE, settings.types[channel]);
    line_end();
}

static void say_sample(uint8_t age, bool resent)
{
    struct sample_head head;
    struct taken taken;
    struct reading reading;
    bool any = false;
    head.boot = boot;
    head.sequence = sequence - 1u - age;
    head.ticks = sampled_ticks;
    for (uint8_t younger = 0; younger < age; younger++) head.ticks = ticks_before(head.ticks, ring_step(younger));
    head.resent = resent;
    head.inputs = ring_inputs(age);
    line_sample_head(&head);
    for (uint8_t channel = 0; channel < settings.channels; channel++) {
        ring_get(age, channel, &taken);
        if (!converter_reading(&taken, &reading)) continue;
        line_reading((uint8_t)(channel + 1), &reading);
        any = true;
    }
    if (!any) {
        /* A sample carries at least one channel: where every converter is silent the first stands for them. */
        reading.form = FORM_NONE;
        reading.faults = FAULT_RANGE;
        line_reading(1, &reading);
    }
    line_end();
}

static void begin_sample(void)
{
    converting = true;
    sampled_ticks = ticks;
    sampled_inputs = inputs;
    doubtful = 0;
    for (uint8_t channel = 0; channel < settings.channels; channel++)
        if (!converter_begin(channel, settings.mains_60_hertz)) doubtful |= (uint8_t)(1u << channel);
}

static bool all_ready(void)
{
    for (uint8_t channel = 0; channel < settings.channels; channel++)
        if (!port_ready(channel)) return false;
    return true;
}

static void end_sample(uint32_t began_at)
{
    struct taken taken;
    uint32_t step = began_at - sampled_at;
    converting = false;
    /* A step that the ring cannot hold leaves nothing from which older times could be told. */
    if (step > 65535u) ring_restart(settings.channels);
    ring_add((uint16_t)step, sampled_inputs);
    sampled_at = began_at;
    for (uint8_t channel = 0; channel < settings.channels; channel++) {
        converter_fetch(channel, settings.mains_60_hertz, &taken);
        if (doubtful & (1u << channel)) taken.flags = TAKEN_SILENT;
        ring_put(channel, &taken);
    }
    sequence++;
    say_sample(0, false);
}

static void measure(void)
{
    static uint32_t began_at;
    if (converting) {
        if (all_ready() || now - began_at >= CONVERSION_LONGEST) end_sample(began_at);
    } else if ((int32_t)(now - sample_due) >= 0) {
        began_at = now;
        sample_due += period;
        begin_sample();
    }
}

/* One old line, or the reply once there is none left. */
static void send_old(void)
{
    uint32_t oldest = sequence - ring_count();
    if (!again.runs) return;
    if (again.from < oldest) {
        again.outcome = OUTCOME_NOT_KEPT;
        again.from = oldest;
    }
    if (again.from < sequence) {
        say_sample((uint8_t)(sequence - 1u - again.from), true);
        again.from++;
        return;
    }
    again.runs = false;
    line_reply(again.command, again.outcome);
}

static void watch_inputs(void)
{
    uint8_t seen = port_inputs();
    if (seen != inputs_seen) {
        inputs_seen = seen;
        inputs_seen_at = now;
    } else if (now - inputs_seen_at >= BOUNCE) inputs = seen;
}

static enum outcome set_period(uint32_t milliseconds)
{
    if (milliseconds < PERIOD_SHORTEST) return OUTCOME_REFUSED;
    period = (uint16_t)milliseconds;
    sample_due = now + milliseconds;
    return OUTCOME_DONE;
}

static void obey(const struct command *command)
{
    enum outcome outcome = OUTCOME_DONE;
    switch (command->kind) {
    case COMMAND_ASK_HELLO:
        say_hello();
        break;
    case COMMAND_PERIOD:
        outcome = set_period(command->value);
        break;
    case COMMAND_SEND_AGAIN:
        if (again.runs) {
            outcome = OUTCOME_REFUSED;
            break;
        }
        again.runs = true;
        again.command = command->number;
        again.from = command->value;
        again.outcome = ring_count() == 0 ? OUTCOME_NOT_KEPT : OUTCOME_DONE;
        return;
    case COMMAND_LAMP:
        outputs_lamp((enum lamp_state)command->value);
        break;
    case COMMAND_HORN:
        outputs_horn(command->value != 0);
        break;
    case COMMAND_PERMISSION:
        outputs_heartbeat(now);
        outputs_permission(command->value != 0);
        break;
    case COMMAND_HEARTBEAT:
        outputs_heartbeat(now);
        break;
    default:
        outcome = OUTCOME_REFUSED;
        break;
    }
    line_reply(command->number, outcome);
}

void board_start(void)
{
    settings_read(&settings);
    boot = settings_count_start();
    now = 0;
    ticks.high = 0;
    ticks.low = 0;
    sequence = 0;
    sampled_at = 0;
    period = settings.period;
    sample_due = period;
    converting = false;
    again.runs = false;
    waiting_count = 0;
    inputs = 0;
    inputs_seen = 0;
    inputs_seen_at = 0;
    ring_restart(settings.channels);
    intake_restart();
    outputs_restart();
    for (uint8_t channel = 0; channel < settings.channels; channel++) converter_set(channel, settings.mains_60_hertz);
    port_send('\n');
    say_hello();
}

void board_pass(uint16_t milliseconds)
{
    now += milliseconds;
    ticks.low += milliseconds;
    if (ticks.low >= TICKS_LOW_END) {
        ticks.low -= TICKS_LOW_END;
        ticks.high++;
    }
    /* Near an end of what the wire can count the board starts again. */
    if (ticks.high > 998 || sequence == 0xFFFFFFFFu) port_restart();
    watch_inputs();
    outputs_pass(now);
    measure();
    if (!converting && (int32_t)(sample_due - now) > (int32_t)LINES_AHEAD) send_old();
}

void board_hear(uint8_t byte)
{
    struct command command;
    if (intake_take(byte, &command) && waiting_count < WAITING) waiting[waiting_count++] = command;
}

void board_answer(void)
{
    /* No more than waited already: a host that asks without end does not keep the board from measuring. */
    for (uint8_t left = waiting_count; left > 0; left--) {
        struct command command = waiting[0];
        /* Taken out before it is obeyed: others may come while its reply goes out. */
        waiting_count--;
        for (uint8_t index = 0; index < waiting_count; index++) waiting[index] = waiting[index + 1];
        obey(&command);
    }
}
