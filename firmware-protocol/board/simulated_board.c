/*
 * The board on a desk computer: an ATmega328P (libsimavr) running unmodified firmware, a thermocouple amplifier on its
 * SPI and its UART on a pseudo-terminal, as if it were a USB cable. README.md here says what it is told and what it says.
 */
#define _GNU_SOURCE /* posix_openpt and friends, cfmakeraw */
#include <errno.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include <simavr/avr_ioport.h>
#include <simavr/avr_spi.h>
#include <simavr/avr_uart.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_elf.h>

#include "cable.h"
#include "chip.h"
#include "commands.h"

enum { SRAM_START = 0x100, MCUSR_ADDRESS = 0x54, FLASH_LOOP = 0xCFFF /* rjmp to itself */ };

static struct {
    avr_t *avr;
    avr_irq_t *spi_in, *uart_in;
    double speed;         /* simulated seconds a second; 0 = as fast as it goes */
    double seconds;       /* end after so many simulated seconds; 0 = never */
    double paced_from_s, paced_wall_s;
    int reset_on_open;    /* DTR is wired to RESET */
    int uart_ready;       /* the firmware's receiver has room */
    uint16_t lowest_stack;
    long stalled_at;      /* flash address of the planted endless loop, -1 = none */
    uint16_t stalled_word;
    int quit;
} board = {.speed = 1, .stalled_at = -1};

