/* What the board is told on standard input, and the few things its parts ask of it. */
#ifndef COMMANDS_H
#define COMMANDS_H

#include <stdarg.h>

/* Takes the lines that have come and those whose time has come; never waits. */
void commands_take(void);

/* The board itself, in simulated_board.c. */
double board_time_s(void);
void board_say(const char *format, ...) __attribute__((format(printf, 1, 2)));
void board_press_reset(void);
void board_cycle_power(void);
void board_stall(void);
void board_raise_dtr(void);
void board_set_speed(double speed);
void board_tell_stack(void);
void board_quit(void);

#endif
