#define _GNU_SOURCE /* posix_openpt, ptsname, cfmakeraw */
#include "cable.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <termios.h>
#include <unistd.h>

#include "commands.h"

static struct {
    int master;   /* -1 while unplugged */
    int watch;    /* tells of every opening and closing, however short */
    int openings; /* how often the other end is open now */
    int open;
    int stuck;  /* the reader did not take what we waited to give it */
    char name[256], link[256];
    uint8_t out[8192];
    size_t out_length;
    uint8_t in[256];
    size_t in_length, in_taken;
    long dropped;
} cable = {.master = -1, .watch = -1};

int cable_plug(const char *link) {
    struct termios settings;
    int slave;
    if (cable.master >= 0) return 1;
    cable.master = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
    if (cable.master < 0 || grantpt(cable.master) || unlockpt(cable.master)) return 0;
    snprintf(cable.name, sizeof cable.name, "%s", ptsname(cable.master));
    slave = open(cable.name, O_RDWR | O_NOCTTY | O_CLOEXEC);
    if (slave < 0) return 0;
    tcgetattr(slave, &settings);
    cfmakeraw(&settings);
    cfsetspeed(&settings, B115200);
    tcsetattr(slave, TCSANOW, &settings);
    close(slave);
    cable.watch = inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    if (cable.watch < 0 || inotify_add_watch(cable.watch, cable.name, IN_OPEN | IN_CLOSE) < 0) return 0;
    cable.open = cable.openings = cable.stuck = 0;
    cable.out_length = cable.in_length = cable.in_taken = 0;
    if (link) snprintf(cable.link, sizeof cable.link, "%s", link);
    if (cable.link[0]) {
        unlink(cable.link);
        if (symlink(cable.name, cable.link)) return 0;
    }
    return 1;
}

void cable_unplug(void) {
    if (cable.master < 0) return;
    if (cable.link[0]) unlink(cable.link);
    close(cable.watch);
    close(cable.master);
    cable.master = -1;
    cable.open = 0;
}

const char *cable_name(void) {
    if (cable.master < 0) return "";
    return cable.link[0] ? cable.link : cable.name;
}

/* The first to open it raises DTR, the last to close it lets it fall; more openings in between change nothing. */
static int first_opened_or_last_closed(uint32_t what) {
    cable.openings += what & IN_OPEN ? 1 : what & IN_CLOSE ? -1 : 0;
    if (cable.open == (cable.openings > 0)) return 0;
    cable.open = !cable.open;
    cable.stuck = 0;
    cable.out_length = cable.in_length = cable.in_taken = 0;
    board_say("%s %.3f", cable.open ? "OPENED" : "CLOSED", board_time_s());
    return cable.open;
}

int cable_look(void) {
    _Alignas(struct inotify_event) char events[4096];
    ssize_t length, at = 0;
    int opened = 0;
    if (cable.master < 0) return 0;
    length = read(cable.watch, events, sizeof events);
    while (at < length) {
        const struct inotify_event *event = (const struct inotify_event *)(events + at);
        opened |= first_opened_or_last_closed(event->mask);
        at += (ssize_t)(sizeof *event + event->len);
    }
    return opened;
}

void cable_send(uint8_t byte) {
    if (!cable.open || cable.out_length == sizeof cable.out) {
        cable.dropped += cable.open;
        return;
    }
    cable.out[cable.out_length++] = byte;
}

void cable_flush(int patient) {
    size_t sent = 0;
    if (cable.master < 0 || !cable.out_length) return;
    while (sent < cable.out_length) {
        ssize_t count = write(cable.master, cable.out + sent, cable.out_length - sent);
        struct pollfd room = {cable.master, POLLOUT, 0};
        if (count > 0) {
            sent += (size_t)count;
            cable.stuck = 0;
        } else if (errno != EAGAIN || cable.stuck || !patient || poll(&room, 1, 1000) <= 0 || (room.revents & POLLHUP)) {
            cable.stuck = 1;
            break;
        }
    }
    cable.dropped += (long)(cable.out_length - sent);
    cable.out_length = 0;
}

int cable_pending(void) {
    if (cable.in_taken == cable.in_length && cable.open) {
        ssize_t count = read(cable.master, cable.in, sizeof cable.in);
        cable.in_taken = 0;
        cable.in_length = count > 0 ? (size_t)count : 0;
    }
    return cable.in_taken < cable.in_length;
}

int cable_receive(uint8_t *byte) {
    if (!cable_pending()) return 0;
    *byte = cable.in[cable.in_taken++];
    return 1;
}

long cable_dropped(void) {
    return cable.dropped;
}
