/**
 * What the sensor says: thermocouple functions, what each amplifier's codes mean, cold-junction correction,
 * calibration, outliers and uncertainty.
 *
 * <p>Knows: {@code quantity}. Must not know: firings, plans, wires, files, clocks. Called from the session's thread
 * and from any command; everything here is immutable or confined to its caller. Truth: NIST Monograph 175 (ITS-90
 * reference functions), IEC 60584-1 (tolerances), the amplifier makers' data sheets.
 */
package org.kilnside.sensor;
