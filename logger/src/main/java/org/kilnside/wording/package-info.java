/**
 * What the program says: texts in three languages, units, times, cautions. It says, and never draws: the command line,
 * a report and the window all take their words from here.
 *
 * <p>Knows: the craft rooms and {@code session}'s snapshot. Must not know: where a text ends up. Everything is
 * immutable and may be called from any thread. Truth: the files {@code texts_*.properties}, one a language.
 */
package org.kilnside.wording;
