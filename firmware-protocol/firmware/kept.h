/*
 * Readings kept for whoever was not listening: 24 hours in 1,299 bytes. The last 6 hours minute by minute, the 18 hours
 * before by quarter hours, 3 bytes each; one quarter hour more than 72, because the oldest is as a rule cut into. Plain C without hardware, so that a desk computer can test it.
 *
 * Minutes are counted through resets: the first minute of a boot follows the last one kept, as if the reset had taken
 * no time. Memory that survives a press of reset must not be cleared at start: give it to .noinit.
 */
#ifndef KEPT_H
#define KEPT_H

#include <stdint.h>

enum { KEPT_MINUTES = 360, KEPT_QUARTERS = 73, KEPT_QUARTER = 15 };

/* How an amplifier's codes go into 24 bits: thermocouple above, cold junction below. */
typedef struct {
    uint8_t cold_bits;          /* bits of the cold junction; at least 7, because fault bits take their place */
    uint8_t thermocouple_shift; /* codes are kept to 2^shift steps, rounded */
    uint8_t cold_shift;
    int16_t cold_lowest;        /* the coldest cold junction that can be kept, in kept steps */
} kept_packing;

typedef struct {
    uint8_t bytes[3];
} kept_slot;

typedef struct {
    uint32_t total; /* minutes kept since the memory was last empty, holes included; the newest is total - 1 */
    kept_slot minutes[KEPT_MINUTES];
    kept_slot quarters[KEPT_QUARTERS];
    uint16_t packing_id; /* another amplifier's memory is not read as this one's */
    uint16_t crc;
} kept_memory;

/* What a slot holds. Neither reading nor faults: a hole. */
typedef struct {
    uint8_t has_reading;
    int32_t thermocouple; /* in the amplifier's steps, rounded as the packing says */
    int16_t cold_junction;
    uint8_t faults;
} kept_reading;

/* Takes over what an earlier boot left, if its CRC holds; else empties. Returns 1 if something was taken over. */
uint8_t kept_begin(kept_memory *memory, const kept_packing *packing);

/* Keeps a minute's reading: `minute` is the minute of this boot, `base` what memory->total was when it began. Minutes
   left out become holes. A minute already kept stays as it is. */
void kept_add(kept_memory *memory, const kept_packing *packing, uint32_t base, uint32_t minute,
              const kept_reading *reading);

/* How many minutes back from the newest the memory reaches, the newest counting as one; 0 = empty. */
uint16_t kept_reach(const kept_memory *memory);

/* The first kept minute (counted through resets) at or after `from`; sets the minutes to the next one due and reads the
   slot. Returns the minute, or UINT32_MAX when there is none. Holes are passed over. */
uint32_t kept_next(const kept_memory *memory, const kept_packing *packing, uint32_t from, uint8_t *span,
                   kept_reading *reading);

#endif
