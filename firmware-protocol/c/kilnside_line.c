#include "kilnside_line.h"

#include <string.h>

/* " ~XXXX" and LF */
enum { ENDING = 7, CRC_PART = 6 };

static int is_digit(char c) {
    return c >= '0' && c <= '9';
}

static int is_lower(char c) {
    return c >= 'a' && c <= 'z';
}

static int is_upper(char c) {
    return c >= 'A' && c <= 'Z';
}

static int is_text(char c) {
    return is_digit(c) || is_lower(c) || is_upper(c) || c == '.' || c == '_' || c == '-';
}

static char hex_digit(uint8_t nibble) {
    return (char)(nibble < 10 ? '0' + nibble : 'A' + (nibble - 10));
}

static int hex_value(char c) {
    if (is_digit(c)) return c - '0';
    return c >= 'A' && c <= 'F' ? c - 'A' + 10 : -1;
}

uint16_t kilnside_crc16(uint16_t crc, const char *bytes, size_t length) {
    /* Bit by bit without a table: 512 bytes of table would be a quarter of a small controller's RAM. */
    while (length--) {
        crc = (uint16_t)(crc ^ ((uint16_t)(uint8_t)*bytes++ << 8));
        for (uint8_t bit = 0; bit < 8; bit++) {
            uint16_t carry = (uint16_t)(crc & 0x8000u);
            crc = (uint16_t)(crc << 1);
            if (carry) crc = (uint16_t)(crc ^ 0x1021u);
        }
    }
    return crc;
}

/* ---- writing ---------------------------------------------------------------------------------------------------- */

static void fail(kilnside_writer *writer, int8_t error) {
    if (writer->error == 0) writer->error = error;
}

static void put(kilnside_writer *writer, char c) {
    /* Room for the ending is kept from the start, so that kilnside_finish always fits. */
    if ((size_t)writer->length + ENDING >= writer->capacity) {
        fail(writer, writer->capacity == KILNSIDE_LINE_SIZE ? KILNSIDE_TOO_LONG : KILNSIDE_BUFFER_TOO_SMALL);
        return;
    }
    writer->bytes[writer->length++] = c;
}

static void put_unsigned(kilnside_writer *writer, uint32_t value) {
    char digits[10];
    uint8_t count = 0;
    do {
        digits[count++] = (char)('0' + value % 10);
        value /= 10;
    } while (value);
    while (count) put(writer, digits[--count]);
}

static void put_key(kilnside_writer *writer, kilnside_key key, uint8_t channel) {
    char first = (char)(key & 0xFF), second = (char)(key >> 8);
    if (!is_lower(first) || (second && !is_lower(second)) || channel > 4) fail(writer, KILNSIDE_BAD_FIELD);
    put(writer, ' ');
    put(writer, first);
    if (second) put(writer, second);
    if (channel) put(writer, (char)('0' + channel));
    put(writer, '=');
}

void kilnside_begin(kilnside_writer *writer, char *buffer, size_t capacity, char kind, uint16_t sequence,
                    uint32_t uptime_ms) {
    writer->bytes = buffer;
    writer->capacity = (uint8_t)(capacity < KILNSIDE_LINE_SIZE ? capacity : KILNSIDE_LINE_SIZE);
    writer->length = 0;
    writer->error = (int8_t)(is_upper(kind) ? 0 : KILNSIDE_BAD_KIND);
    put(writer, kind);
    put(writer, ' ');
    put_unsigned(writer, sequence);
    put(writer, ' ');
    put_unsigned(writer, uptime_ms);
}

void kilnside_number(kilnside_writer *writer, kilnside_key key, uint8_t channel, int32_t value) {
    put_key(writer, key, channel);
    if (value < 0) put(writer, '-');
    /* 0 - (uint32_t)value is the magnitude even of INT32_MIN, which has no positive twin. */
    put_unsigned(writer, value < 0 ? 0u - (uint32_t)value : (uint32_t)value);
}

void kilnside_text(kilnside_writer *writer, kilnside_key key, uint8_t channel, const char *text) {
    uint8_t length = 0;
    put_key(writer, key, channel);
    for (; text[length]; length++) {
        if (length == KILNSIDE_TEXT_SIZE || !is_text(text[length])) {
            fail(writer, KILNSIDE_BAD_FIELD);
            return;
        }
        put(writer, text[length]);
    }
    if (length == 0 || (writer->length && writer->bytes[0] != KILNSIDE_HELLO)) fail(writer, KILNSIDE_BAD_FIELD);
}

