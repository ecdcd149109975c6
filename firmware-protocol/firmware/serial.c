#include "serial.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "clock.h"

#ifndef BAUD
#define BAUD 115200UL
#endif

static const char *volatile next_out;
static volatile uint8_t left_out;
static volatile uint8_t received[16]; /* a request has at most 12 bytes */
static volatile uint8_t head, tail;

void serial_begin(void) {
    UCSR0A = _BV(U2X0); /* double speed: 115200 is 2.1 % off at 16 MHz with it, 3.5 % without */
    UBRR0 = (uint16_t)((F_CPU + 4 * BAUD) / (8 * BAUD) - 1);
    UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
    UCSR0B = _BV(TXEN0) | _BV(RXEN0) | _BV(RXCIE0);
}

ISR(USART_UDRE_vect) {
    INTERRUPTED = 1;
    if (left_out) {
        UDR0 = (uint8_t)*next_out++;
        left_out--;
    }
    if (!left_out) UCSR0B &= (uint8_t)~_BV(UDRIE0);
}

void serial_send(const char *bytes, uint8_t length) {
    next_out = bytes;
    left_out = length;
    UCSR0B |= _BV(UDRIE0);
}

uint8_t serial_busy(void) {
    return left_out;
}

ISR(USART_RX_vect) {
    uint8_t byte = UDR0, next = (uint8_t)((head + 1) % sizeof received);
    INTERRUPTED = 1;
    if (next != tail) {
        received[head] = byte;
        head = next;
    }
}

int16_t serial_receive(void) {
    uint8_t byte;
    if (head == tail) return -1;
    byte = received[tail];
    tail = (uint8_t)((tail + 1) % sizeof received);
    return byte;
}
