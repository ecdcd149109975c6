/**
 * Physical quantities with their units in the type: a temperature is a point on a scale, a temperature difference a
 * span, and the two do not mix.
 *
 * <p>Knows: units and their conversion. Must not know: anything else; it imports the JDK alone. Called from any
 * thread; everything here is immutable. Truth: the SI brochure (9th ed., 2019) and the definition of the degree
 * Fahrenheit (°F = °C × 9/5 + 32).
 */
package org.kilnside.quantity;