static double wall_s(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

double board_time_s(void) {
    return (double)board.avr->cycle / board.avr->frequency;
}

void board_say(const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    vprintf(format, arguments);
    va_end(arguments);
    putchar('\n');
    fflush(stdout);
}

/* ---- wires ------------------------------------------------------------------------------------------------------ */

static void on_chip_select(struct avr_irq_t *irq, uint32_t level, void *parameter) {
    (void)irq, (void)parameter;
    chip_select(level == 0, board_time_s());
}

static void on_spi_byte(struct avr_irq_t *irq, uint32_t byte, void *parameter) {
    (void)irq, (void)parameter;
    avr_raise_irq(board.spi_in, chip_exchange((uint8_t)byte));
}

static void on_uart_byte(struct avr_irq_t *irq, uint32_t byte, void *parameter) {
    (void)irq, (void)parameter;
    cable_send((uint8_t)byte);
}

static void on_uart_ready(struct avr_irq_t *irq, uint32_t value, void *parameter) {
    (void)irq, (void)value, (void)parameter;
    board.uart_ready = 1;
}

static void on_uart_full(struct avr_irq_t *irq, uint32_t value, void *parameter) {
    (void)irq, (void)value, (void)parameter;
    board.uart_ready = 0;
}

/* libsimavr speaks on standard output, which is ours: its errors go to standard error, the rest nowhere. */
static void on_simavr_message(avr_t *avr, const int level, const char *format, va_list arguments) {
    (void)avr;
    if (level <= LOG_ERROR) vfprintf(stderr, format, arguments);
}

/* Our own pacing replaces simavr's sleeping. */
static void no_sleep(avr_t *avr, avr_cycle_count_t cycles) {
    (void)avr, (void)cycles;
}

/* ---- what can befall a board ------------------------------------------------------------------------------------ */

static void unplant_stall(void) {
    if (board.stalled_at < 0) return;
    board.avr->flash[board.stalled_at] = (uint8_t)board.stalled_word;
    board.avr->flash[board.stalled_at + 1] = (uint8_t)(board.stalled_word >> 8);
    board.stalled_at = -1;
}

static void restart(uint8_t cause, const char *name) {
    unplant_stall();
    avr_reset(board.avr); /* keeps RAM, as the chip does */
    board.avr->data[MCUSR_ADDRESS] = cause;
    board_say("RESET %.3f %s", board_time_s(), name);
}

void board_press_reset(void) {
    restart(2, "pin");
}

void board_cycle_power(void) {
    for (uint32_t i = SRAM_START; i <= board.avr->ramend; i++) board.avr->data[i] = (uint8_t)rand();
    chip_power_up();
    restart(1, "power");
}

void board_stall(void) {
    uint32_t at = board.avr->pc;
    unplant_stall();
    board.stalled_at = (long)at;
    board.stalled_word = (uint16_t)(board.avr->flash[at] | board.avr->flash[at + 1] << 8);
    board.avr->flash[at] = (uint8_t)FLASH_LOOP;
    board.avr->flash[at + 1] = (uint8_t)(FLASH_LOOP >> 8);
}

void board_raise_dtr(void) {
    if (board.reset_on_open) restart(2, "dtr");
}

void board_set_speed(double speed) {
    board.speed = speed;
    board.paced_from_s = board_time_s();
    board.paced_wall_s = wall_s();
}

void board_tell_stack(void) {
    board_say("STACK %u bytes at most, from %u downwards", board.avr->ramend - board.lowest_stack, board.avr->ramend);
}

void board_quit(void) {
    board.quit = 1;
}

/* ---- running ---------------------------------------------------------------------------------------------------- */

static void run_slice(double slice_s) {
    avr_cycle_count_t until = board.avr->cycle + (avr_cycle_count_t)(slice_s * board.avr->frequency);
    while (board.avr->cycle < until) {
        uint32_t pc_before = board.avr->pc;
        uint16_t stack;
        int state = avr_run(board.avr);
        if (state == cpu_Done || state == cpu_Crashed) {
            board_say("CRASHED %.3f state %d", board_time_s(), state);
            board.quit = 1;
            return;
        }
        if (board.avr->pc == 0 && pc_before != 0) { /* the watchdog; our own restarts do not happen in here */
            unplant_stall();
            board_say("RESET %.3f watchdog", board_time_s());
        }
        stack = (uint16_t)(board.avr->data[R_SPL] | board.avr->data[R_SPH] << 8);
        if (stack >= SRAM_START && stack < board.lowest_stack) board.lowest_stack = stack;
    }
}

static void pace(void) {
    double ahead;
    if (board.speed <= 0) return;
    ahead = (board_time_s() - board.paced_from_s) / board.speed - (wall_s() - board.paced_wall_s);
    if (ahead > 0) {
        struct timespec rest = {(time_t)ahead, (long)((ahead - (double)(time_t)ahead) * 1e9)};
        nanosleep(&rest, NULL);
    } else if (ahead < -0.5) {
        board_set_speed(board.speed); /* the computer was asleep or busy: do not race to catch up */
    }
}

static void hand_over_received(void) {
    uint8_t byte;
    if (board.uart_ready && cable_receive(&byte)) avr_raise_irq(board.uart_in, byte);
}

static void set_up(const char *firmware) {
    elf_firmware_t elf;
    uint32_t flags = 0;
    memset(&elf, 0, sizeof elf);
    avr_global_logger_set(on_simavr_message);
    if (elf_read_firmware(firmware, &elf)) {
        fprintf(stderr, "simulated_board: cannot read firmware %s: expected an ELF file for AVR\n", firmware);
        exit(2);
    }
    board.avr = avr_make_mcu_by_name("atmega328p");
    if (!board.avr) {
        fprintf(stderr, "simulated_board: this libsimavr does not know the atmega328p\n");
        exit(2);
    }
    avr_init(board.avr);
    elf.frequency = 16000000;
    avr_load_firmware(board.avr, &elf);
    board.avr->frequency = 16000000;
    board.avr->sleep = no_sleep;
    board.avr->log = LOG_ERROR;
    avr_ioctl(board.avr, AVR_IOCTL_UART_GET_FLAGS('0'), &flags);
    flags &= ~(uint32_t)(AVR_UART_FLAG_STDIO | AVR_UART_FLAG_POLL_SLEEP);
    avr_ioctl(board.avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
    board.spi_in = avr_io_getirq(board.avr, AVR_IOCTL_SPI_GETIRQ(0), SPI_IRQ_INPUT);
    board.uart_in = avr_io_getirq(board.avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
    avr_irq_register_notify(avr_io_getirq(board.avr, AVR_IOCTL_SPI_GETIRQ(0), SPI_IRQ_OUTPUT), on_spi_byte, NULL);
    avr_irq_register_notify(avr_io_getirq(board.avr, AVR_IOCTL_IOPORT_GETIRQ('B'), 2), on_chip_select, NULL);
    avr_irq_register_notify(avr_io_getirq(board.avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), on_uart_byte, NULL);
    avr_irq_register_notify(avr_io_getirq(board.avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XON), on_uart_ready, NULL);
    avr_irq_register_notify(avr_io_getirq(board.avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XOFF), on_uart_full, NULL);
    board.lowest_stack = board.avr->ramend;
    for (uint32_t i = SRAM_START; i <= board.avr->ramend; i++) board.avr->data[i] = (uint8_t)rand();
    board.avr->data[MCUSR_ADDRESS] = 1; /* power on */
}

static void usage(void) {
    fprintf(stderr, "usage: simulated_board FIRMWARE.elf [--pty LINK] [--speed N] [--seconds N] [--amplifier NAME]"
                    " [--dtr-wired] [--seed N]\n");
    exit(2);
}

int main(int argc, char **argv) {
    const char *link = NULL, *amplifier = "MAX31855";
    unsigned seed = 1;
    if (argc < 2) usage();
    for (int i = 2; i < argc; i++) {
        if (!strcmp(argv[i], "--dtr-wired")) {
            board.reset_on_open = 1;
            continue;
        }
        if (i + 1 == argc) usage();
        if (!strcmp(argv[i], "--pty")) link = argv[++i];
        else if (!strcmp(argv[i], "--speed")) board.speed = atof(argv[++i]);
        else if (!strcmp(argv[i], "--seconds")) board.seconds = atof(argv[++i]);
        else if (!strcmp(argv[i], "--amplifier")) amplifier = argv[++i];
        else if (!strcmp(argv[i], "--seed")) seed = (unsigned)strtoul(argv[++i], NULL, 10);
        else usage();
    }
    srand(seed);
    if (!chip_choose(amplifier)) {
        fprintf(stderr, "simulated_board: amplifier %s: expected MAX31855 or MAX31856\n", amplifier);
        return 2;
    }
    set_up(argv[1]);
    if (!cable_plug(link)) {
        fprintf(stderr, "simulated_board: no pseudo-terminal%s%s: %s\n", link ? " at " : "", link ? link : "", strerror(errno));
        return 2;
    }
    board_say("READY %s", cable_name());
    board_set_speed(board.speed);
    while (!board.quit && !(board.seconds > 0 && board_time_s() >= board.seconds)) {
        /* Short enough to be fair to the wire and to pace finely, long enough to cost little. */
        double slice_s = board.speed > 10 || board.speed <= 0 ? 0.02 : 0.001;
        commands_take();
        if (cable_look()) board_raise_dtr();
        hand_over_received();
        chip_live(board_time_s());
        run_slice(cable_pending() ? 0.0005 : slice_s);
        cable_flush(board.speed != 1);
        pace();
    }
    board_tell_stack();
    board_say("END %.3f frames %ld dropped %ld", board_time_s(), chip_frames(), cable_dropped());
    cable_unplug();
    fflush(stdout);
    _exit(0);
}
