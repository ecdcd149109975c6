/*
 * The library as a filter, so that another language's codec can be held against it.
 *   line_tool decode    bytes on stdin -> one line for each thing found:
 *                         line kind=R sequence=1 uptime=2 t1=4172 skipped=0
 *                         skipped-kind kind=Z sequence=1 uptime=2
 *                         discarded crc-wrong
 *   line_tool encode    lines without CRC ("R 1 2 t1=4172") on stdin -> whole lines, or "refused NAME"
 *   line_tool requests  bytes on stdin -> "hello" or "kept MINUTE" for each request
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../kilnside_line.h"

static void print_line(const kilnside_line *line) {
    kilnside_field field;
    uint8_t position = 0;
    printf("line kind=%c sequence=%u uptime=%lu", line->kind, (unsigned)line->sequence, (unsigned long)line->uptime_ms);
    while (kilnside_next_field(line, &position, &field)) {
        printf(" %c", field.key & 0xFF);
        if (field.key >> 8) printf("%c", field.key >> 8);
        if (field.channel) printf("%u", field.channel);
        if (field.text) {
            printf("=%.*s", field.text_length, field.text);
        } else if (field.unknown) {
            printf("=unknown");
        } else {
            printf("=%ld", (long)field.value);
        }
    }
    printf(" skipped=%u\n", line->skipped);
}

static int decode(void) {
    static kilnside_reader reader;
    kilnside_line line;
    for (int c; (c = getchar()) != EOF;) {
        int result = kilnside_take(&reader, (uint8_t)c, &line);
        if (result == KILNSIDE_LINE) print_line(&line);
        if (result == KILNSIDE_SKIPPED_KIND) {
            printf("skipped-kind kind=%c sequence=%u uptime=%lu\n", line.kind, (unsigned)line.sequence,
                   (unsigned long)line.uptime_ms);
        }
        if (result < 0) printf("discarded %s\n", kilnside_error_name(result));
    }
    return 0;
}

static void encode_field(kilnside_writer *writer, const char *word) {
    const char *value = strchr(word, '=') + 1;
    kilnside_key key = (kilnside_key)word[0];
    const char *at = word + 1;
    uint8_t channel = 0;
    const kilnside_field_rule *rule;
    char *end;
    long number;
    if (*at >= 'a' && *at <= 'z') key = KILNSIDE_KEY(word[0], *at++);
    if (*at != '=') channel = (uint8_t)(*at - '0');
    rule = kilnside_rule(writer->bytes[0], key, channel);
    number = strtol(value, &end, 10);
    if ((rule && rule->text) || *end) {
        kilnside_text(writer, key, channel, value);
    } else {
        kilnside_number(writer, key, channel, (int32_t)number);
    }
}

static int encode(void) {
    char words[1024], out[KILNSIDE_LINE_SIZE];
    while (fgets(words, sizeof words, stdin)) {
        kilnside_writer writer;
        int length;
        char *kind = strtok(words, " \n"), *sequence = strtok(NULL, " \n"), *uptime = strtok(NULL, " \n");
        if (!uptime) return 2;
        kilnside_begin(&writer, out, sizeof out, kind[0], (uint16_t)strtoul(sequence, NULL, 10),
                       (uint32_t)strtoull(uptime, NULL, 10));
        for (char *word; (word = strtok(NULL, " \n"));) {
            if (!strchr(word, '=')) return 2;
            encode_field(&writer, word);
        }
        length = kilnside_finish(&writer);
        if (length < 0) {
            printf("refused %s\n", kilnside_error_name(length));
        } else {
            fwrite(out, 1, (size_t)length, stdout);
        }
    }
    return 0;
}

static int requests(void) {
    static kilnside_request_reader reader;
    for (int c; (c = getchar()) != EOF;) {
        int32_t minute;
        enum kilnside_request request = kilnside_take_request(&reader, (uint8_t)c, &minute);
        if (request == KILNSIDE_ASKS_HELLO) printf("hello\n");
        if (request == KILNSIDE_ASKS_KEPT) printf("kept %ld\n", (long)minute);
    }
    return 0;
}

int main(int argc, char **argv) {
    const char *what = argc == 2 ? argv[1] : "";
    if (!strcmp(what, "decode")) return decode();
    if (!strcmp(what, "encode")) return encode();
    if (!strcmp(what, "requests")) return requests();
    fprintf(stderr, "line_tool: expected decode, encode or requests\n");
    return 2;
}
