/**
 * The kiln: a small physical model of its wall, its load and its leaks, fitted to the firing at hand and remembered
 * from firing to firing, that answers when it will be cool, whether and when it will reach the top, how strong its
 * elements are and whether its sensor can be believed.
 *
 * <p>For the firing going on: {@link org.kilnside.thermal.Forecaster} answers when and whether, with what each choice
 * (shut, bung out, lid propped) would give, and takes what a person noted of the openings
 * ({@link org.kilnside.thermal.Ventilated}). {@link org.kilnside.thermal.PowerGuard}, one for each firing and asked once
 * a minute of kiln time, says when the power a kiln takes cannot be explained: the sensor fell too fast or reads low
 * ({@code distrustsSensor()}: withdraw cone, arrival and top-out), a ring's power is missing, water is still leaving.
 *
 * <p>Knows: {@code quantity}, {@code schedule}, {@code firing}. Must not know: files, clocks, threads, nor the virtual
 * kiln it is tried on. Called from the forecast thread or a command; everything handed out is immutable. Truth: the
 * readings; for the physics, the textbook solutions its tests name, and for its accuracy the populations of simulated
 * kilns, with other physics than its own, that docs/validation.md reports.
 */
package org.kilnside.thermal;
