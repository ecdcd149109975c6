/**
 * What other copies and a browser see of the live firing: the stream of snapshots.
 *
 * <p>Knows: the session's snapshots, how they are written as lines. Must not know: widgets, the book. One thread a
 * follower; the session is never held up. Truth: the session's newest snapshot.
 */
package org.kilnside.page;
