#include "line.h"

#include "crc.h"
#include "port.h"

static uint16_t check;

void line_character(char character)
{
    check = crc_add(check, (uint8_t)character);
    port_send((uint8_t)character);
}

void line_text(const char *text)
{
    for (char each; (each = text_byte(text)) != 0; text++) line_character(each);
}

void line_characters(const char *characters)
{
    for (; *characters != 0; characters++) line_character(*characters);
}

void line_begin(const char *kind)
{
    check = CRC_START;
    line_text(kind);
}

void line_name(const char *name)
{
    line_character(' ');
    line_text(name);
    line_character('=');
}

/* Digits fall out last first, so they wait in a small field. */
static void digits(uint32_t number, uint8_t at_least)
{
    char field[10];
    uint8_t count = 0;
    do {
        field[count++] = (char)('0' + number % 10);
        number /= 10;
    } while (number != 0 || count < at_least);
    while (count > 0) line_character(field[--count]);
}

void line_number(uint32_t number)
{
    digits(number, 1);
}

void line_signed(int32_t number)
{
    if (number < 0) line_character('-');
    digits(number < 0 ? 0 - (uint32_t)number : (uint32_t)number, 1);
}

void line_ticks(const struct ticks *ticks)
{
    if (ticks->high > 0) digits(ticks->high, 1);
    digits(ticks->low, ticks->high > 0 ? 9 : 1);
}

static char hexadecimal_digit(uint8_t four_bits)
{
    return (char)(four_bits < 10 ? '0' + four_bits : 'a' + four_bits - 10);
}

void line_hexadecimal(uint16_t number)
{
    for (int8_t shift = 12; shift >= 0; shift = (int8_t)(shift - 4)) line_character(hexadecimal_digit((number >> shift) & 15));
}

void line_end(void)
{
    uint16_t covered = check;
    line_text(TEXT(" ~"));
    line_hexadecimal(covered);
    port_send('\n');
}

void line_hello_head(const struct hello_head *head)
{
    line_begin(TEXT("hello"));
    line_name(TEXT("revision"));
    line_number(PROTOCOL_REVISION);
    line_name(TEXT("board"));
    line_characters(head->board);
    line_name(TEXT("firmware"));
    line_characters(head->firmware);
    line_name(TEXT("simulated"));
    line_text(head->simulated ? TEXT("yes") : TEXT("no"));
    line_name(TEXT("boot"));
    line_number(head->boot);
    line_name(TEXT("ticks"));
    line_ticks(&head->ticks);
    line_name(TEXT("period"));
    line_number(head->period);
    line_name(TEXT("inputs"));
    line_number(head->inputs);
    line_name(TEXT("kept"));
    line_number(head->kept);
    line_name(TEXT("channels"));
}

void line_hello_channel(bool first, uint8_t channel, enum form form, char thermocouple)
{
    if (!first) line_character(',');
    line_number(channel);
    line_text(form == FORM_VOLTAGE ? TEXT(":voltage:") : TEXT(":temperature:"));
    line_character(thermocouple);
}

void line_sample_head(const struct sample_head *head)
{
    line_begin(TEXT("sample"));
    line_name(TEXT("boot"));
    line_number(head->boot);
    line_name(TEXT("sequence"));
    line_number(head->sequence);
    line_name(TEXT("ticks"));
    line_ticks(&head->ticks);
    line_name(TEXT("resent"));
    line_text(head->resent ? TEXT("yes") : TEXT("no"));
    line_name(TEXT("inputs"));
    line_hexadecimal(head->inputs);
}

void line_reading(uint8_t channel, const struct reading *reading)
{
    line_character(' ');
    line_number(channel);
    line_character('=');
    if (reading->form == FORM_NONE) line_character('-');
    else line_signed(reading->value);
    if (reading->form == FORM_VOLTAGE) {
        line_character('@');
        line_signed(reading->cold);
    }
    if (reading->faults == 0) return;
    line_character('!');
    const char *letters = TEXT(FAULT_LETTERS);
    for (uint8_t kind = 0; kind < FAULT_KINDS; kind++) {
        if (reading->faults & (1u << kind)) line_character(text_byte(letters + kind));
    }
}

void line_reply(uint16_t command, enum outcome outcome)
{
    line_begin(TEXT("reply"));
    line_name(TEXT("command"));
    line_number(command);
    line_name(TEXT("outcome"));
    switch (outcome) {
    case OUTCOME_DONE:
        line_text(TEXT("done"));
        break;
    case OUTCOME_REFUSED:
        line_text(TEXT("refused"));
        break;
    case OUTCOME_NOT_KEPT:
        line_text(TEXT("not-kept"));
        break;
    }
    line_end();
}
