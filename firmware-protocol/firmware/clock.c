#include "clock.h"

#include <avr/interrupt.h>
#include <avr/io.h>
#include <util/atomic.h>

enum { COUNTS_A_MS = F_CPU / 64 / 1000 };

static volatile uint32_t ticks = CLOCK_START_TICKS;

ISR(TIMER1_COMPA_vect) {
    ticks++;
    INTERRUPTED = 1;
}

void clock_begin(void) {
    OCR1A = (uint16_t)((uint32_t)COUNTS_A_MS * TICK_MS - 1);
    TCCR1B = _BV(WGM12) | _BV(CS11) | _BV(CS10); /* clear on compare, F_CPU / 64 */
    TCNT1 = 0;
    TIFR1 = _BV(OCF1A); /* nothing pending from before */
    TIMSK1 = _BV(OCIE1A);
}

uint32_t clock_ticks(void) {
    uint32_t now;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        now = ticks;
    }
    return now;
}

uint32_t clock_uptime_ms(void) {
    uint32_t now;
    uint16_t count;
    ATOMIC_BLOCK(ATOMIC_RESTORESTATE) {
        now = ticks;
        count = TCNT1;
        if (TIFR1 & _BV(OCF1A)) { /* the counter began anew, its interrupt waits for us */
            now++;
            count = TCNT1;
        }
    }
    return now * TICK_MS + count / COUNTS_A_MS;
}
