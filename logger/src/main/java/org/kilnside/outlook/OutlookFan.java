package org.kilnside.outlook;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.Stream;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.thermal.ForecastFan.Passage;
import org.kilnside.thermal.ImaginedFiring;
import org.kilnside.thermal.ImaginedFirings;

/**
 * An outlook as a drawing: the same firings and the same intervals as its numbers, so that the two say the same, in the
 * shape the forecast of a lit kiln is drawn in.
 */
final class OutlookFan {
    /** A ramp the elements do not follow bends: it is drawn by so many points. */
    private static final int POINTS_OF_RAMP = 6;

    private static final double NEARLY_ALL = 0.95;

    private OutlookFan() {}

    /** The temperatures whose times the drawing takes, falling: those a person asks for among them. */
    static List<Temperature> asked(OutlookQuestion question) {
        Temperature crack = question.kiln().thresholds().crack();
        Temperature unload = question.kiln().thresholds().unload();
        return Stream.concat(
                        Stream.of(crack, unload),
                        ForecastFan.ladder(question.plan().top().celsius(), unload.celsius()).stream())
                .sorted(Comparator.reverseOrder())
                .distinct()
                .toList();
    }

    /** @param firings asked for what {@link #asked} says */
    static List<ForecastFan.Point> of(
            OutlookQuestion question,
            ImaginedFirings firings,
            Forecast.Reaches reaches,
            Estimate<Temperature> highest) {
        List<Temperature> asked = asked(question);
        List<Below> below = new ArrayList<>();
        for (int i = 0; i < asked.size(); i++) {
            int place = i;
            // Of a rung that only the stronger kilns ever were above, the time is not that of all.
            boolean ofAll = firings.share(firing -> firing.belowS().get(place).isPresent()) >= NEARLY_ALL;
            below.add(new Below(
                    asked.get(i),
                    Outlook.time(firings, firing -> firing.belowS().get(place), Outlook.COOLING_LEAST)
                            .filter(time -> ofAll)
                            .map(ForecastAtLighting::when),
                    Optional.empty()));
        }
        Forecast forecast = new Forecast(
                0,
                Forecast.Stage.WAITING,
                question.room(),
                below,
                Optional.of(new Arrival(
                        question.plan().top(),
                        reaches,
                        Outlook.time(firings, ImaginedFiring::arrivalS, Outlook.HEATING_LEAST)
                                .map(ForecastAtLighting::when),
                        Optional.of(new TopsOut(highest.probable(), highest.from(), highest.to())))),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of());
        return ForecastFan.beforeLighting(
                        forecast,
                        question.room().celsius(),
                        led(question, firings, highest),
                        question.kiln().thresholds().crack())
                .points();
    }

    /** Where the plan leads the kiln, as far as it probably comes. */
    private static List<Passage> led(OutlookQuestion question, ImaginedFirings firings, Estimate<Temperature> highest) {
        List<Passage> led = new ArrayList<>();
        List<PlannedCurve.Leg> legs = question.plan().curveFrom(question.room()).legs();
        for (int i = 0; i < legs.size(); i++) {
            int leg = i;
            double fromC = legs.get(i).fromC();
            double toC = legs.get(i).toC();
            for (int point = 1; point < POINTS_OF_RAMP && fromC != toC; point++) {
                double celsius = fromC + (toC - fromC) * point / POINTS_OF_RAMP;
                passage(firings, celsius, firing -> firing.passesS(leg, celsius))
                        .ifPresent(led::add);
            }
            Optional<Passage> over = passage(firings, toC, firing -> firing.overS(leg));
            if (over.isEmpty()) {
                return stalling(led, firings, highest);
            }
            led.add(over.get());
        }
        return led;
    }

    /** It stands about as hot as it gets until whoever waits for more gives up. */
    private static List<Passage> stalling(List<Passage> led, ImaginedFirings firings, Estimate<Temperature> highest) {
        Optional<Passage> over =
                passage(firings, highest.to().celsius(), firing -> OptionalDouble.of(firing.planOverS()));
        if (over.isEmpty()) {
            return led;
        }
        Forecast.When last = over.get().when();
        List<Passage> before = new ArrayList<>();
        // The last places on the way are the stronger kilns' alone, the giving up is everybody's.
        led.forEach(each -> before.add(new Passage(
                each.celsius(),
                new Forecast.When(
                        Math.min(each.when().atS(), last.atS()),
                        Math.min(each.when().fromS(), last.fromS()),
                        Math.min(each.when().toS(), last.toS())))));
        before.add(over.get());
        return before;
    }

    private static Optional<Passage> passage(
            ImaginedFirings firings, double celsius, Function<ImaginedFiring, OptionalDouble> time) {
        Optional<Estimate<Duration>> estimate = Outlook.time(firings, time, Outlook.HEATING_LEAST);
        return estimate.map(its -> new Passage(celsius, ForecastAtLighting.when(its)));
    }
}