int kilnside_finish(kilnside_writer *writer) {
    uint16_t crc;
    char *end;
    if (writer->error) return writer->error;
    crc = kilnside_crc16(KILNSIDE_CRC_START, writer->bytes, writer->length);
    end = writer->bytes + writer->length;
    end[0] = ' ';
    end[1] = '~';
    for (uint8_t i = 0; i < 4; i++) end[2 + i] = hex_digit((uint8_t)((crc >> (12 - 4 * i)) & 0xF));
    end[6] = '\n';
    writer->length = (uint8_t)(writer->length + ENDING);
    return writer->length;
}

/* ---- numbers ---------------------------------------------------------------------------------------------------- */

/* A number without sign and without leading zero, at most `limit`. Returns 1 and the value, or 0. */
static int parse_unsigned(const char *bytes, size_t length, uint32_t limit, uint32_t *value) {
    uint32_t sum = 0;
    if (length == 0 || length > 10 || (bytes[0] == '0' && length > 1)) return 0;
    for (size_t i = 0; i < length; i++) {
        uint32_t digit;
        if (!is_digit(bytes[i])) return 0;
        digit = (uint32_t)(bytes[i] - '0');
        if (sum > (limit - digit) / 10) return 0; /* every limit here is above 9 */
        sum = sum * 10 + digit;
    }
    *value = sum;
    return 1;
}

static int parse_number(const char *bytes, size_t length, int32_t *value) {
    uint32_t magnitude;
    if (length && bytes[0] == '-') {
        if (!parse_unsigned(bytes + 1, length - 1, 0x80000000u, &magnitude) || magnitude == 0) return 0;
        *value = (int32_t)(-(int64_t)magnitude);
        return 1;
    }
    if (!parse_unsigned(bytes, length, INT32_MAX, &magnitude)) return 0;
    *value = (int32_t)magnitude;
    return 1;
}

/* ---- requests --------------------------------------------------------------------------------------------------- */

enum kilnside_request kilnside_take_request(kilnside_request_reader *reader, uint8_t byte, int32_t *minute) {
    uint8_t length = reader->length;
    int32_t asked;
    if (byte != '\n') {
        if (length < sizeof reader->bytes) {
            reader->bytes[reader->length++] = (char)byte;
        } else {
            reader->length = 255;
        }
        return KILNSIDE_ASKS_NOTHING;
    }
    reader->length = 0;
    if (length > sizeof reader->bytes) return KILNSIDE_ASKS_NOTHING;
    if (length && reader->bytes[length - 1] == '\r') length--;
    if (length < 2 || reader->bytes[0] != '?') return KILNSIDE_ASKS_NOTHING;
    if (reader->bytes[1] == 'H' && length == 2) return KILNSIDE_ASKS_HELLO;
    if (reader->bytes[1] != 'K' || length < 4 || reader->bytes[2] != ' ') return KILNSIDE_ASKS_NOTHING;
    if (!parse_number(reader->bytes + 3, (size_t)length - 3, &asked)) return KILNSIDE_ASKS_NOTHING;
    if (asked < -10080 || asked > 71582) return KILNSIDE_ASKS_NOTHING;
    *minute = asked;
    return KILNSIDE_ASKS_KEPT;
}

/* ---- reading lines ---------------------------------------------------------------------------------------------- */

#define NONE KILNSIDE_NO_UNKNOWN
const kilnside_field_rule kilnside_rules[] = {
    /* key kinds channel text required minimum maximum unknown */
    {'t', "RK", 1, 0, 0, -262144, 262143, 999999},
    {'j', "RK", 1, 0, 0, -27315, 27315, 99999},
    {'f', "RK", 1, 0, 0, 0, 127, 255},
    {'u', "RK", 0, 0, 0, 0, 1000, 9999},
    {'s', "RK", 0, 0, 0, -2731, 20000, 99999},
    {'g', "RK", 0, 0, 0, 1, 99, 0},
    {'o', "K", 0, 0, 1, -10080, 71582, NONE},
    {'x', "K", 0, 0, 1, 1, 60, NONE},
    {'o', "E", 0, 0, 1, -10080, 71582, NONE},
    {'n', "E", 0, 0, 1, 0, 65535, NONE},
    {'v', "H", 0, 0, 1, 1, 255, NONE},
    {'d', "H", 0, 1, 0, 0, 0, NONE},
    {'w', "H", 0, 1, 0, 0, 0, NONE},
    {'n', "H", 0, 0, 0, 1, 4, 0},
    {'p', "H", 1, 1, 0, 0, 0, NONE},
    {'a', "H", 1, 1, 0, 0, 0, NONE},
    {'i', "H", 0, 0, 0, 50, 600000, 0},
    {'k', "H", 0, 0, 0, 0, 10080, 65535},
    {'r', "H", 0, 0, 0, 0, 31, 255},
};
const size_t kilnside_rule_count = sizeof kilnside_rules / sizeof kilnside_rules[0];

