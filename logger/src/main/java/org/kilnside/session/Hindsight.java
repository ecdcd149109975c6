package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.SensorInPlace;

/**
 * What is known only afterwards: readings that were missing and came late, and what the sensor truly is. What had been
 * worked out without it is worked out anew, from the readings in the book. Confined to the session's thread.
 */
final class Hindsight {
    private static final long UNKNOWN_INTERVAL_MS = 1_000;

    private final FiringRecord record;
    private final Following following;
    private final Forecasts forecasts;
    private final AlarmDuty alarms;
    private final Gaps gaps = new Gaps();
    private boolean sensorChanged;

    Hindsight(FiringRecord record, Following following, Forecasts forecasts, AlarmDuty alarms) {
        this.record = record;
        this.following = following;
        this.forecasts = forecasts;
        this.alarms = alarms;
    }

    Gaps gaps() {
        return gaps;
    }

    /** A reading has come late; one that stands in the book already, or near enough, is left out. */
    void filledIn(Reading reading, OptionalLong lineIntervalMs, long hostMs) {
        if (!following.hasReadingNear(reading.elapsedMs(), 2 * lineIntervalMs.orElse(UNKNOWN_INTERVAL_MS))) {
            record.append(reading);
            gaps.filled(hostMs);
        }
    }

    /** More is known of the sensor. */
    void sensor(SensorInPlace known) {
        sensorChanged |= following.sensor(Optional.of(known)) && record.isOpen();
    }

    /** Works out anew what is to be; true when something was. */
    boolean look(long elapsedMs, long hostMs) {
        boolean anew = false;
        if (gaps.areSettled(hostMs) && followAnew()) {
            record.note(Kind.GAP_FILLED, Optional.of(Integer.toString(gaps.takeFilled())), elapsedMs);
            anew = true;
        }
        if (sensorChanged) {
            alarms.remember();
            boolean followed = followAnew();
            alarms.remembered(record.events(), elapsedMs);
            sensorChanged = !followed;
            anew |= followed;
        }
        return anew;
    }

    /** False when the disk is slow or full: the readings are waiting, and this is to be tried again. */
    private boolean followAnew() {
        Optional<List<Reading>> readings = record.readings();
        if (readings.isEmpty()) {
            return false;
        }
        following.reset();
        forecasts.courseChanged();
        readings.get().stream().filter(reading -> reading.first().number() == 1).forEach(following::take);
        following.takeHappened().forEach(record::recordNews);
        return true;
    }
}
