/**
 * A kiln that is not there: the physics of an electric pottery kiln in SI units, the sensor in it, the controller on
 * it, and what can go wrong with each. It feeds the demo, the tests and the simulated board.
 *
 * <p>Its physics are deliberately not those of the forecasts: the room {@code thermal} must not be imported here, nor
 * this room there, so that each can be held against the other. Knows: {@code quantity}, {@code sensor}, {@code
 * schedule}, {@code firing}. Must not know: files, clocks, wires, how a forecast is made. Every object is confined to
 * one caller at a time; the same specification and seed give the same firing, to the bit. Truth: handbook heat
 * transfer (named at each formula), the property tables named in {@link org.kilnside.virtualkiln.Materials}, the
 * amplifier makers' data sheets; geometry factors without a source are estimates and say so.
 */
package org.kilnside.virtualkiln;
