/**
 * What is printed: pages that stand alone, without this program and without a network.
 *
 * <p>Knows: {@code wording}, which says what stands on a page. Must not know: widgets, the book, links. Everything is
 * immutable and may be called from any thread. Truth: HTML (living standard), as any browser prints it.
 */
package org.kilnside.report;
