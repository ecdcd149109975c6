#include "kept.h"

#include <stddef.h>
#include <string.h>

#include "../c/kilnside_line.h"

static uint16_t memory_crc(const kept_memory *memory) {
    return kilnside_crc16(KILNSIDE_CRC_START, (const char *)memory, offsetof(kept_memory, crc));
}

static uint16_t id_of(const kept_packing *packing) {
    return (uint16_t)(packing->cold_bits | packing->thermocouple_shift << 5 | packing->cold_shift << 10);
}

/* ---- one slot: three bytes, most significant first ------------------------------------------------------------- */

static int32_t no_reading(const kept_packing *packing) {
    return -((int32_t)1 << (23 - packing->cold_bits)); /* the most negative value: -2048 °C, which nothing gives */
}

static int32_t rounded(int32_t code, uint8_t shift) {
    return shift ? (code + ((int32_t)1 << (shift - 1))) >> shift : code;
}

static kept_slot pack(const kept_packing *packing, const kept_reading *reading) {
    int32_t thermocouple = no_reading(packing), cold = reading->faults & 0x7F, bits;
    if (reading->has_reading) {
        int32_t most = ((int32_t)1 << packing->cold_bits) - 1;
        thermocouple = rounded(reading->thermocouple, packing->thermocouple_shift);
        cold = rounded(reading->cold_junction, packing->cold_shift) - packing->cold_lowest;
        if (cold < 0) cold = 0;
        if (cold > most) cold = most;
    }
    bits = thermocouple * ((int32_t)1 << packing->cold_bits) + cold;
    return (kept_slot){{(uint8_t)(bits >> 16), (uint8_t)(bits >> 8), (uint8_t)bits}};
}

static kept_reading unpack(const kept_packing *packing, kept_slot slot) {
    kept_reading reading = {0, 0, 0, 0};
    int32_t bits = (int32_t)((uint32_t)slot.bytes[0] << 24 | (uint32_t)slot.bytes[1] << 16 | (uint32_t)slot.bytes[2] << 8) >> 8;
    int32_t cold = bits & (((int32_t)1 << packing->cold_bits) - 1);
    int32_t thermocouple = bits >> packing->cold_bits;
    if (thermocouple == no_reading(packing)) {
        reading.faults = (uint8_t)cold;
    } else {
        reading.has_reading = 1;
        reading.thermocouple = thermocouple * ((int32_t)1 << packing->thermocouple_shift);
        reading.cold_junction = (int16_t)((cold + packing->cold_lowest) * (1 << packing->cold_shift));
    }
    return reading;
}

/* ---- the two rings ----------------------------------------------------------------------------------------------- */

uint8_t kept_begin(kept_memory *memory, const kept_packing *packing) {
    if (memory->packing_id == id_of(packing) && memory->crc == memory_crc(memory) && memory->total) return 1;
    memset(memory, 0, sizeof *memory);
    memory->packing_id = id_of(packing);
    memory->crc = memory_crc(memory);
    return 0;
}

static void append(kept_memory *memory, kept_slot slot) {
    kept_slot *place = &memory->minutes[memory->total % KEPT_MINUTES];
    if (memory->total >= KEPT_MINUTES) {
        uint32_t leaving = memory->total - KEPT_MINUTES;
        if (leaving % KEPT_QUARTER == 0) memory->quarters[leaving / KEPT_QUARTER % KEPT_QUARTERS] = *place;
    }
    *place = slot;
    memory->total++;
}

void kept_add(kept_memory *memory, const kept_packing *packing, uint32_t base, uint32_t minute,
              const kept_reading *reading) {
    static const kept_reading hole = {0, 0, 0, 0};
    uint32_t place = base + minute;
    if (place < memory->total) return;
    while (memory->total < place) append(memory, pack(packing, &hole));
    append(memory, pack(packing, reading));
    memory->crc = memory_crc(memory);
}

static uint32_t oldest(const kept_memory *memory) {
    uint32_t minutes = KEPT_MINUTES, quarters = (uint32_t)KEPT_QUARTERS * KEPT_QUARTER, first;
    if (memory->total <= minutes) return 0;
    /* The quarter hours below the minute ring, the last 73 of them. */
    first = (memory->total - minutes - 1) / KEPT_QUARTER * KEPT_QUARTER;
    return first + KEPT_QUARTER > quarters ? first + KEPT_QUARTER - quarters : 0;
}

uint16_t kept_reach(const kept_memory *memory) {
    return (uint16_t)(memory->total - oldest(memory));
}

uint32_t kept_next(const kept_memory *memory, const kept_packing *packing, uint32_t from, uint8_t *span,
                   kept_reading *reading) {
    uint32_t first = oldest(memory);
    if (from < first) from = first;
    while (from < memory->total) {
        uint32_t step = 1;
        kept_slot slot;
        if (memory->total - from <= KEPT_MINUTES) {
            slot = memory->minutes[from % KEPT_MINUTES];
        } else {
            uint32_t quarter = (from + KEPT_QUARTER - 1) / KEPT_QUARTER;
            from = quarter * KEPT_QUARTER;
            if (from >= memory->total - KEPT_MINUTES) { /* past the last quarter hour */
                from = memory->total - KEPT_MINUTES;
                continue;
            }
            slot = memory->quarters[quarter % KEPT_QUARTERS];
            step = KEPT_QUARTER;
        }
        *reading = unpack(packing, slot);
        if (reading->has_reading || reading->faults) {
            uint32_t minutes_from = memory->total > KEPT_MINUTES ? memory->total - KEPT_MINUTES : 0;
            /* The last quarter hour reaches to where the minutes begin. */
            *span = (uint8_t)(step > 1 && from + step > minutes_from ? minutes_from - from : step);
            return from;
        }
        from += step;
    }
    return UINT32_MAX;
}
