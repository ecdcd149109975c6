/**
 * Where in the plan the kiln is, and how far off it.
 *
 * <p>Knows: {@code quantity}, {@code schedule}, {@code firing}. Must not know: clocks, wires, screens. Called from the
 * session's thread, reading by reading. Truth: the controller's own segment where it says one, else the curve.
 */
package org.kilnside.tracking;
