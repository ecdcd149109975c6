/*
 * fuzz_test [ROUNDS] [SEED]: seeded, so a failure can be repeated. Built with address and undefined sanitizers; every
 * input lies in memory of exactly its size, so that one byte read too far is seen. Each round checks:
 * - a random line written by the library is read back field for field;
 * - a mutated line (half of them sealed again with a right CRC, to get past it) is read alike byte by byte and whole,
 *   and if accepted without skipped fields is written again to the same bytes;
 * - random bytes never crash the readers, and a good line after them and an LF is read.
 */
#include <stdlib.h>
#include <string.h>

#include "../kilnside_line.h"
#include "check.h"

static uint64_t state;
/* How often mutated lines met with each end, by -kilnside_error; 0 = accepted. A fuzz that never gets there proves nothing. */
static long met[13];

static uint32_t random32(void) { /* splitmix64 */
    uint64_t z = (state += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (uint32_t)((z ^ (z >> 31)) >> 32);
}

static uint32_t below(uint32_t limit) {
    return random32() % limit;
}

static int32_t number_for(const kilnside_field_rule *rule) {
    uint32_t span = (uint32_t)(rule->maximum - rule->minimum) + 1;
    switch (below(6)) {
        case 0: return rule->minimum;
        case 1: return rule->maximum;
        case 2: return rule->unknown != KILNSIDE_NO_UNKNOWN ? rule->unknown : rule->minimum;
        default: return rule->minimum + (int32_t)below(span);
    }
}

static const char text_letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._-";

/* A random line of the library's own; returns its length with LF and the fields put in. */
static int write_random(char *out, char *kind, uint16_t *sequence, uint32_t *uptime) {
    kilnside_writer writer;
    int length;
    do {
        *kind = "HRKE"[below(4)];
        *sequence = (uint16_t)random32();
        *uptime = random32() >> below(32);
        kilnside_begin(&writer, out, KILNSIDE_LINE_SIZE, *kind, *sequence, *uptime);
        for (size_t i = 0; i < kilnside_rule_count; i++) {
            const kilnside_field_rule *rule = &kilnside_rules[i];
            if (!strchr(rule->kinds, *kind) || (!rule->required && below(2))) continue;
            for (uint8_t channel = rule->per_channel; channel <= (rule->per_channel ? 1 + below(2) : 0); channel++) {
                if (rule->text) {
                    char text[KILNSIDE_TEXT_SIZE + 1];
                    size_t size = 1 + below(KILNSIDE_TEXT_SIZE);
                    for (size_t k = 0; k < size; k++) text[k] = text_letters[below(sizeof text_letters - 1)];
                    text[size] = 0;
                    kilnside_text(&writer, (kilnside_key)rule->key, channel, text);
                } else {
                    kilnside_number(&writer, (kilnside_key)rule->key, channel, number_for(rule));
                }
            }
        }
        length = kilnside_finish(&writer);
        if (length < 0 && length != KILNSIDE_TOO_LONG) CHECK(0, "refused: %s", kilnside_error_name(length));
    } while (length < 0);
    return length;
}

/* Writes a line again from what was read. */
static int write_again(char *out, const kilnside_line *line) {
    kilnside_writer writer;
    kilnside_field field;
    uint8_t position = 0;
    kilnside_begin(&writer, out, KILNSIDE_LINE_SIZE, line->kind, line->sequence, line->uptime_ms);
    while (kilnside_next_field(line, &position, &field)) {
        if (field.text) {
            char text[KILNSIDE_TEXT_SIZE + 1];
            memcpy(text, field.text, field.text_length);
            text[field.text_length] = 0;
            kilnside_text(&writer, field.key, field.channel, text);
        } else {
            kilnside_number(&writer, field.key, field.channel, field.value);
        }
    }
    return kilnside_finish(&writer);
}

/* Reads bytes through kilnside_take and an LF; returns what the LF gave. Earlier LFs may not be in there. */
static int take_all(const char *bytes, size_t length, kilnside_reader *reader, kilnside_line *line) {
    for (size_t i = 0; i < length; i++) {
        int result = kilnside_take(reader, (uint8_t)bytes[i], line);
        if (result != KILNSIDE_NOT_YET) CHECK(0, "a result without LF: %d", result);
    }
    return kilnside_take(reader, '\n', line);
}

static void round_trip(void) {
    char out[KILNSIDE_LINE_SIZE], again[KILNSIDE_LINE_SIZE], kind;
    uint16_t sequence;
    uint32_t uptime;
    kilnside_line line;
    int length = write_random(out, &kind, &sequence, &uptime);
    int result = kilnside_parse(out, (size_t)length - 1, &line);
    CHECK(result == KILNSIDE_LINE, "%.*s gives %d", length - 1, out, result);
    CHECK(line.kind == kind && line.sequence == sequence && line.uptime_ms == uptime && !line.skipped, "%.*s", length, out);
    CHECK(write_again(again, &line) == length && memcmp(out, again, (size_t)length) == 0, "%.*s", length, out);
}

static size_t mutate(char *bytes, size_t length, size_t room) {
    static const char likely[] = "=~ -0123456789tjfugsoxnvdwpaikrHRKEZz\r.";
    for (uint32_t times = 1 + below(3); times; times--) {
        size_t at = length ? below((uint32_t)length) : 0;
        switch (below(6)) {
            case 0: if (length) bytes[at] = (char)(bytes[at] ^ (1 << below(8))); break;
            case 1: if (length) bytes[at] = likely[below(sizeof likely - 1)]; break;
            case 2: if (length) { memmove(bytes + at, bytes + at + 1, length - at - 1); length--; } break;
            case 3:
                if (length < room) {
                    memmove(bytes + at + 1, bytes + at, length - at);
                    bytes[at] = likely[below(sizeof likely - 1)];
                    length++;
                }
                break;
            case 4: { /* a piece said twice */
                size_t piece = length - at < 8 ? length - at : 8;
                if (length + piece <= room) {
                    memmove(bytes + at + piece, bytes + at, length - at);
                    length += piece;
                }
                break;
            }
            default: length = at; break;
        }
    }
    for (size_t i = 0; i < length; i++) if (bytes[i] == '\n') bytes[i] = ' ';
    return length;
}

static void mutated(void) {
    char work[300], again[KILNSIDE_LINE_SIZE], kind, *exact;
    uint16_t sequence;
    uint32_t uptime;
    static kilnside_reader reader;
    kilnside_line whole, taken;
    int by_byte, at_once;
    size_t length = (size_t)write_random(work, &kind, &sequence, &uptime) - 1;
    if (below(2)) { /* mutate what the CRC covers, then seal it */
        uint16_t crc;
        length = mutate(work, length - 6, 280);
        crc = kilnside_crc16(KILNSIDE_CRC_START, work, length);
        length += (size_t)sprintf(work + length, " ~%04X", crc);
    } else {
        length = mutate(work, length, 290);
    }
    exact = malloc(length ? length : 1);
    if (!exact) abort();
    memcpy(exact, work, length);
    at_once = kilnside_parse(exact, length, &whole);
    met[at_once < 0 ? -at_once : 0]++;
    by_byte = take_all(exact, length, &reader, &taken);
    if (length && exact[length - 1] != '\r' && length < KILNSIDE_LINE_SIZE) {
        CHECK(at_once == by_byte, "%.*s at once %d, by byte %d", (int)length, exact, at_once, by_byte);
    }
    if (at_once == KILNSIDE_LINE && whole.skipped == 0) {
        CHECK(write_again(again, &whole) == (int)length + 1 && !memcmp(exact, again, length), "%.*s", (int)length, exact);
    }
    free(exact);
}

static void noise(void) {
    static kilnside_reader reader;
    static kilnside_request_reader requests;
    kilnside_line line;
    char out[KILNSIDE_LINE_SIZE], kind;
    uint16_t sequence;
    uint32_t uptime;
    int32_t minute;
    int length;
    for (uint32_t count = below(300); count; count--) {
        uint8_t byte = (uint8_t)(below(3) ? 32 + below(95) : random32());
        kilnside_take(&reader, byte, &line);
        (void)kilnside_take_request(&requests, byte, &minute);
    }
    kilnside_take(&reader, '\n', &line);
    length = write_random(out, &kind, &sequence, &uptime);
    CHECK(take_all(out, (size_t)length - 1, &reader, &line) == KILNSIDE_LINE && line.sequence == sequence, "after noise");
    (void)kilnside_take_request(&requests, '\n', &minute);
    (void)kilnside_take_request(&requests, '?', &minute);
    (void)kilnside_take_request(&requests, 'H', &minute);
    CHECK(kilnside_take_request(&requests, '\n', &minute) == KILNSIDE_ASKS_HELLO, "after noise");
}

int main(int argc, char **argv) {
    long rounds = argc > 1 ? atol(argv[1]) : 100000;
    state = argc > 2 ? strtoull(argv[2], NULL, 10) : 20261125;
    for (long i = 0; i < rounds && failures < 20; i++) {
        round_trip();
        for (int k = 0; k < 8; k++) mutated();
        noise();
    }
    printf("fuzz_test: %ld inputs; mutated lines accepted %ld", rounds * 10, met[0]);
    for (int error = 1; error <= -KILNSIDE_MISSING_FIELD; error++) {
        printf(", %s %ld", kilnside_error_name(-error), met[error]);
        CHECK(met[error] > 0 || rounds < 1000, "%s was never met", kilnside_error_name(-error));
    }
    printf("\n");
    CHECK(met[0] > 0, "no mutated line was accepted");
    return report("fuzz_test");
}
