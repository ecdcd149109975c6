/**
 * Why a load came out as it did: by how much a firing fell short of its plan, what each part of it cost, what made it
 * so, and what to change.
 *
 * <p>Knows: {@code quantity}, {@code sensor}, {@code schedule}, {@code firing}, {@code heatwork}. Must not know: where
 * a log lies, the book, how anything is said. Called from any thread; everything that leaves this room is immutable
 * and says what it says as numbers with their kind, not as text. Truth: the heat work of {@code heatwork}, the
 * controller's own set-point and output where the log has them, the potter's witness cones; every limit named here is a
 * physical one or is marked as common practice, and how often the causes are right is measured in docs/validation.md.
 */
package org.kilnside.review;
