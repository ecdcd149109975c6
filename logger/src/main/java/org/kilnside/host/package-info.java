/**
 * The computer the program runs on: its clocks, folders, battery, disk and sleep, its loudspeaker and its desktop's
 * notices, and the user's own alarm command.
 *
 * <p>Knows: the ports of the session it fills, and how bad an alarm is. Must not know: firings, wires, what an alarm
 * says. Called from any thread; nothing here makes its caller wait. Truth: the operating system.
 */
package org.kilnside.host;
