#include "chip.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../c/kilnside_line.h"
#include "commands.h"

/* A temperature on its even way to a target. */
typedef struct {
    double celsius, target, rate_per_s, since_s;
} moving;

static struct {
    int is_56;
    moving tip, cold;
    uint8_t faults; /* as on the wire */
    enum { WIRE_SOUND, WIRE_HIGH, WIRE_LOW, WIRE_NOISY } wire;
    double now_s;
    /* the exchange going on */
    int selected, count;
    uint8_t address, answer[16], sent[20];
    /* MAX31856 registers 00h to 0Fh */
    uint8_t registers[16];
    int32_t code, cold_code; /* frozen when selected */
    uint8_t frame_faults;
    long frames;
} chip = {.tip = {25, 25, 0, 0}, .cold = {23.5, 23.5, 0, 0}};

int chip_choose(const char *name) {
    chip.is_56 = !strcmp(name, "MAX31856");
    chip_power_up();
    return chip.is_56 || !strcmp(name, "MAX31855");
}

void chip_power_up(void) {
    static const uint8_t defaults[16] = {0x00, 0x03, 0xFF, 0x7F, 0xC0, 0x7F, 0xFF, 0x80};
    memcpy(chip.registers, defaults, sizeof defaults);
}

static void move(moving *what, double celsius, double over_s) {
    what->target = celsius;
    if (over_s <= 0) what->celsius = celsius;
    what->rate_per_s = over_s > 0 ? fabs(celsius - what->celsius) / over_s : 0;
    what->since_s = chip.now_s;
}

static void live(moving *what) {
    double step = what->rate_per_s * (chip.now_s - what->since_s), left = what->target - what->celsius;
    what->since_s = chip.now_s;
    what->celsius = fabs(left) <= step ? what->target : what->celsius + copysign(step, left);
}

void chip_temperature(double celsius, double over_s) {
    move(&chip.tip, celsius, over_s);
}

void chip_cold_junction(double celsius, double over_s) {
    move(&chip.cold, celsius, over_s);
}

int chip_fault(const char *word) {
    static const struct { const char *word; uint8_t faults; int wire; } known[] = {
        {"none", 0, WIRE_SOUND},
        {"open", KILNSIDE_FAULT_OPEN, WIRE_SOUND},
        {"ground", KILNSIDE_FAULT_SHORT_TO_GROUND, WIRE_SOUND},
        {"supply", KILNSIDE_FAULT_SHORT_TO_SUPPLY, WIRE_SOUND},
        {"range", KILNSIDE_FAULT_OUT_OF_RANGE, WIRE_SOUND},
        {"cold-range", KILNSIDE_FAULT_COLD_JUNCTION_OUT_OF_RANGE, WIRE_SOUND},
        {"voltage", KILNSIDE_FAULT_INPUT_VOLTAGE, WIRE_SOUND},
        {"no-answer", 0, WIRE_HIGH},
        {"stuck-low", 0, WIRE_LOW},
        {"noise", 0, WIRE_NOISY},
    };
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        if (!strcmp(known[i].word, word)) {
            chip.faults = known[i].faults;
            chip.wire = known[i].wire;
            return 1;
        }
    }
    return 0;
}

void chip_live(double time_s) {
    chip.now_s = time_s;
    live(&chip.tip);
    live(&chip.cold);
}

static int32_t clamped(double value, int32_t least, int32_t most) {
    double floored = floor(value);
    return floored < least ? least : floored > most ? most : (int32_t)floored;
}

/* Maxim 19-5793 Rev 5, page 10. With a fault the chip still gives a thermocouple code: full scale for an open circuit. */
static void answer_55(void) {
    uint32_t word;
    chip.frame_faults = chip.faults
                        & (KILNSIDE_FAULT_OPEN | KILNSIDE_FAULT_SHORT_TO_GROUND | KILNSIDE_FAULT_SHORT_TO_SUPPLY);
    chip.code = chip.frame_faults & KILNSIDE_FAULT_OPEN ? 8191 : clamped(chip.tip.celsius * 4, -8192, 8191);
    chip.cold_code = clamped(chip.cold.celsius * 16, -2048, 2047);
    word = ((uint32_t)chip.code & 0x3FFF) << 18 | ((uint32_t)chip.cold_code & 0xFFF) << 4
           | (uint32_t)(chip.frame_faults != 0) << 16 | (chip.frame_faults & 7u);
    for (int i = 0; i < 4; i++) chip.answer[i] = (uint8_t)(word >> (24 - 8 * i));
}

