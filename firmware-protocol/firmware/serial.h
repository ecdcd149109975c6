/* UART 0, 115200 8N1, both ways by interrupt, so that the core sleeps while a line goes out. */
#ifndef SERIAL_H
#define SERIAL_H

#include <stdint.h>

void serial_begin(void);
/* Sends bytes that stay where they are until serial_busy() is 0. */
void serial_send(const char *bytes, uint8_t length);
uint8_t serial_busy(void);
/* The next byte received, or -1. Bytes beyond what the buffer holds are lost; requests are short. */
int16_t serial_receive(void);

#endif
