/**
 * Several loads, one kiln, one date: which load is fired when, so that somebody is there to light it, at its top and to
 * unload it, and all are out in time.
 *
 * <p>Knows: {@code quantity}, {@code sensor}, {@code schedule}, {@code firing}, {@code heatwork}, {@code thermal},
 * {@code outlook}. Must not know: files, what time it is, how anything is said. Called from a command or from a thread
 * beside the window's; everything that leaves this room is immutable, and the same week gives the same plan. Truth: how
 * long a firing takes is {@code outlook}'s, late end and all; that ware is dry, and who is there when, is the potter's
 * word.
 */
package org.kilnside.week;
