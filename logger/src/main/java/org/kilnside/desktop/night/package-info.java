/**
 * The Night screen: the list before lighting, the card of what to key in, and whether an alarm would be heard tonight.
 * Views are confined to the Swing thread; {@link org.kilnside.desktop.night.NightModel} is plain Java.
 */
package org.kilnside.desktop.night;
