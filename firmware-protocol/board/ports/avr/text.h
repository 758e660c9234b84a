/* Constant text stays in flash: in RAM it would take the place of samples. */
#ifndef TEXT_H
#define TEXT_H

#include <avr/pgmspace.h>

#define TEXT(literal) PSTR(literal)
#define text_byte(place) ((char)pgm_read_byte(place))

#endif
