/* MAX31855: 32 bits out, nothing in (Maxim 19-5793 Rev 5, page 10). */
#include "amplifier.h"

#include "../c/kilnside_line.h"
#include "spi.h"

const char amplifier_name[] = "MAX31855";

const kept_packing amplifier_packing = MAX31855_PACKING;

void amplifier_begin(void) {
    spi_begin(0);
}

amplifier_reading amplifier_read(void) {
    amplifier_reading reading;
    uint16_t high, low;
    spi_select();
    high = (uint16_t)spi_exchange(0) << 8;
    high |= spi_exchange(0);
    low = (uint16_t)spi_exchange(0) << 8;
    low |= spi_exchange(0);
    spi_release();
    reading.thermocouple = (int16_t)high >> 2;
    reading.cold_junction = (int16_t)low >> 4;
    reading.faults = (uint8_t)((low & 1 ? KILNSIDE_FAULT_OPEN : 0) | (low & 2 ? KILNSIDE_FAULT_SHORT_TO_GROUND : 0)
                               | (low & 4 ? KILNSIDE_FAULT_SHORT_TO_SUPPLY : 0));
    /* D17 and D3 are always 0 and D16 says whether D2..D0 has a bit: a dead line (all ones, all zeros) cannot pass for
       a temperature. All zeros would also be exactly 0.00 °C at both ends; losing that one reading does no harm. */
    reading.answered = !(high & 2) && !(low & 8) && (high & 1) == (reading.faults != 0) && (high || low);
    if (!reading.answered) reading.faults = KILNSIDE_FAULT_NO_ANSWER;
    return reading;
}
