/*
 * A thermocouple converter of the MAX31856 kind in voltage mode, over SPI: it measures the voltage and its own
 * temperature and linearises nothing, so that the station can make the temperature again at any time.
 *
 * Register numbers, bits and the scale of voltage mode (code = 8 * 1.6 * 2^17 * volts) are the part's data sheet's, from
 * memory; the model that the tests run on is written from the same memory. Try each board with a known voltage once.
 *
 * What the part cannot tell in voltage mode: whether the voltage belongs to a temperature (its range and threshold bits
 * speak of linearised degrees and are not looked at), and a short of the pair or to the part that is measured.
 */
#ifndef CONVERTER_H
#define CONVERTER_H

#include "frame.h"
#include "ring.h"

/* One conversion with the 50 Hz filter and the test for an open wire: about 185 ms at most; more is a fault. */
#define CONVERSION_LONGEST 250u
/* The shortest period that leaves room for a conversion and its line. */
#define PERIOD_SHORTEST 300u

/* Writes all settings; each converter gets another number into a register that voltage mode does not use. */
void converter_set(uint8_t channel, bool mains_60_hertz);
/*
 * Begins one conversion, with the test for an open wire. False if the line that tells a result hangs: what is fetched
 * then may be the number of before.
 */
bool converter_begin(uint8_t channel, bool mains_60_hertz);
/*
 * Fetches the result. Silent if the converter has none ready, if its settings are not what was written, or if it bears
 * another converter's number: then what it says is no reading of this channel, and its settings are written again.
 */
void converter_fetch(uint8_t channel, bool mains_60_hertz, struct taken *taken);

/* What goes on the wire for it. False if nothing does: a silent converter has no reading. */
bool converter_reading(const struct taken *taken, struct reading *reading);

#endif
