/**
 * The kiln: a small physical model of its wall, its load and its leaks, fitted to the firing at hand and remembered
 * from firing to firing, that answers when it will be cool, whether and when it will reach the top, how strong its
 * elements are and whether its sensor can be believed.
 *
 * <p>Knows: {@code quantity}, {@code schedule}, {@code firing}. Must not know: files, clocks, threads, nor the virtual
 * kiln it is tried on. Called from the forecast thread or a command; everything handed out is immutable. Truth: the
 * readings; for the physics, the textbook solutions its tests name, and for its accuracy the populations of simulated
 * kilns, with other physics than its own, that docs/validation.md reports.
 */
package org.kilnside.thermal;
