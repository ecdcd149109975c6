/**
 * The command line: reads what was asked, lets the rooms above do it, prints the answer for a person or as JSON.
 *
 * <p>Knows: every room but the desktop, which it reaches through a port of its own. Must not know: how a window is
 * drawn. Runs on the main thread. Truth: the words the person typed.
 */
package org.kilnside.command;
