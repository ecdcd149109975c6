/**
 * What the ware has had: from a curve to a cone, live and for any curve or plan.
 *
 * <p>Knows: {@code quantity}, {@code sensor} (how far a reading may be off), {@code schedule} and {@code firing}. Must
 * not know: which kiln it is, how a kiln cools, where readings come from, who looks. Called from the session's thread
 * reading by reading and from any command; accumulators are confined to their caller, all else is immutable. Truth:
 * the published chart of cone temperatures (see {@link org.kilnside.heatwork.ConeTable}), and the user's own witness
 * cones.
 */
package org.kilnside.heatwork;
