/**
 * The Kiln screen: the lines off the wire, the first steps from no kiln yet to the first reading, and what is known of
 * the kiln.
 *
 * <p>Its models are plain Java and say everything its views draw. It declares the ports it needs of the world
 * ({@code Recordings}, {@code Wire}, {@code KilnShelf}); the app fills them. Called on the Swing thread only; what may
 * wait goes to the errands' thread.
 */
package org.kilnside.desktop.kiln;
