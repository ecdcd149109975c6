/**
 * The Week screen: several loads, one kiln and a date; when to light each. {@link org.kilnside.desktop.week.WeekModel} and
 * what it is made of are plain Java, confined to one thread; views only draw. The plan itself is {@code org.kilnside.week}'s,
 * its sentences {@code org.kilnside.wording}'s, so that the command says the same; it is worked out on a thread of its own.
 * Truth: the person's own week as it is on disk, the firing book and, while the kiln is hot, the live forecast.
 */
package org.kilnside.desktop.week;
