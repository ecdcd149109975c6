/**
 * The plan: a schedule of ramps, holds and cooling, and the curve it means.
 *
 * <p>Knows: {@code quantity}. Must not know: how a plan is written in a file, what a kiln can follow, what time it is.
 * Called from any thread; everything here is immutable. Truth: the person who wrote the plan.
 */
package org.kilnside.schedule;
