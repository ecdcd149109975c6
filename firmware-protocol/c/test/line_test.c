/* What the header promises, one promise after the other. Expected lines: independent (CRCs of ../../vectors). */
#include <limits.h>
#include <string.h>

#include "../kilnside_line.h"
#include "check.h"

static char buffer[KILNSIDE_LINE_SIZE];

static int same(int length, const char *expected) {
    return length == (int)strlen(expected) && memcmp(buffer, expected, strlen(expected)) == 0;
}

static void the_crc_gives_its_published_check_value(void) {
    uint16_t whole = kilnside_crc16(KILNSIDE_CRC_START, "123456789", 9);
    uint16_t parts = kilnside_crc16(kilnside_crc16(KILNSIDE_CRC_START, "1234", 4), "56789", 5);
    CHECK(whole == 0x29B1, "found %04X", whole); /* published check value of CRC-16/CCITT-FALSE */
    CHECK(parts == whole, "in two parts %04X", parts);
}

static void a_reading_is_written_to_the_byte(void) {
    kilnside_writer writer;
    int length;
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_READING, 1042, 5234000);
    kilnside_number(&writer, 't', 1, 4172);
    kilnside_number(&writer, 'j', 1, 377);
    kilnside_number(&writer, 'u', 0, 1000);
    kilnside_number(&writer, 's', 0, 10500);
    kilnside_number(&writer, 'g', 0, 3);
    length = kilnside_finish(&writer);
    CHECK(same(length, "R 1042 5234000 t1=4172 j1=377 u=1000 s=10500 g=3 ~7927\n"), "found %.*s", length, buffer);
}

static void the_shortest_line_has_twelve_bytes(void) {
    kilnside_writer writer;
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_READING, 0, 0);
    CHECK(kilnside_finish(&writer) == 12, "as PROTOCOL.md says");
}

static void the_least_number_is_written(void) {
    kilnside_writer writer;
    int length;
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_READING, 65535, UINT32_MAX);
    kilnside_number(&writer, KILNSIDE_KEY('q', 'a'), 4, INT32_MIN);
    length = kilnside_finish(&writer);
    CHECK(length > 0 && strncmp(buffer, "R 65535 4294967295 qa4=-2147483648 ~", 36) == 0, "found %.*s", length, buffer);
}

static void the_longest_reading_of_two_channels_fits_and_three_channels_do_not(void) {
    kilnside_writer writer;
    for (uint8_t channels = 2; channels <= 3; channels++) {
        kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_READING, 65535, UINT32_MAX);
        for (uint8_t channel = 1; channel <= channels; channel++) {
            kilnside_number(&writer, 't', channel, -262144);
            kilnside_number(&writer, 'j', channel, -27315);
            kilnside_number(&writer, 'f', channel, 127);
        }
        kilnside_number(&writer, 'u', 0, 1000);
        kilnside_number(&writer, 's', 0, 20000);
        kilnside_number(&writer, 'g', 0, 99);
        CHECK(kilnside_finish(&writer) == (channels == 2 ? 101 : KILNSIDE_TOO_LONG), "%d channels", channels);
    }
}

static void the_longest_kept_reading_of_two_channels_fits(void) {
    kilnside_writer writer;
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_KEPT, 65535, UINT32_MAX);
    kilnside_number(&writer, 'o', 0, -10080);
    kilnside_number(&writer, 'x', 0, 60);
    for (uint8_t channel = 1; channel <= 2; channel++) {
        kilnside_number(&writer, 't', channel, -262144);
        kilnside_number(&writer, 'j', channel, -27315);
        kilnside_number(&writer, 'f', channel, 127);
    }
    kilnside_number(&writer, 'u', 0, 1000);
    kilnside_number(&writer, 's', 0, 20000);
    kilnside_number(&writer, 'g', 0, 99);
    CHECK(kilnside_finish(&writer) == 115, "as PROTOCOL.md says");
}

static void a_line_that_does_not_fit_is_refused_at_every_size_and_nothing_is_written_beyond(void) {
    static char guarded[KILNSIDE_LINE_SIZE + 1];
    for (size_t capacity = 0; capacity < 40; capacity++) {
        kilnside_writer writer;
        int length;
        memset(guarded, '#', sizeof guarded);
        kilnside_begin(&writer, guarded, capacity, KILNSIDE_READING, 1, 2);
        kilnside_number(&writer, 't', 1, 4172);
        length = kilnside_finish(&writer); /* "R 1 2 t1=4172 ~XXXX\n" */
        CHECK(length == (capacity < 20 ? KILNSIDE_BUFFER_TOO_SMALL : 20), "capacity %zu gives %d", capacity, length);
        for (size_t i = capacity; i < sizeof guarded; i++) CHECK(guarded[i] == '#', "byte %zu of %zu", i, capacity);
    }
}

