/* Time since boot on Timer 1: a tick each 100 ms, finer from the counter, so that the core can sleep in between. */
#ifndef CLOCK_H
#define CLOCK_H

#include <avr/io.h>
#include <stdint.h>

#ifndef CLOCK_START_TICKS
#define CLOCK_START_TICKS 0UL /* a test build begins just before uptime wraps */
#endif

/* Set by every interrupt. A register of the ATmega328P that has no other use. */
#define INTERRUPTED GPIOR0

enum { TICK_MS = 100, TICKS_A_SECOND = 1000 / TICK_MS, TICKS_A_MINUTE = 60 * TICKS_A_SECOND };

void clock_begin(void);
uint32_t clock_ticks(void);     /* wraps after 13 years */
uint32_t clock_uptime_ms(void); /* wraps as the wire says, after 2^32 ms */

#endif
