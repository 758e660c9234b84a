/*
 * ATmega328P at 3.3 V with a crystal: SPI to the converters through a decoder, UART to the host, a step of 10 ms by
 * timer 1, a watchdog of 2 s. Between steps and bytes the processor sleeps. Wiring: README.md of the board.
 */
#include <avr/eeprom.h>
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "board.h"
#include "port.h"

#define BAUD 115200UL
#define STEP_MILLISECONDS 10u
#define STEP_COUNTS (F_CPU / 64UL * STEP_MILLISECONDS / 1000UL)

#if F_CPU % (8UL * BAUD) != 0
#error "This crystal does not give 115200 bit/s exactly: take 7.3728 MHz at 3.3 V."
#endif
#if F_CPU / 64UL * STEP_MILLISECONDS % 1000UL != 0
#error "This crystal does not give a step of whole milliseconds."
#endif

/* Powers of two, so that a mask wraps. */
#define SENT_ROOM 64u
#define HEARD_ROOM 64u

static volatile uint8_t sent[SENT_ROOM];
static volatile uint8_t sent_in;
static volatile uint8_t sent_out;
static volatile uint8_t heard[HEARD_ROOM];
static volatile uint8_t heard_in;
static volatile uint8_t heard_out;
static volatile uint8_t steps;

ISR(TIMER1_COMPA_vect)
{
    steps++;
}

/* A byte for which there is no room is lost, and with it its line, which its check value then shows. */
ISR(USART_RX_vect)
{
    uint8_t byte = UDR0;
    uint8_t next = (uint8_t)((heard_in + 1u) & (HEARD_ROOM - 1u));
    if (next == heard_out) return;
    heard[heard_in] = byte;
    heard_in = next;
}

ISR(USART_UDRE_vect)
{
    if (sent_out == sent_in) {
        UCSR0B &= (uint8_t)~_BV(UDRIE0);
        return;
    }
    UDR0 = sent[sent_out];
    sent_out = (uint8_t)((sent_out + 1u) & (SENT_ROOM - 1u));
}

/* Sleeps until the next interrupt, unless what was waited for has come; interrupts are off when this is called. */
static void sleep_enabled(void)
{
    sleep_enable();
    sei();
    sleep_cpu();
    sleep_disable();
}

static void hear_all(void)
{
    while (heard_out != heard_in) {
        uint8_t byte = heard[heard_out];
        heard_out = (uint8_t)((heard_out + 1u) & (HEARD_ROOM - 1u));
        board_hear(byte);
    }
}

/* A line takes longer to send than what comes meanwhile has room: so it is heard while this waits. */
void port_send(uint8_t byte)
{
    uint8_t next = (uint8_t)((sent_in + 1u) & (SENT_ROOM - 1u));
    for (;;) {
        cli();
        if (next != sent_out) break;
        sleep_enabled();
        hear_all();
    }
    sent[sent_in] = byte;
    sent_in = next;
    UCSR0B |= _BV(UDRIE0);
    sei();
}

/* Decoder and multiplexer share three address lines; the decoder is enabled by its own. */
static void address(uint8_t channel)
{
    PORTB = (uint8_t)((PORTB & ~(_BV(PB0) | _BV(PB1))) | (channel & 1u ? _BV(PB0) : 0) | (channel & 2u ? _BV(PB1) : 0));
    if (channel & 4u) PORTD |= _BV(PD7);
    else PORTD &= (uint8_t)~_BV(PD7);
}

void port_select(uint8_t channel)
{
    address(channel);
    PORTB |= _BV(PB2);
}

void port_release(void)
{
    PORTB &= (uint8_t)~_BV(PB2);
}

uint8_t port_exchange(uint8_t byte)
{
    SPDR = byte;
    while (!(SPSR & _BV(SPIF))) {}
    return SPDR;
}

bool port_ready(uint8_t channel)
{
    address(channel);
    /* The multiplexer needs some tens of nanoseconds, the input two clocks. */
    __builtin_avr_delay_cycles(4);
    return !(PIND & _BV(PD6));
}

/* Contacts to ground, pulled up: input 1 to 4 on PD2 to PD5. */
uint8_t port_inputs(void)
{
    return (uint8_t)((~PIND >> PD2) & 0x0F);
}

static void output(uint8_t pin, bool on)
{
    if (on) PORTC |= (uint8_t)_BV(pin);
    else PORTC &= (uint8_t)~_BV(pin);
}

void port_lamp(bool on)
{
    output(PC0, on);
}

void port_horn(bool on)
{
    output(PC1, on);
}

void port_permission(bool given)
{
    output(PC2, given);
}

uint8_t port_keep_read(uint16_t place)
{
    return eeprom_read_byte((const uint8_t *)place);
}

void port_keep_write(uint16_t place, uint8_t byte)
{
    eeprom_update_byte((uint8_t *)place, byte);
}

void port_restart(void)
{
    for (;;) {}
}

static void begin(void)
{
    /* Address lines, enable, MOSI and SCK out; MISO pulled up, so that a missing converter reads all ones. */
    DDRB = _BV(PB0) | _BV(PB1) | _BV(PB2) | _BV(PB3) | _BV(PB5);
    PORTB = _BV(PB4);
    DDRC = _BV(PC0) | _BV(PC1) | _BV(PC2);
    PORTC = 0;
    DDRD = _BV(PD1) | _BV(PD7);
    PORTD = _BV(PD2) | _BV(PD3) | _BV(PD4) | _BV(PD5) | _BV(PD6);
    /* SPI mode 1, a quarter of the crystal: below the 5 MHz of the converters. */
    SPCR = _BV(SPE) | _BV(MSTR) | _BV(CPHA);
    SPSR = 0;
    UBRR0 = (uint16_t)(F_CPU / (8UL * BAUD) - 1UL);
    UCSR0A = _BV(U2X0);
    UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
    UCSR0B = _BV(RXCIE0) | _BV(RXEN0) | _BV(TXEN0);
    OCR1A = (uint16_t)(STEP_COUNTS - 1UL);
    TIMSK1 = _BV(OCIE1A);
    TCCR1B = _BV(WGM12) | _BV(CS11) | _BV(CS10);
    set_sleep_mode(SLEEP_MODE_IDLE);
    wdt_enable(WDTO_2S);
    sei();
}

static uint8_t steps_passed(void)
{
    cli();
    uint8_t passed = steps;
    steps = 0;
    sei();
    return passed;
}

int main(void)
{
    /* After a reset by the watchdog it runs on with its shortest time. */
    MCUSR = 0;
    wdt_disable();
    begin();
    board_start();
    for (;;) {
        uint8_t passed = steps_passed();
        hear_all();
        board_answer();
        if (passed > 0) board_pass((uint16_t)(passed * STEP_MILLISECONDS));
        wdt_reset();
        cli();
        if (steps == 0 && heard_out == heard_in) sleep_enabled();
        sei();
    }
}
