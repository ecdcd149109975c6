/*
 * The line between controller and computer, version 1 (../PROTOCOL.md), for both ends: writing lines and reading
 * requests on the controller, reading lines on a computer or a display.
 *
 * C99. No memory of its own, no malloc, no float, no input or output: bytes go in and out through the caller's
 * buffers. Nothing here is static but constants, so several lines may be worked on at once, each with its own structs.
 * Functions that can fail return a negative kilnside_error. Pointers must not be NULL.
 */
#ifndef KILNSIDE_LINE_H
#define KILNSIDE_LINE_H

#include <stddef.h>
#include <stdint.h>

#ifdef __cplusplus
extern "C" {
#endif

#define KILNSIDE_PROTOCOL_VERSION 1
/* The longest line, its LF included, in bytes. Lines are not terminated by NUL. */
#define KILNSIDE_LINE_SIZE 120
/* The longest text value, in bytes. */
#define KILNSIDE_TEXT_SIZE 16

/* A key's letters: 't', or for two-letter keys KILNSIDE_KEY('q', 'a'). */
typedef uint16_t kilnside_key;
#define KILNSIDE_KEY(first, second) ((kilnside_key)((uint8_t)(first) | (uint16_t)((uint8_t)(second) << 8)))

enum kilnside_kind { KILNSIDE_HELLO = 'H', KILNSIDE_READING = 'R', KILNSIDE_KEPT = 'K', KILNSIDE_KEPT_END = 'E' };

/* Fault bits of a channel, key f. */
enum kilnside_fault {
    KILNSIDE_FAULT_OPEN = 1,
    KILNSIDE_FAULT_SHORT_TO_GROUND = 2,
    KILNSIDE_FAULT_SHORT_TO_SUPPLY = 4,
    KILNSIDE_FAULT_OUT_OF_RANGE = 8,
    KILNSIDE_FAULT_COLD_JUNCTION_OUT_OF_RANGE = 16,
    KILNSIDE_FAULT_INPUT_VOLTAGE = 32,
    KILNSIDE_FAULT_NO_ANSWER = 64
};

/* Reset cause bits, key r of hello. */
enum kilnside_reset_cause {
    KILNSIDE_RESET_POWER_ON = 1,
    KILNSIDE_RESET_PIN = 2,
    KILNSIDE_RESET_SUPPLY_DIP = 4,
    KILNSIDE_RESET_WATCHDOG = 8,
    KILNSIDE_RESET_OTHER = 16
};

/* The defects of PROTOCOL.md, section 5, then what only a writer can meet. */
enum kilnside_error {
    KILNSIDE_TOO_LONG = -1,
    KILNSIDE_NOT_ASCII = -2,
    KILNSIDE_CRC_MISSING = -3,
    KILNSIDE_CRC_WRONG = -4,
    KILNSIDE_BAD_KIND = -5,
    KILNSIDE_BAD_SEQUENCE = -6,
    KILNSIDE_BAD_UPTIME = -7,
    KILNSIDE_BAD_FIELD = -8,
    KILNSIDE_DOUBLED_KEY = -9,
    KILNSIDE_OUT_OF_RANGE = -10,
    KILNSIDE_MISSING_FIELD = -11,
    KILNSIDE_BUFFER_TOO_SMALL = -12
};

/* The name of a defect as in vectors/bad/, such as "crc-wrong"; "no-such-error" for any other number. */
const char *kilnside_error_name(int error);

/* CRC-16/CCITT-FALSE over more bytes. Begin with KILNSIDE_CRC_START; "123456789" gives 0x29B1. */
#define KILNSIDE_CRC_START 0xFFFFu
uint16_t kilnside_crc16(uint16_t crc, const char *bytes, size_t length);

/* ---- writing a line -------------------------------------------------------------------------------------------- */

/* A line being written. All members are the library's; errors are kept until kilnside_finish reports the first. */
typedef struct {
    char *bytes;
    uint8_t capacity; /* at most KILNSIDE_LINE_SIZE */
    uint8_t length;
    int8_t error;
} kilnside_writer;

/*
 * Begins a line of a kind ('A'..'Z') in the caller's buffer; KILNSIDE_LINE_SIZE bytes hold any line. The sequence
 * number is the caller's to count up, with every line sent. uptime_ms: milliseconds since boot.
 */
void kilnside_begin(kilnside_writer *writer, char *buffer, size_t capacity, char kind, uint16_t sequence,
                    uint32_t uptime_ms);

/*
 * Adds KEY=number. channel: 1 to 4, or 0 for a key without channel. The number's meaning and range are the caller's
 * to keep (fields.csv): a reader discards the whole line for one number out of range.
 */
void kilnside_number(kilnside_writer *writer, kilnside_key key, uint8_t channel, int32_t value);

/* Adds KEY=text, in hello alone: 1 to 16 characters of A-Z a-z 0-9 . _ - ending in NUL. */
void kilnside_text(kilnside_writer *writer, kilnside_key key, uint8_t channel, const char *text);

/*
 * Adds CRC and LF. Returns the line's length in bytes with its LF, or the first error met since kilnside_begin:
 * KILNSIDE_TOO_LONG, KILNSIDE_BUFFER_TOO_SMALL, KILNSIDE_BAD_KIND, KILNSIDE_BAD_FIELD. Send nothing then.
 */
int kilnside_finish(kilnside_writer *writer);

/* ---- reading requests, on the controller ------------------------------------------------------------------------ */

enum kilnside_request { KILNSIDE_ASKS_NOTHING = 0, KILNSIDE_ASKS_HELLO = 1, KILNSIDE_ASKS_KEPT = 2 };

/* Bytes from the host being gathered. All members are the library's; zeros are a good start. */
typedef struct {
    char bytes[10]; /* "?K -10080" and CR */
    uint8_t length; /* 255: too long, waiting for LF */
} kilnside_request_reader;

/*
 * Takes one byte. Returns KILNSIDE_ASKS_HELLO or KILNSIDE_ASKS_KEPT (then *minute is set, -10080..71582) at the LF of
 * a request, else KILNSIDE_ASKS_NOTHING: what is no request is ignored in silence.
 */
enum kilnside_request kilnside_take_request(kilnside_request_reader *reader, uint8_t byte, int32_t *minute);

/* ---- reading lines, on a computer or a display ------------------------------------------------------------------ */

/* Bytes from the controller being gathered. All members are the library's; zeros are a good start. */
typedef struct {
    char bytes[KILNSIDE_LINE_SIZE]; /* a line without LF, and a CR */
    uint8_t length;
    int8_t defect; /* too-long or not-ascii already seen; waiting for LF */
} kilnside_reader;

/* A whole line. Its fields lie in the bytes it was read from and are good until those change. */
typedef struct {
    char kind;
    uint16_t sequence;
    uint32_t uptime_ms;
    uint8_t skipped;    /* fields of an unknown key */
    const char *fields; /* the rest of the line, for kilnside_next_field */
    uint8_t fields_length;
} kilnside_line;

/* One known field of a line. */
typedef struct {
    kilnside_key key;
    uint8_t channel; /* 1 to 4; 0 = the key has none */
    uint8_t unknown; /* 1: said to be unknown; value then holds the number that says so */
    int32_t value;   /* 0 for text */
    const char *text; /* NULL for a number; not ended by NUL */
    uint8_t text_length;
} kilnside_field;

enum kilnside_result { KILNSIDE_NOT_YET = 0, KILNSIDE_LINE = 1, KILNSIDE_SKIPPED_KIND = 2 };

/*
 * Takes one byte. Returns KILNSIDE_LINE when it completed a line (*line is set, good until the next byte),
 * KILNSIDE_SKIPPED_KIND when it completed a sound line of an unknown kind (kind, sequence and uptime set),
 * KILNSIDE_NOT_YET, or the kilnside_error for which a line was discarded. Never stops, never needs a restart.
 */
int kilnside_take(kilnside_reader *reader, uint8_t byte, kilnside_line *line);

/* The same for a line already in hand, without LF and CR. Returns KILNSIDE_LINE, KILNSIDE_SKIPPED_KIND or an error. */
int kilnside_parse(const char *bytes, size_t length, kilnside_line *line);

/* Known fields in the order of the line: set *position to 0, call until it returns 0. */
int kilnside_next_field(const kilnside_line *line, uint8_t *position, kilnside_field *field);

/* Finds a number. Returns 1 and sets *value when the line says it; 0 when it is absent or said to be unknown. */
int kilnside_find(const kilnside_line *line, kilnside_key key, uint8_t channel, int32_t *value);

/* One row of fields.csv, for whoever wants to check what they send. */
typedef struct {
    char key;
    char kinds[3]; /* ends in NUL */
    uint8_t per_channel;
    uint8_t text;
    uint8_t required;
    int32_t minimum;
    int32_t maximum;
    int32_t unknown; /* KILNSIDE_NO_UNKNOWN: there is none */
} kilnside_field_rule;

#define KILNSIDE_NO_UNKNOWN INT32_MIN

/* The rule for a key in a kind with a channel (0 = none), or NULL: such a field is skipped. */
const kilnside_field_rule *kilnside_rule(char kind, kilnside_key key, uint8_t channel);

/* All rules, in the order of fields.csv. */
extern const kilnside_field_rule kilnside_rules[];
extern const size_t kilnside_rule_count;

#ifdef __cplusplus
}
#endif
#endif
