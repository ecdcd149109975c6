/* The library's rules against fields.csv and bits.csv: fields_test FIELDS_CSV BITS_CSV. The tables are the truth. */
#include <stdlib.h>
#include <string.h>

#include "../kilnside_line.h"
#include "check.h"

/* Cuts a CSV line without quotes in place; empty cells stay. */
static size_t cells(char *row, char **cell, size_t most) {
    size_t count = 0;
    row[strcspn(row, "\r\n")] = 0;
    while (count < most) {
        cell[count++] = row;
        row = strchr(row, ',');
        if (!row) break;
        *row++ = 0;
    }
    return count;
}

static void check_rule(size_t index, char **cell) {
    const kilnside_field_rule *rule = &kilnside_rules[index];
    int text = strcmp(cell[4], "text") == 0;
    CHECK(cell[0][0] == rule->key && cell[0][1] == 0, "key %s", cell[0]);
    CHECK(strcmp(cell[1], rule->kinds) == 0, "kinds of %s", cell[0]);
    CHECK((strcmp(cell[2], "yes") == 0) == rule->per_channel, "channel of %s", cell[0]);
    CHECK(text == rule->text, "type of %s", cell[0]);
    CHECK((strcmp(cell[10], "yes") == 0) == rule->required, "required of %s", cell[0]);
    if (text) return;
    CHECK(atol(cell[7]) == rule->minimum && atol(cell[8]) == rule->maximum, "range of %s", cell[0]);
    CHECK(cell[9][0] ? atol(cell[9]) == rule->unknown : rule->unknown == KILNSIDE_NO_UNKNOWN, "unknown of %s", cell[0]);
    CHECK(!cell[9][0] || atol(cell[9]) < rule->minimum || atol(cell[9]) > rule->maximum, "unknown of %s in range", cell[0]);
}

static long bit_of(const char *key, const char *name) {
    static const struct { const char *key, *name; long bit; } bits[] = {
        {"f", "open", KILNSIDE_FAULT_OPEN},
        {"f", "short to ground", KILNSIDE_FAULT_SHORT_TO_GROUND},
        {"f", "short to supply", KILNSIDE_FAULT_SHORT_TO_SUPPLY},
        {"f", "out of range", KILNSIDE_FAULT_OUT_OF_RANGE},
        {"f", "cold junction out of range", KILNSIDE_FAULT_COLD_JUNCTION_OUT_OF_RANGE},
        {"f", "input voltage", KILNSIDE_FAULT_INPUT_VOLTAGE},
        {"f", "no answer", KILNSIDE_FAULT_NO_ANSWER},
        {"r", "power on", KILNSIDE_RESET_POWER_ON},
        {"r", "reset pin", KILNSIDE_RESET_PIN},
        {"r", "supply dip", KILNSIDE_RESET_SUPPLY_DIP},
        {"r", "watchdog", KILNSIDE_RESET_WATCHDOG},
        {"r", "other", KILNSIDE_RESET_OTHER},
    };
    for (size_t i = 0; i < sizeof bits / sizeof bits[0]; i++) {
        if (!strcmp(bits[i].key, key) && !strcmp(bits[i].name, name)) return bits[i].bit;
    }
    return -1;
}

int main(int argc, char **argv) {
    char row[512], *cell[16];
    size_t count = 0;
    FILE *file = argc == 3 ? fopen(argv[1], "r") : NULL;
    if (!file || !fgets(row, sizeof row, file)) return 2;
    while (fgets(row, sizeof row, file)) {
        CHECK(cells(row, cell, 16) >= 12, "cells in row %zu", count + 1);
        CHECK(count < kilnside_rule_count, "a field the library does not know: %s", cell[0]);
        if (count < kilnside_rule_count) check_rule(count, cell);
        count++;
    }
    fclose(file);
    CHECK(count == kilnside_rule_count, "%zu rows, %zu rules", count, kilnside_rule_count);
    file = fopen(argv[2], "r");
    if (!file || !fgets(row, sizeof row, file)) return 2;
    while (fgets(row, sizeof row, file)) {
        CHECK(cells(row, cell, 16) >= 5, "cells");
        CHECK(bit_of(cell[0], cell[3]) == atol(cell[2]), "bit %s", cell[3]);
    }
    fclose(file);
    return report("fields_test");
}
