/* The kept readings on a desk computer, against a plain list of all that was ever kept. Independent: the list knows
   nothing of rings and bits. */
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "../../c/test/check.h"
#include "../amplifier.h"

static const kept_packing max31855 = MAX31855_PACKING;
static const kept_packing max31856 = MAX31856_PACKING;

static kept_memory memory;
static kept_reading list[5000];

static kept_reading at(int32_t thermocouple, int16_t cold_junction) {
    return (kept_reading){1, thermocouple, cold_junction, 0};
}

static void every_kept_value_comes_back(const kept_packing *packing, int32_t least, int32_t most, int16_t cold_least,
                                        int16_t cold_most) {
    int32_t step = 1 << packing->thermocouple_shift, cold_step = 1 << packing->cold_shift;
    for (int32_t code = least; code <= most; code += 7) {
        int16_t cold = (int16_t)(cold_least + (code - least) % (cold_most - cold_least + 1));
        kept_reading in = at(code, cold), out;
        uint8_t span;
        memset(&memory, 0xA5, sizeof memory);
        CHECK(!kept_begin(&memory, packing), "noise is not taken over");
        kept_add(&memory, packing, 0, 0, &in);
        CHECK(kept_next(&memory, packing, 0, &span, &out) == 0 && out.has_reading, "code %ld", (long)code);
        CHECK(labs((long)(out.thermocouple - code)) * 2 <= step, "code %ld came back as %ld", (long)code,
              (long)out.thermocouple);
        CHECK(abs(out.cold_junction - cold) * 2 <= cold_step, "cold %d came back as %d", cold, out.cold_junction);
    }
}

static void a_cold_junction_beyond_what_fits_is_the_nearest_that_does(void) {
    kept_reading in = at(0, 2047), out;
    uint8_t span;
    memset(&memory, 0, sizeof memory);
    kept_begin(&memory, &max31855);
    kept_add(&memory, &max31855, 0, 0, &in);
    kept_next(&memory, &max31855, 0, &span, &out);
    CHECK(out.cold_junction == (1023 - 320) * 2, "87.875 °C for 127.9 °C, found %d", out.cold_junction);
}

/* Whether what the memory says from a minute on is just what the list says should be there. */
static void check_against_list(uint32_t total, uint32_t from) {
    uint32_t minutes_from = total > KEPT_MINUTES ? total - KEPT_MINUTES : 0, place = from;
    uint32_t quarters_from = minutes_from > 1095 ? (minutes_from - 1) / 15 * 15 + 15 - 1095 : 0;
    for (uint32_t minute = from; minute < total; minute++) {
        int expected = minute >= minutes_from || (minute % 15 == 0 && minute >= quarters_from);
        kept_reading out;
        uint8_t span = 0;
        if (!expected || (!list[minute].has_reading && !list[minute].faults)) continue;
        place = kept_next(&memory, &max31855, place, &span, &out);
        CHECK(place == minute, "total %u: minute %u expected, found %u", total, minute, place);
        CHECK(out.has_reading == list[minute].has_reading && out.faults == list[minute].faults, "minute %u", minute);
        CHECK(!out.has_reading || out.thermocouple == list[minute].thermocouple, "minute %u", minute);
        CHECK(span == (minute >= minutes_from ? 1 : minute + 15 > minutes_from ? minutes_from - minute : 15),
              "span %u at %u of %u", span, minute, total);
        place++;
    }
    kept_reading out;
    uint8_t span;
    CHECK(kept_next(&memory, &max31855, place, &span, &out) == UINT32_MAX, "total %u: more than expected", total);
}

static void a_day_and_more_is_kept_at_falling_resolution(void) {
    memset(&memory, 0, sizeof memory);
    kept_begin(&memory, &max31855);
    for (uint32_t minute = 0; minute < 4000; minute++) {
        list[minute] = minute % 97 == 5 ? (kept_reading){0, 0, 0, 1} : at((int32_t)(minute % 5000), 376);
        kept_add(&memory, &max31855, 0, minute, &list[minute]);
        if (minute < 30 || minute % 37 == 0 || (minute > 340 && minute < 400)) {
            check_against_list(minute + 1, 0);
            check_against_list(minute + 1, minute / 2);
        }
        if (minute >= 1455) CHECK(kept_reach(&memory) >= 1440 && kept_reach(&memory) <= 1455, "%u", kept_reach(&memory));
    }
}

static void a_reset_loses_nothing_and_counts_on(void) {
    kept_reading in = at(100, 376);
    uint32_t base;
    memset(&memory, 0, sizeof memory);
    kept_begin(&memory, &max31855);
    for (uint32_t minute = 0; minute < 10; minute++) kept_add(&memory, &max31855, 0, minute, &in);
    CHECK(kept_begin(&memory, &max31855) == 1, "taken over");
    base = memory.total;
    CHECK(base == 10, "found %u", base);
    kept_add(&memory, &max31855, base, 0, &in);
    CHECK(memory.total == 11 && kept_reach(&memory) == 11, "found %u", memory.total);
}

static void any_damaged_byte_empties_the_memory(void) {
    kept_reading in = at(100, 376);
    for (size_t i = 0; i < offsetof(kept_memory, crc) + 2; i++) {
        memset(&memory, 0, sizeof memory);
        kept_begin(&memory, &max31855);
        kept_add(&memory, &max31855, 0, 0, &in);
        ((uint8_t *)&memory)[i] ^= 0x10;
        CHECK(!kept_begin(&memory, &max31855) && memory.total == 0, "byte %zu", i);
    }
}

static void another_amplifier_does_not_read_it(void) {
    kept_reading in = at(100, 376);
    memset(&memory, 0, sizeof memory);
    kept_begin(&memory, &max31855);
    kept_add(&memory, &max31855, 0, 0, &in);
    CHECK(!kept_begin(&memory, &max31856) && kept_reach(&memory) == 0, "emptied");
}

static void minutes_left_out_are_holes(void) {
    kept_reading in = at(100, 376), out;
    uint8_t span;
    memset(&memory, 0, sizeof memory);
    kept_begin(&memory, &max31855);
    kept_add(&memory, &max31855, 0, 2, &in);
    kept_add(&memory, &max31855, 0, 7, &in);
    kept_add(&memory, &max31855, 0, 7, &in);
    CHECK(memory.total == 8, "found %u", memory.total);
    CHECK(kept_next(&memory, &max31855, 0, &span, &out) == 2, "two first");
    CHECK(kept_next(&memory, &max31855, 3, &span, &out) == 7, "seven next");
    CHECK(kept_next(&memory, &max31855, 8, &span, &out) == UINT32_MAX, "no more");
}

int main(void) {
    every_kept_value_comes_back(&max31855, -8191, 8191, -640, 1407);
    every_kept_value_comes_back(&max31856, -262143 + 4, 262143 - 4, -2560, 5567);
    a_cold_junction_beyond_what_fits_is_the_nearest_that_does();
    a_day_and_more_is_kept_at_falling_resolution();
    a_reset_loses_nothing_and_counts_on();
    any_damaged_byte_empties_the_memory();
    another_amplifier_does_not_read_it();
    minutes_left_out_are_holes();
    return report("kept_test");
}
