/* The thermocouple amplifier on the board's SPI: a MAX31855 or a MAX31856, its thermocouple, and what can go wrong. */
#ifndef CHIP_H
#define CHIP_H

#include <stdint.h>

int chip_choose(const char *name);
void chip_power_up(void);

/* What it measures: °C at the tip as the chip would show it, and of the chip itself. Each moves evenly to a target over
   some seconds of simulated time; 0 = at once. */
void chip_temperature(double celsius, double over_s);
void chip_cold_junction(double celsius, double over_s);
/* none open ground supply range cold-range voltage | no-answer (wire at 1) stuck-low (wire at 0) noise (one bit wrong in
   every third byte or so). Returns 0 for a word it does not know. */
int chip_fault(const char *word);

/* Moves the temperatures on. */
void chip_live(double time_s);

void chip_select(int selected, double time_s);
uint8_t chip_exchange(uint8_t from_master);

/* Frames answered in whole; each was said as
   CHIP <seconds> <number> t=<code> j=<code> f=<fault bits of the wire> bytes=<hex> */
long chip_frames(void);

#endif
