/* The USB cable as a pseudo-terminal: what can be unplugged, opened and closed. */
#ifndef CABLE_H
#define CABLE_H

#include <stdint.h>

/* Makes a pseudo-terminal; link: a symbolic link to make to it, or NULL. Returns 0 and errno when it cannot. */
int cable_plug(const char *link);
/* Takes it away: whoever has it open sees it vanish. */
void cable_unplug(void);
/* The link if there is one, else the pseudo-terminal itself; "" while unplugged. */
const char *cable_name(void);
/* Looks whether somebody opened or closed it, and says so. Returns 1 at each opening. */
int cable_look(void);
void cable_send(uint8_t byte);
/* Passes on what was sent; waits up to a second for a slow reader when told to be patient, else drops, like an adapter. */
void cable_flush(int patient);
int cable_receive(uint8_t *byte);
/* 1 while bytes from the host wait to be handed to the board. */
int cable_pending(void);
long cable_dropped(void);

#endif
