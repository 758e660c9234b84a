/* Writes lines to the host, a byte at a time: no line is ever held whole. */
#ifndef LINE_H
#define LINE_H

#include "frame.h"
#include "text.h"

/* A line is begun with its kind, gets its fields in their order, and is ended, which adds the check value and the LF. */
void line_begin(const char *kind);
void line_end(void);

/* The text of name lies where TEXT puts it. */
void line_name(const char *name);
void line_text(const char *text);
void line_characters(const char *characters);
void line_character(char character);
void line_number(uint32_t number);
void line_signed(int32_t number);
void line_ticks(const struct ticks *ticks);
void line_hexadecimal(uint16_t number);

/* Then its channels, by rising number from 1. */
void line_hello_head(const struct hello_head *head);
void line_hello_channel(bool first, uint8_t channel, enum form form, char thermocouple);
void line_sample_head(const struct sample_head *head);
/* channel counts from 1. */
void line_reading(uint8_t channel, const struct reading *reading);
void line_reply(uint16_t command, enum outcome outcome);

#endif
