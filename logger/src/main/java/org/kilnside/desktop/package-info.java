/**
 * The window: a potter's instrument on the studio's or the kitchen's table.
 *
 * <p>Knows: {@code session}'s feed and snapshot, {@code wording}, {@code chart}. Must not know: the book, the link, files;
 * what it needs kept it hands to the {@link org.kilnside.desktop.SettingsStore} port, and each screen beside the live one to a port of its own. Views are confined to the Swing
 * thread, and nothing on that thread waits: errands to the session run on a thread of their own. Models are plain Java.
 * Truth: the newest snapshot and the host's clock.
 */
package org.kilnside.desktop;
