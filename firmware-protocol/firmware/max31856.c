/* MAX31856: registers over SPI mode 1; converts by itself, follows the thermocouple's curve. */
#include "amplifier.h"

#include "../c/kilnside_line.h"
#include "spi.h"

#ifndef MAINS_HZ
#define MAINS_HZ 50
#endif
#ifndef THERMOCOUPLE
#define THERMOCOUPLE 'K'
#endif

enum { CR0 = 0x00, CJTH = 0x0A, WRITE = 0x80 };
/* Convert by itself, look for an open circuit (below 5 kOhm), filter the mains. */
enum { CR0_SETTING = 0x80 | 0x10 | (MAINS_HZ == 50 ? 1 : 0) };
/* Mean of four conversions (0x20), and the type of thermocouple. */
enum {
    TYPE = THERMOCOUPLE == 'B'   ? 0
           : THERMOCOUPLE == 'E' ? 1
           : THERMOCOUPLE == 'J' ? 2
           : THERMOCOUPLE == 'K' ? 3
           : THERMOCOUPLE == 'N' ? 4
           : THERMOCOUPLE == 'R' ? 5
           : THERMOCOUPLE == 'S' ? 6
                                 : 7,
    CR1_SETTING = 0x20 | TYPE
};

_Static_assert(THERMOCOUPLE == 'B' || THERMOCOUPLE == 'E' || THERMOCOUPLE == 'J' || THERMOCOUPLE == 'K'
                   || THERMOCOUPLE == 'N' || THERMOCOUPLE == 'R' || THERMOCOUPLE == 'S' || THERMOCOUPLE == 'T',
               "the MAX31856 knows the thermocouples B E J K N R S T");

const char amplifier_name[] = "MAX31856";

const kept_packing amplifier_packing = MAX31856_PACKING;

static void configure(void) {
    spi_select();
    spi_exchange(CR0 | WRITE);
    spi_exchange(CR0_SETTING);
    spi_exchange(CR1_SETTING);
    spi_release();
}

void amplifier_begin(void) {
    spi_begin(1);
    configure();
}

amplifier_reading amplifier_read(void) {
    amplifier_reading reading;
    uint8_t setting, type, status;
    uint16_t cold;
    uint32_t code;
    spi_select();
    spi_exchange(CR0);
    setting = spi_exchange(0);
    type = spi_exchange(0);
    spi_release();
    if (setting != CR0_SETTING || type != CR1_SETTING) { /* absent, or it lost its supply and with it its settings */
        configure();
        reading = (amplifier_reading){.faults = KILNSIDE_FAULT_NO_ANSWER};
        return reading;
    }
    spi_select();
    spi_exchange(CJTH);
    cold = (uint16_t)spi_exchange(0) << 8;
    cold |= spi_exchange(0);
    code = (uint32_t)spi_exchange(0) << 24;
    code |= (uint32_t)spi_exchange(0) << 16;
    code |= (uint32_t)spi_exchange(0) << 8;
    status = spi_exchange(0);
    spi_release();
    reading.thermocouple = (int32_t)code >> 13; /* top 19 of 24 bits, now at the top of 32 */
    reading.cold_junction = (int16_t)cold >> 2; /* top 14 of 16 bits */
    reading.faults = (uint8_t)((status & 0x01 ? KILNSIDE_FAULT_OPEN : 0) | (status & 0x02 ? KILNSIDE_FAULT_INPUT_VOLTAGE : 0)
                               | (status & 0x40 ? KILNSIDE_FAULT_OUT_OF_RANGE : 0)
                               | (status & 0x80 ? KILNSIDE_FAULT_COLD_JUNCTION_OUT_OF_RANGE : 0));
    reading.answered = 1;
    return reading;
}
