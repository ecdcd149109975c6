package org.kilnside.wording;

import java.time.ZoneId;
import java.util.Locale;

/**
 * How a person wants numbers said, whatever the language.
 *
 * @param unit the temperature scale
 * @param clock how hours are counted
 * @param zone where the clock on the wall hangs
 * @param opening what closes the kiln
 */
public record Preferences(TemperatureUnit unit, ClockStyle clock, ZoneId zone, Opening opening) {
    /** What a computer set up for this place most likely wants. */
    public static Preferences of(Locale locale) {
        boolean american = locale.getCountry().equals("US");
        return new Preferences(
                american ? TemperatureUnit.FAHRENHEIT : TemperatureUnit.CELSIUS,
                american ? ClockStyle.TWELVE_HOURS : ClockStyle.TWENTY_FOUR_HOURS,
                ZoneId.systemDefault(),
                Opening.LID);
    }

    public Preferences withUnit(TemperatureUnit other) {
        return new Preferences(other, clock, zone, opening);
    }

    public Preferences withClock(ClockStyle other) {
        return new Preferences(unit, other, zone, opening);
    }
}