/* Registers 0Ah to 0Fh; without automatic conversion they stay as they are, as on the chip. */
static void convert_56(void) {
    uint8_t *r = chip.registers;
    if (!(r[0] & 0x80)) return;
    chip.frame_faults = chip.faults & (uint8_t)~(KILNSIDE_FAULT_SHORT_TO_GROUND | KILNSIDE_FAULT_SHORT_TO_SUPPLY);
    chip.code = clamped(chip.tip.celsius * 128, -262144, 262143);
    chip.cold_code = clamped(chip.cold.celsius * 64, -8192, 8191);
    r[0x0A] = (uint8_t)((uint32_t)chip.cold_code >> 6);
    r[0x0B] = (uint8_t)((uint32_t)chip.cold_code << 2);
    r[0x0C] = (uint8_t)((uint32_t)chip.code >> 11);
    r[0x0D] = (uint8_t)((uint32_t)chip.code >> 3);
    r[0x0E] = (uint8_t)((uint32_t)chip.code << 5);
    r[0x0F] = (uint8_t)((chip.frame_faults & KILNSIDE_FAULT_OPEN ? 0x01 : 0)
                        | (chip.frame_faults & KILNSIDE_FAULT_INPUT_VOLTAGE ? 0x02 : 0)
                        | (chip.frame_faults & KILNSIDE_FAULT_OUT_OF_RANGE ? 0x40 : 0)
                        | (chip.frame_faults & KILNSIDE_FAULT_COLD_JUNCTION_OUT_OF_RANGE ? 0x80 : 0));
}

/* What the codes were, unless the wire spoilt them on the way. */
static void say_frame(int first, int length) {
    char hex[2 * sizeof chip.sent + 1];
    for (int i = 0; i < length; i++) sprintf(hex + 2 * i, "%02x", chip.sent[first + i]);
    chip.frames++;
    board_say("CHIP %.6f %ld t=%ld j=%ld f=%u bytes=%s", chip.now_s, chip.frames, (long)chip.code, (long)chip.cold_code,
              chip.frame_faults, hex);
}

void chip_select(int selected, double time_s) {
    if (selected == chip.selected) return;
    chip.selected = selected;
    if (selected) {
        chip.count = 0;
        chip_live(time_s);
        if (chip.is_56) convert_56();
        else answer_55();
        return;
    }
    if (!chip.is_56 && chip.count == 4) say_frame(0, 4);
    if (chip.is_56 && chip.address == 0x0A && chip.count == 7) say_frame(1, 6);
}

static uint8_t sound_answer(uint8_t from_master) {
    int count = chip.count++;
    uint8_t reply = 0xFF;
    if (!chip.is_56) return count < 4 ? chip.answer[count] : 0xFF;
    if (count == 0) {
        chip.address = from_master;
    } else {
        uint8_t place = (uint8_t)((chip.address & 0x7F) + count - 1) & 0x0F;
        if (!(chip.address & 0x80)) reply = chip.registers[place];
        else if (place < 0x0C) chip.registers[place] = from_master;
    }
    return reply;
}

uint8_t chip_exchange(uint8_t from_master) {
    uint8_t reply = 0xFF;
    if (!chip.selected) return reply;
    reply = sound_answer(from_master);
    if (chip.wire == WIRE_HIGH) reply = 0xFF;
    if (chip.wire == WIRE_LOW) reply = 0x00;
    if (chip.wire == WIRE_NOISY && rand() % 3 == 0) reply ^= (uint8_t)(1 << rand() % 8);
    if (chip.count <= (int)sizeof chip.sent) chip.sent[chip.count - 1] = reply;
    return reply;
}

long chip_frames(void) {
    return chip.frames;
}
