/* What the firmware needs of a thermocouple amplifier. One of max31855.c and max31856.c is linked. */
#ifndef AMPLIFIER_H
#define AMPLIFIER_H

#include <stdint.h>

#include "kept.h"

/* One look at the amplifier. Codes in its own steps, as the chip gave them. */
typedef struct {
    int32_t thermocouple;
    int16_t cold_junction;
    uint8_t faults;   /* kilnside_fault bits; 0 = none */
    uint8_t answered; /* 0: the codes mean nothing, and faults has KILNSIDE_FAULT_NO_ANSWER */
} amplifier_reading;

/* 14 bits of 1/4 °C kept whole; cold junction from 1/16 to 1/8 °C, -40 to +87.875 °C in 10 bits. */
#define MAX31855_PACKING {.cold_bits = 10, .thermocouple_shift = 0, .cold_shift = 1, .cold_lowest = -40 * 8}
/* 17 bits of 1/32 °C; cold junction in whole °C, -40 to +87 °C in 7 bits: it is already in the linearised value, and
   only shows how warm the electronics are. */
#define MAX31856_PACKING {.cold_bits = 7, .thermocouple_shift = 2, .cold_shift = 6, .cold_lowest = -40}

extern const char amplifier_name[]; /* as in amplifiers.csv */
extern const kept_packing amplifier_packing;

void amplifier_begin(void);
amplifier_reading amplifier_read(void);

#endif
