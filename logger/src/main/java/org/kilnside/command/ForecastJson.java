package org.kilnside.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kilnside.files.JsonObject;
import org.kilnside.outlook.Estimate;
import org.kilnside.quantity.Energy;
import org.kilnside.session.ConeDown;
import org.kilnside.thermal.Forecast;

/** A forecast as one JSON object, times in the log's own elapsed seconds. */
final class ForecastJson {
    private ForecastJson() {}

    /** @param path the log it is of; empty before lighting */
    static JsonObject object(Optional<Path> path, double askedS, Forecast forecast) {
        JsonObject object = new JsonObject()
                .with("log", path, Path::toString)
                .with("asked_s", askedS, 1)
                .with("stage", forecast.stage().name().toLowerCase(Locale.ROOT))
                .with("ambient_c", forecast.ambient().celsius(), 1);
        object.with("below", below(forecast.below()));
        object.with("arrival", forecast.arrival(), ForecastJson::arrival);
        object.with("energy_kwh", forecast.energy(), ForecastJson::hundredths);
        return object.with(
                "choices",
                forecast.choices().stream()
                        .map(choice -> new JsonObject()
                                .with("way", choice.way().name().toLowerCase(Locale.ROOT))
                                .with("from_c", choice.from(), from -> tenths(from.celsius()))
                                .with("below", below(choice.below())))
                        .toList());
    }

    /** Beside what a kiln not yet lit will probably take, what nine in ten of such kilns take. */
    static JsonObject withEnergyRange(JsonObject object, Optional<Estimate<Energy>> energy) {
        return object.with("energy_from_kwh", energy.map(Estimate::from), ForecastJson::hundredths)
                .with("energy_to_kwh", energy.map(Estimate::to), ForecastJson::hundredths);
    }

    /** Beside a firing that heats, when the cone its plan aims for is down; null where that is not told. */
    static JsonObject withCone(JsonObject object, Optional<ConeDown> aimed) {
        return object.with(
                "cone",
                aimed.filter(down -> down.when().isPresent()),
                down -> new JsonObject()
                        .with("aims_for", down.cone().number())
                        .with("at_s", down.when().get().atMs() / 1000.0, 1)
                        .with("from_s", down.when().get().fromMs() / 1000.0, 1)
                        .with("to_s", late(down.when().get()), seconds -> tenths(seconds)));
    }

    private static Optional<Double> late(ConeDown.When when) {
        return when.toMs().isPresent() ? Optional.of(when.toMs().getAsLong() / 1000.0) : Optional.empty();
    }

    private static List<JsonObject> below(List<Forecast.Below> answers) {
        List<JsonObject> thresholds = new ArrayList<>();
        for (Forecast.Below each : answers) {
            Optional<Forecast.When> when = each.when();
            thresholds.add(new JsonObject()
                    .with("temp_c", each.temperature().celsius(), 2)
                    .with("at_s", when, found -> tenths(found.atS()))
                    .with("from_s", when.map(Forecast.When::fromS).or(each::notBeforeS), ForecastJson::tenths)
                    .with("to_s", when, found -> tenths(found.toS())));
        }
        return thresholds;
    }

    private static JsonObject arrival(Forecast.Arrival arrival) {
        Optional<Forecast.When> when = arrival.when();
        Optional<Forecast.TopsOut> top = arrival.topsOut();
        return new JsonObject()
                .with("target_c", arrival.target().celsius(), 2)
                .with("reaches", arrival.reaches().known(), found -> found)
                .with("at_s", when, found -> tenths(found.atS()))
                .with("from_s", when, found -> tenths(found.fromS()))
                .with("to_s", when, found -> tenths(found.toS()))
                .with("tops_out_c", top, found -> tenths(found.at().celsius()))
                .with("tops_out_from_c", top, found -> tenths(found.from().celsius()))
                .with("tops_out_to_c", top, found -> tenths(found.to().celsius()));
    }

    private static double hundredths(Energy energy) {
        return Math.round(energy.kilowattHours() * 100) / 100.0;
    }

    private static double tenths(double value) {
        return Math.round(value * 10) / 10.0;
    }
}
