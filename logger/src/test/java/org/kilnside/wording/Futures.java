package org.kilnside.wording;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;

/** Snapshots with an answer of the forecast, made by hand. The firing began at 7:30 on the wall at Rook Lane. */
final class Futures {
    static final Words ENGLISH = words(Language.ENGLISH, Opening.LID);
    static final double HOUR_S = 3600;

    static Words words(Language language, Opening opening) {
        return Words.of(
                language,
                new Preferences(
                        TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), opening));
    }

    static Temperature celsius(double celsius) {
        return Temperature.ofCelsius(celsius);
    }

    static Snapshot with(Snapshot snapshot, Forecast forecast) {
        return with(snapshot, Optional.of(forecast), Optional.empty());
    }

    static Snapshot with(Snapshot snapshot, Optional<Forecast> forecast, Optional<String> failure) {
        LiveForecast live = new LiveForecast(
                snapshot.curve().elapsedMs(snapshot.curve().size() - 1),
                Kiln.Thresholds.COMMON_PRACTICE,
                forecast,
                List.of(),
                Optional.empty(),
                Optional.empty(),
                failure);
        return snapshot.with(
                snapshot.connection(),
                snapshot.latest(),
                snapshot.curve(),
                snapshot.findings().with(Optional.of(live)));
    }

    static Forecast forecast(
            double askedH, Stage stage, Optional<Arrival> arrival, List<Below> below, Remark... remarks) {
        return new Forecast(
                askedH * HOUR_S,
                stage,
                celsius(12),
                below,
                arrival,
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(remarks));
    }

    static Below below(double celsius, double fromH, double atH, double toH) {
        return new Below(
                celsius(celsius),
                Optional.of(new When(atH * HOUR_S, fromH * HOUR_S, toH * HOUR_S)),
                Optional.of(fromH * HOUR_S));
    }

    /** Twenty past six of a firing under way, with an answer for the top and what comes below. */
    static Snapshot heating(Arrival arrival, Below... below) {
        return with(SampleSnapshots.heating(), forecast(6.28, Stage.HEATING, Optional.of(arrival), List.of(below)));
    }

    /** The same with the cone so far and the plan's. */
    static Snapshot heatingForecast(Arrival arrival) {
        return with(SampleSnapshots.heatingForecast(), forecast(6.28, Stage.HEATING, Optional.of(arrival), List.of()));
    }

    /** The fourteenth hour, an hour after the top. */
    static Snapshot cooling(Below... below) {
        return with(SampleSnapshots.cooling(), forecast(14, Stage.COOLING, Optional.empty(), List.of(below)));
    }

    static Arrival arrival(double targetC, Reaches reaches, Optional<When> when, Optional<TopsOut> topsOut) {
        return new Arrival(celsius(targetC), reaches, when, topsOut);
    }

    static Optional<When> when(double fromH, double atH, double toH) {
        return Optional.of(new When(atH * HOUR_S, fromH * HOUR_S, toH * HOUR_S));
    }

    static Optional<TopsOut> topsOut(double atC, double fromC, double toC) {
        return Optional.of(new TopsOut(celsius(atC), celsius(fromC), celsius(toC)));
    }

    private Futures() {}
}
