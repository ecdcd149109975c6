/**
 * One answer about a plan before it is fired: plan, this kiln and this load make cone, arrival, duration, cooling,
 * energy and cost, each with its interval, and what in the plan is rash. The editor, the command line, the review and
 * the week plan all ask here, so that they agree.
 *
 * <p>Knows: {@code quantity}, {@code sensor}, {@code schedule}, {@code firing}, {@code heatwork}, {@code thermal}. Must
 * not know: files, clocks, what language is spoken. Called from a command or from a thread beside the window's;
 * everything is immutable, and the same question gives the same answer. Truth: the kiln model and the law of cones
 * below it; for what is rash, the kiln maker's and the ware's limits, else common practice, and each warning says which.
 */
package org.kilnside.outlook;
