/**
 * Wires the rooms together and starts the program.
 *
 * <p>Knows: every room. Nobody imports it. Truth: the command line.
 */
package org.kilnside.app;
