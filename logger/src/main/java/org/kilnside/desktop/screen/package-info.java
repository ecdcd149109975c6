/**
 * What a screen of the window is, and what the window gives to each: a moment to show, a row for its keys, a thread for
 * its errands; and the drawing along time that several screens have. Knows no screen. Called on the Swing thread only.
 */
package org.kilnside.desktop.screen;
