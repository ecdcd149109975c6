/* SPI as master on an ATmega328P: SCK PB5 (13), MISO PB4 (12), MOSI PB3 (11), chip select PB2 (10). */
#ifndef SPI_H
#define SPI_H

#include <avr/io.h>
#include <stdint.h>

static inline void spi_begin(uint8_t mode) {
    PORTB |= _BV(PB2); /* chip select high before it becomes an output */
    DDRB |= _BV(PB2) | _BV(PB3) | _BV(PB5);
    PORTB |= _BV(PB4); /* pull-up: a missing chip reads as all ones */
    SPCR = (uint8_t)(_BV(SPE) | _BV(MSTR) | _BV(SPR0) | (mode << CPHA)); /* F_CPU / 16: 1 MHz at 16 MHz */
}

static inline void spi_select(void) {
    PORTB &= (uint8_t)~_BV(PB2);
}

static inline void spi_release(void) {
    PORTB |= _BV(PB2);
}

static inline uint8_t spi_exchange(uint8_t byte) {
    SPDR = byte;
    while (!(SPSR & _BV(SPIF))) {
    }
    return SPDR;
}

#endif
