/**
 * The Plans screen: the library, an editor with undo in which segments are typed or dragged, and what the plan will come
 * to in this kiln while it is edited. Models are plain Java; views only draw. Called on the Swing thread; what waits for
 * the disk or works things out goes through the window's errands.
 */
package org.kilnside.desktop.plan;
