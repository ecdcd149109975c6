#include "commands.h"

#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cable.h"
#include "chip.h"

/* Lines to be carried out later, in the order of their times. */
typedef struct later {
    double at_s;
    struct later *next;
    char line[100];
} later;

static later *waiting;

static void put_off(double at_s, const char *line) {
    later **place = &waiting;
    later *new = calloc(1, sizeof *new);
    if (!new) abort();
    new->at_s = at_s;
    snprintf(new->line, sizeof new->line, "%s", line);
    while (*place && (*place)->at_s <= at_s) place = &(*place)->next;
    new->next = *place;
    *place = new;
}

static int one_word(const char *line) {
    static const struct { const char *word; void (*act)(void); } acts[] = {
        {"reset", board_press_reset}, {"power", board_cycle_power}, {"stall", board_stall}, {"dtr", board_raise_dtr},
        {"stack", board_tell_stack},  {"quit", board_quit},         {"unplug", cable_unplug},
    };
    for (size_t i = 0; i < sizeof acts / sizeof acts[0]; i++) {
        if (!strcmp(line, acts[i].word)) {
            acts[i].act();
            return 1;
        }
    }
    if (strcmp(line, "plug")) return 0;
    if (cable_plug(NULL)) board_say("READY %s", cable_name());
    return 1;
}

static void carry_out(const char *line) {
    double first, second = 0;
    char word[32];
    int rest = 0;
    if (sscanf(line, "at %lf %n", &first, &rest) == 1 && rest) {
        put_off(first, line + rest);
    } else if (sscanf(line, "t %lf %lf", &first, &second) >= 1) {
        chip_temperature(first, second);
    } else if (sscanf(line, "cj %lf %lf", &first, &second) >= 1) {
        chip_cold_junction(first, second);
    } else if (sscanf(line, "speed %lf", &first) == 1) {
        board_set_speed(first);
    } else if (!(sscanf(line, "fault %31s", word) == 1 && chip_fault(word)) && !one_word(line)) {
        board_say("UNKNOWN %s", line);
    }
}

/* Reads what is there without stdio, whose buffer poll() could not see into. */
static void take_input(void) {
    static char pending[4096];
    static size_t length;
    static int ended;
    struct pollfd look = {STDIN_FILENO, POLLIN, 0};
    char *end;
    while (!ended && poll(&look, 1, 0) > 0) {
        ssize_t count = read(STDIN_FILENO, pending + length, sizeof pending - 1 - length);
        if (count <= 0) {
            ended = 1;
            board_quit(); /* whoever started the board is gone */
            return;
        }
        length += (size_t)count;
        pending[length] = 0;
        while ((end = strchr(pending, '\n'))) {
            *end = 0;
            if (pending[0]) carry_out(pending);
            length -= (size_t)(end + 1 - pending);
            memmove(pending, end + 1, length + 1);
        }
        if (length == sizeof pending - 1) length = 0;
    }
}

void commands_take(void) {
    while (waiting && waiting->at_s <= board_time_s()) {
        later *due = waiting;
        waiting = due->next;
        carry_out(due->line);
        free(due);
    }
    take_input();
}