static void what_the_grammar_does_not_allow_is_refused(void) {
    kilnside_writer writer;
    static const char *const texts[] = {"", "seventeen-letters", "tall drum", "tall,drum", "a=b", "\xC3\xA9"};
    kilnside_begin(&writer, buffer, sizeof buffer, 'r', 1, 2);
    CHECK(kilnside_finish(&writer) == KILNSIDE_BAD_KIND, "a small letter");
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_READING, 1, 2);
    kilnside_number(&writer, 't', 5, 1);
    CHECK(kilnside_finish(&writer) == KILNSIDE_BAD_FIELD, "channel five");
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_READING, 1, 2);
    kilnside_number(&writer, 'T', 1, 1);
    CHECK(kilnside_finish(&writer) == KILNSIDE_BAD_FIELD, "a capital key");
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_READING, 1, 2);
    kilnside_text(&writer, 'd', 0, "tall-drum");
    CHECK(kilnside_finish(&writer) == KILNSIDE_BAD_FIELD, "text in a reading");
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_HELLO, 1, 2);
        kilnside_text(&writer, 'd', 0, texts[i]);
        CHECK(kilnside_finish(&writer) == KILNSIDE_BAD_FIELD, "text %s", texts[i]);
    }
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_HELLO, 1, 2);
    kilnside_text(&writer, 'd', 0, "sixteen-letters.");
    CHECK(kilnside_finish(&writer) > 0, "sixteen letters are allowed");
}

static void a_field_is_found_and_absent_or_unknown_is_told_from_a_number(void) {
    kilnside_line line;
    int32_t value = -7;
    kilnside_writer writer;
    int length;
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_READING, 12, 13);
    kilnside_number(&writer, 't', 1, 999999);
    kilnside_number(&writer, 'j', 1, -5);
    length = kilnside_finish(&writer);
    CHECK(kilnside_parse(buffer, (size_t)length - 1, &line) == KILNSIDE_LINE, "a good line");
    CHECK(kilnside_find(&line, 'j', 1, &value) && value == -5, "found %d", (int)value);
    value = -7;
    CHECK(!kilnside_find(&line, 't', 1, &value) && value == -7, "unknown");
    CHECK(!kilnside_find(&line, 'u', 0, &value) && value == -7, "absent");
}

static void text_is_found_in_a_hello(void) {
    kilnside_writer writer;
    kilnside_line line;
    kilnside_field field;
    uint8_t position = 0;
    int length;
    kilnside_begin(&writer, buffer, sizeof buffer, KILNSIDE_HELLO, 0, 3);
    kilnside_number(&writer, 'v', 0, KILNSIDE_PROTOCOL_VERSION);
    kilnside_text(&writer, 'a', 2, "MAX31855");
    length = kilnside_finish(&writer);
    CHECK(kilnside_parse(buffer, (size_t)length - 1, &line) == KILNSIDE_LINE, "a good line");
    CHECK(kilnside_next_field(&line, &position, &field) && field.key == 'v' && field.value == 1 && !field.text, "version");
    CHECK(kilnside_next_field(&line, &position, &field) && field.key == 'a' && field.channel == 2
              && field.text_length == 8 && memcmp(field.text, "MAX31855", 8) == 0, "amplifier");
    CHECK(!kilnside_next_field(&line, &position, &field), "no more");
}

static void every_error_has_its_name(void) {
    for (int error = KILNSIDE_BUFFER_TOO_SMALL; error < 0; error++) {
        CHECK(strcmp(kilnside_error_name(error), "no-such-error") != 0, "%d", error);
    }
    CHECK(strcmp(kilnside_error_name(0), "no-such-error") == 0 && strcmp(kilnside_error_name(-13), "no-such-error") == 0
              && strcmp(kilnside_error_name(INT_MIN), "no-such-error") == 0, "others");
}

int main(void) {
    the_crc_gives_its_published_check_value();
    a_reading_is_written_to_the_byte();
    the_shortest_line_has_twelve_bytes();
    the_least_number_is_written();
    the_longest_reading_of_two_channels_fits_and_three_channels_do_not();
    the_longest_kept_reading_of_two_channels_fits();
    a_line_that_does_not_fit_is_refused_at_every_size_and_nothing_is_written_beyond();
    what_the_grammar_does_not_allow_is_refused();
    a_field_is_found_and_absent_or_unknown_is_told_from_a_number();
    text_is_found_in_a_hello();
    every_error_has_its_name();
    return report("line_test");
}
