/* Constant text lies where everything else lies. */
#ifndef TEXT_H
#define TEXT_H

#define TEXT(literal) (literal)
#define text_byte(place) (*(place))

#endif
