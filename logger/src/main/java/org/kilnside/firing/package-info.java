/**
 * The firing: its readings, its curve, what happened in it, and the plan as it was.
 *
 * <p>Knows: {@code quantity}, {@code sensor} (what a raw signal is) and {@code schedule}. Must not know: where
 * readings come from, where they are written, who looks. Called from any thread; immutable but for the builder of a
 * {@link org.kilnside.firing.Trace}. Truth: the controller's lines.
 */
package org.kilnside.firing;
