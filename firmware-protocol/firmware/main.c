/*
 * Reference firmware: an ATmega328P at 16 MHz reads one thermocouple amplifier each second, says so on UART 0 and keeps
 * a day of minutes. It switches nothing. PROTOCOL.md says what it sends; PORTING.md how to wire it.
 */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/sleep.h>
#include <avr/wdt.h>

#include "../c/kilnside_line.h"
#include "amplifier.h"
#include "clock.h"
#include "kept.h"
#include "serial.h"

#ifdef MCUSECTION /* tells simavr what it simulates; not in the flashed image */
#include "avr_mcu_section.h"
AVR_MCU(F_CPU, "atmega328p");
#endif

#ifndef DEVICE
#define DEVICE "kiln"
#endif
#ifndef THERMOCOUPLE
#define THERMOCOUPLE 'K'
#endif
#define FIRMWARE "reference-1.0"
enum { LINE_INTERVAL_MS = 1000 };

/* Survives a press of reset: the start-up code does not clear it. */
static kept_memory kept __attribute__((section(".noinit")));
static uint8_t reset_cause __attribute__((section(".noinit")));
static uint32_t base; /* kept minutes before this boot */

static char line[KILNSIDE_LINE_SIZE];
static kilnside_writer writer;
static uint16_t sequence;

/* What has been asked and not yet answered. */
static uint8_t hello_wanted;
static struct {
    uint8_t wanted;
    int32_t from_minute;
    uint32_t next;
    uint16_t sent;
} transfer;

/* Before main and before memory is set up: after a watchdog reset the watchdog is still on, at its shortest. */
void note_reset_cause(void) __attribute__((naked, used, section(".init3")));
void note_reset_cause(void) {
    reset_cause = MCUSR;
    MCUSR = 0;
    wdt_disable();
}

static void begin_line(char kind, uint32_t uptime_ms) {
    kilnside_begin(&writer, line, sizeof line, kind, sequence, uptime_ms);
}

static void send_line(void) {
    int length = kilnside_finish(&writer);
    if (length > 0) {
        sequence++;
        serial_send(line, (uint8_t)length);
    }
}

static void send_hello(void) {
    static const char type[] = {THERMOCOUPLE, 0};
    begin_line(KILNSIDE_HELLO, clock_uptime_ms());
    kilnside_number(&writer, 'v', 0, KILNSIDE_PROTOCOL_VERSION);
    kilnside_text(&writer, 'd', 0, DEVICE);
    kilnside_text(&writer, 'w', 0, FIRMWARE);
    kilnside_number(&writer, 'n', 0, 1);
    kilnside_text(&writer, 'p', 1, type);
    kilnside_text(&writer, 'a', 1, amplifier_name);
    kilnside_number(&writer, 'i', 0, LINE_INTERVAL_MS);
    kilnside_number(&writer, 'k', 0, kept_reach(&kept));
    /* MCUSR's four bits are the wire's. A boot loader that clears them leaves 0: then it is not known. */
    kilnside_number(&writer, 'r', 0, reset_cause & 0x0F ? reset_cause & 0x0F : 255);
    send_line();
}

static void put_channel(uint8_t has_codes, int32_t thermocouple, int16_t cold_junction, uint8_t faults) {
    if (has_codes) {
        kilnside_number(&writer, 't', 1, thermocouple);
        kilnside_number(&writer, 'j', 1, cold_junction);
    }
    if (faults) kilnside_number(&writer, 'f', 1, faults);
}

static void keep(const amplifier_reading *reading, uint32_t minute) {
    /* The first minute of a boot is kept with the second: a controller that resets every few seconds must not push a
       day of readings out of memory. */
    static kept_reading first;
    kept_reading now = {.has_reading = reading->answered && !reading->faults,
                        .thermocouple = reading->thermocouple,
                        .cold_junction = reading->cold_junction,
                        .faults = reading->faults};
    if (minute == 0) {
        if (!first.has_reading && !first.faults) first = now;
    } else {
        if (kept.total == base) kept_add(&kept, &amplifier_packing, base, 0, &first);
        kept_add(&kept, &amplifier_packing, base, minute, &now);
    }
}

