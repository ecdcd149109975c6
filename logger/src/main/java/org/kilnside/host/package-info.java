/**
 * The computer the program runs on: its clocks and its folders.
 *
 * <p>Knows: the ports of the session it fills. Must not know: firings, wires. Called from any thread. Truth: the
 * operating system.
 */
package org.kilnside.host;
