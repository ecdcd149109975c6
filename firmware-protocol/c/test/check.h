/* The least a test needs: a check that says where and what, and a count. */
#ifndef CHECK_H
#define CHECK_H

#include <stdio.h>

static int checks;
static int failures;

#define CHECK(condition, ...)                                  \
    do {                                                       \
        checks++;                                              \
        if (!(condition)) {                                    \
            if (failures++ < 20) {                             \
                printf("%s:%d: %s: ", __FILE__, __LINE__, #condition); \
                printf(__VA_ARGS__);                           \
                printf("\n");                                  \
            }                                                  \
        }                                                      \
    } while (0)

static int report(const char *name) {
    printf("%s: %d checks, %d failed\n", name, checks, failures);
    return failures || !checks;
}

#endif