static uint32_t minute_of_boot(void) {
    return (clock_ticks() - CLOCK_START_TICKS) / TICKS_A_MINUTE;
}

static void take_reading(void) {
    uint32_t uptime_ms = clock_uptime_ms();
    amplifier_reading reading = amplifier_read();
    begin_line(KILNSIDE_READING, uptime_ms);
    put_channel(reading.answered, reading.thermocouple, reading.cold_junction, reading.faults);
    send_line();
    keep(&reading, minute_of_boot());
}

/* How many minutes the count through resets is ahead of the minutes on the wire; they part at the wrap of uptime. */
static int32_t wire_minute(uint32_t place, uint32_t uptime_ms) {
    return (int32_t)(uptime_ms / 60000) + (int32_t)(place - (base + minute_of_boot()));
}

static void begin_transfer(int32_t from_minute) {
    int32_t ago = (int32_t)(clock_uptime_ms() / 60000) - from_minute;
    int32_t place = (int32_t)(base + minute_of_boot()) - ago;
    transfer.wanted = 1;
    transfer.from_minute = from_minute;
    transfer.next = place > 0 ? (uint32_t)place : 0;
    transfer.sent = 0;
}

static void send_kept(void) {
    kept_reading reading;
    uint8_t span;
    uint32_t place = kept_next(&kept, &amplifier_packing, transfer.next, &span, &reading);
    uint32_t uptime_ms = clock_uptime_ms();
    if (place == UINT32_MAX) {
        transfer.wanted = 0;
        begin_line(KILNSIDE_KEPT_END, uptime_ms);
        kilnside_number(&writer, 'o', 0, transfer.from_minute);
        kilnside_number(&writer, 'n', 0, transfer.sent);
    } else {
        transfer.next = place + 1;
        transfer.sent++;
        begin_line(KILNSIDE_KEPT, uptime_ms);
        kilnside_number(&writer, 'o', 0, wire_minute(place, uptime_ms));
        kilnside_number(&writer, 'x', 0, span);
        put_channel(reading.has_reading, reading.thermocouple, reading.cold_junction, reading.faults);
    }
    send_line();
}

static void hear(void) {
    static kilnside_request_reader requests;
    int32_t minute = 0;
    for (int16_t byte; (byte = serial_receive()) >= 0;) {
        switch (kilnside_take_request(&requests, (uint8_t)byte, &minute)) {
            case KILNSIDE_ASKS_HELLO: hello_wanted = 1; break;
            case KILNSIDE_ASKS_KEPT: begin_transfer(minute); break;
            case KILNSIDE_ASKS_NOTHING: break;
        }
    }
}

/* Sleeps until an interrupt: a tick, a byte received, the wire ready for the next byte. Not if one came since the main
   loop last began to look round: then there is something to do, and the next tick may be 100 ms away. */
static void rest(void) {
    set_sleep_mode(SLEEP_MODE_IDLE);
    cli();
    if (!INTERRUPTED) {
        sleep_enable();
        sei();
        sleep_cpu();
        sleep_disable();
    }
    sei();
}

int main(void) {
    uint32_t next_reading, next_hello;
    kept_begin(&kept, &amplifier_packing);
    base = kept.total;
    clock_begin();
    serial_begin();
    amplifier_begin();
    wdt_enable(WDTO_2S);
    sei();
    next_reading = clock_ticks() + TICKS_A_SECOND;
    next_hello = clock_ticks() + TICKS_A_MINUTE;
    send_hello();
    for (;;) {
        wdt_reset();
        INTERRUPTED = 0;
        hear();
        if (serial_busy()) {
            rest();
        } else if ((int32_t)(clock_ticks() - next_reading) >= 0) {
            next_reading += TICKS_A_SECOND;
            take_reading();
        } else if (hello_wanted || (int32_t)(clock_ticks() - next_hello) >= 0) {
            if (!hello_wanted) next_hello += TICKS_A_MINUTE;
            hello_wanted = 0;
            send_hello();
        } else if (transfer.wanted) {
            send_kept();
        } else {
            rest();
        }
    }
}
