/**
 * The Now screen. {@link org.kilnside.desktop.now.NowModel} works out every string and value from a snapshot and the
 * host's time, without a display; the views draw it.
 */
package org.kilnside.desktop.now;
