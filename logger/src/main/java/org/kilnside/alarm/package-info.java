/**
 * Alarms as values: what is wrong, how bad, since when, seen against expected, what to do next. And the detectors that
 * find them in the readings.
 *
 * <p>Knows: the craft rooms above it. Must not know: clocks, sound, wires, screens, languages; it is told the time, and
 * others ring and say. Called from the session's thread alone. Truth: the readings, the plan, the kiln's limits, and
 * what an electric kiln of brick or fibre can and cannot do.
 */
package org.kilnside.alarm;