const kilnside_field_rule *kilnside_rule(char kind, kilnside_key key, uint8_t channel) {
    for (size_t i = 0; i < kilnside_rule_count; i++) {
        const kilnside_field_rule *rule = &kilnside_rules[i];
        if (key == (kilnside_key)rule->key && (rule->kinds[0] == kind || rule->kinds[1] == kind)
            && rule->per_channel == (channel != 0)) {
            return rule;
        }
    }
    return NULL;
}

/* The bytes up to the next space or the end. */
static size_t word_length(const char *bytes, size_t length) {
    size_t end = 0;
    while (end < length && bytes[end] != ' ') end++;
    return end;
}

/* One field as it stands in the line, known or not. */
typedef struct {
    kilnside_key key;
    uint8_t channel;
    const char *value;
    uint8_t length;
} raw_field;

/* Cuts the field at *position, which stands at its leading space. Returns 1 and moves on, or 0 for a bad field. */
static int cut_field(const char *bytes, uint8_t length, uint8_t *position, raw_field *field) {
    uint8_t at = *position;
    if (bytes[at++] != ' ' || at >= length || !is_lower(bytes[at])) return 0;
    field->key = (kilnside_key)bytes[at++];
    if (at < length && is_lower(bytes[at])) field->key = KILNSIDE_KEY(field->key, bytes[at++]);
    field->channel = 0;
    if (at < length && bytes[at] >= '1' && bytes[at] <= '4') field->channel = (uint8_t)(bytes[at++] - '0');
    if (at >= length || bytes[at++] != '=') return 0;
    field->value = bytes + at;
    field->length = (uint8_t)word_length(bytes + at, (size_t)(length - at));
    *position = (uint8_t)(at + field->length);
    return 1;
}

static int is_text_value(const raw_field *field) {
    if (field->length == 0 || field->length > KILNSIDE_TEXT_SIZE) return 0;
    for (uint8_t i = 0; i < field->length; i++) {
        if (!is_text(field->value[i])) return 0;
    }
    return 1;
}

static int check_value(char kind, const raw_field *field, const kilnside_field_rule *rule) {
    int32_t value;
    int may_be_text = rule ? rule->text : kind == KILNSIDE_HELLO;
    if (may_be_text) return is_text_value(field) ? 0 : KILNSIDE_BAD_FIELD;
    if (!parse_number(field->value, field->length, &value)) return KILNSIDE_BAD_FIELD;
    if (!rule || (value >= rule->minimum && value <= rule->maximum)) return 0;
    return rule->unknown != NONE && value == rule->unknown ? 0 : KILNSIDE_OUT_OF_RANGE;
}

static int check_fields(kilnside_line *line) {
    uint8_t position = 0;
    raw_field field;
    while (position < line->fields_length) {
        uint8_t start = position, earlier = 0;
        const kilnside_field_rule *rule;
        raw_field before;
        int defect;
        if (!cut_field(line->fields, line->fields_length, &position, &field)) return KILNSIDE_BAD_FIELD;
        rule = kilnside_rule(line->kind, field.key, field.channel);
        while (earlier < start) {
            (void)cut_field(line->fields, line->fields_length, &earlier, &before);
            if (before.key == field.key && before.channel == field.channel) return KILNSIDE_DOUBLED_KEY;
        }
        defect = check_value(line->kind, &field, rule);
        if (defect) return defect;
        if (!rule) line->skipped++;
    }
    for (size_t i = 0; i < kilnside_rule_count; i++) {
        const kilnside_field_rule *rule = &kilnside_rules[i];
        int32_t value;
        if (rule->required && rule->kinds[0] == line->kind
            && !kilnside_find(line, (kilnside_key)rule->key, 0, &value)) {
            return KILNSIDE_MISSING_FIELD;
        }
    }
    return KILNSIDE_LINE;
}

