/*
 * What the core asks of the machine that it runs on. Each port has these functions, and its own text.h, which says
 * where constant text lies. Nothing here is called from an interrupt.
 */
#ifndef PORT_H
#define PORT_H

#include <stdbool.h>
#include <stdint.h>

/* To the host. May wait for room, and hand over what is heard meanwhile; never drops. */
void port_send(uint8_t byte);

/* The converters: one is selected at a time, channels count from 0. */
void port_select(uint8_t channel);
void port_release(void);
uint8_t port_exchange(uint8_t byte);
/* True once the converter has a result that was not fetched yet. */
bool port_ready(uint8_t channel);

/* Bit 0 is input 1; a bit is 1 while its contact is closed. Contacts bounce: the core waits that out. */
uint8_t port_inputs(void);

void port_lamp(bool on);
void port_horn(bool on);
/* False: the relay is without current. */
void port_permission(bool given);

/* Memory that keeps without power. */
uint8_t port_keep_read(uint16_t place);
void port_keep_write(uint16_t place, uint8_t byte);

/* Starts the board again as from power up. The host's port comes back from it. */
void port_restart(void);

#endif
