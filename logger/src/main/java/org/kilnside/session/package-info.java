/**
 * The live firing: takes readings, has them written, tracks them against the plan, and publishes one immutable
 * snapshot after each.
 *
 * <p>Knows: the craft rooms, and the ports it declares here for the world to fill. Must not know: sockets, files,
 * databases, widgets. Its own single thread does all the work; a queue stands between it and the link.
 * Forecasts alone are worked out on a second thread, which hands its answers back through that queue. Truth: the
 * readings, handed to the book before anything else sees them.
 */
package org.kilnside.session;