int kilnside_parse(const char *bytes, size_t length, kilnside_line *line) {
    uint32_t number;
    size_t at, word;
    uint16_t crc = 0;
    if (length > KILNSIDE_LINE_SIZE - 1) return KILNSIDE_TOO_LONG;
    for (size_t i = 0; i < length; i++) {
        if (bytes[i] < 0x20 || bytes[i] > 0x7E) return KILNSIDE_NOT_ASCII;
    }
    if (length < CRC_PART || bytes[length - 6] != ' ' || bytes[length - 5] != '~') return KILNSIDE_CRC_MISSING;
    for (size_t i = length - 4; i < length; i++) {
        int value = hex_value(bytes[i]);
        if (value < 0) return KILNSIDE_CRC_MISSING;
        crc = (uint16_t)(crc << 4 | value);
    }
    length -= CRC_PART;
    if (kilnside_crc16(KILNSIDE_CRC_START, bytes, length) != crc) return KILNSIDE_CRC_WRONG;

    if (length < 2 || !is_upper(bytes[0]) || bytes[1] != ' ') return KILNSIDE_BAD_KIND;
    line->kind = bytes[0];
    at = 2;
    word = word_length(bytes + at, length - at);
    if (!parse_unsigned(bytes + at, word, 65535, &number)) return KILNSIDE_BAD_SEQUENCE;
    line->sequence = (uint16_t)number;
    at += word;
    if (at == length) return KILNSIDE_BAD_UPTIME;
    at++;
    word = word_length(bytes + at, length - at);
    if (!parse_unsigned(bytes + at, word, UINT32_MAX, &line->uptime_ms)) return KILNSIDE_BAD_UPTIME;
    at += word;
    line->skipped = 0;
    line->fields = bytes + at;
    line->fields_length = (uint8_t)(length - at);
    if (!strchr("HRKE", line->kind)) {
        line->fields_length = 0;
        return KILNSIDE_SKIPPED_KIND;
    }
    return check_fields(line);
}

int kilnside_take(kilnside_reader *reader, uint8_t byte, kilnside_line *line) {
    uint8_t length = reader->length;
    int defect = reader->defect;
    if (byte == '\n') {
        reader->length = 0;
        reader->defect = 0;
        if (defect) return defect;
        if (length && reader->bytes[length - 1] == '\r') length--;
        return length ? kilnside_parse(reader->bytes, length, line) : KILNSIDE_NOT_YET;
    }
    if (defect) return KILNSIDE_NOT_YET;
    /* A CR is taken in, in the hope of an LF; anything after it shows it was inside the line. */
    if (length && reader->bytes[length - 1] == '\r') {
        reader->defect = KILNSIDE_NOT_ASCII;
    } else if (length == KILNSIDE_LINE_SIZE - 1 && byte != '\r') {
        reader->defect = KILNSIDE_TOO_LONG;
    } else if (byte != '\r' && (byte < 0x20 || byte > 0x7E)) {
        reader->defect = KILNSIDE_NOT_ASCII;
    } else {
        reader->bytes[reader->length++] = (char)byte;
    }
    return KILNSIDE_NOT_YET;
}

int kilnside_next_field(const kilnside_line *line, uint8_t *position, kilnside_field *field) {
    raw_field raw;
    while (*position < line->fields_length) {
        const kilnside_field_rule *rule;
        if (!cut_field(line->fields, line->fields_length, position, &raw)) {
            *position = line->fields_length; /* cannot be in a line that kilnside_parse accepted */
            return 0;
        }
        rule = kilnside_rule(line->kind, raw.key, raw.channel);
        if (!rule) continue;
        *field = (kilnside_field){.key = raw.key, .channel = raw.channel};
        if (rule->text) {
            field->text = raw.value;
            field->text_length = raw.length;
        } else if (parse_number(raw.value, raw.length, &field->value)) {
            field->unknown = rule->unknown != NONE && field->value == rule->unknown;
        }
        return 1;
    }
    return 0;
}

int kilnside_find(const kilnside_line *line, kilnside_key key, uint8_t channel, int32_t *value) {
    uint8_t position = 0;
    kilnside_field field;
    while (kilnside_next_field(line, &position, &field)) {
        if (field.key == key && field.channel == channel && !field.text) {
            if (field.unknown) return 0;
            *value = field.value;
            return 1;
        }
    }
    return 0;
}

const char *kilnside_error_name(int error) {
    static const char *const names[] = {
        "too-long",     "not-ascii",  "crc-missing", "crc-wrong",   "bad-kind",     "bad-sequence",
        "bad-uptime",   "bad-field",  "doubled-key", "out-of-range", "missing-field", "buffer-too-small",
    };
    return error <= KILNSIDE_TOO_LONG && error >= KILNSIDE_BUFFER_TOO_SMALL ? names[-error - 1] : "no-such-error";
}
