package org.kilnside.outlook;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kilnside.quantity.Energy;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.ImaginedFiring;
import org.kilnside.thermal.ImaginedFirings;
import org.kilnside.thermal.LikelyKilns;

/**
 * The outlook of a plan in the shape of a forecast, for those who ask a kiln not yet lit what they ask one that burns:
 * the same kilns, the same firings and the same intervals as {@link Outlook}'s, whatever temperatures are asked for.
 *
 * @param forecast times count from the lighting
 * @param energy what it will take, with its range; empty where that cannot be known
 * @param unknowns what would sharpen this answer
 */
public record ForecastAtLighting(Forecast forecast, Optional<Estimate<Energy>> energy, Set<Outlook.Unknown> unknowns) {
    /** What bears on times, top and energy; the rest bears on cost and on what is rash. */
    private static final Set<Outlook.Unknown> BEARING = EnumSet.of(
            Outlook.Unknown.KILN_NEVER_SEEN,
            Outlook.Unknown.WALL,
            Outlook.Unknown.POWER,
            Outlook.Unknown.POWER_FOR_SIZE,
            Outlook.Unknown.SIZE,
            Outlook.Unknown.LOAD);

    /** A top-out is the highest within this. */
    private static final Duration TOPS_OUT_WITHIN = Duration.ofHours(12);

    public ForecastAtLighting {
        unknowns = Set.copyOf(unknowns);
    }

    /**
     * Forecasts.
     *
     * @param below the temperatures whose times are asked for, in any order
     */
    public static ForecastAtLighting of(OutlookQuestion question, List<Temperature> below) {
        LikelyKilns kilns = question.kilns();
        List<Temperature> falling =
                below.stream().sorted(Comparator.reverseOrder()).toList();
        ImaginedFirings firings = ImaginedFirings.of(question.plan(), kilns, falling);
        List<Forecast.Remark> remarks = new ArrayList<>();
        if (falling.stream().anyMatch(each -> !each.isAbove(question.room()))) {
            remarks.add(new Forecast.Remark(Forecast.Remark.Kind.BELOW_ROOM, Optional.empty()));
        }
        Optional<Forecast.TopsOut> topsOut = topsOut(kilns);
        Optional<Forecast.TopsOut> borne = topsOut.flatMap(Forecast.TopsOut::asElementsBear);
        if (topsOut.isPresent() && borne.isEmpty()) {
            remarks.add(new Forecast.Remark(Forecast.Remark.Kind.TOPS_OUT_BEYOND_ELEMENTS, Optional.empty()));
        }
        Optional<Estimate<Energy>> energy = Outlook.energy(firings);
        Forecast forecast = new Forecast(
                0,
                Forecast.Stage.WAITING,
                question.room(),
                below(firings, falling),
                Optional.of(arrival(question, kilns, firings, borne)),
                energy.map(Estimate::probable),
                Optional.empty(),
                List.of(),
                remarks);
        Set<Outlook.Unknown> unknowns = EnumSet.copyOf(BEARING);
        unknowns.retainAll(Outlook.unknowns(question, kilns, firings));
        return new ForecastAtLighting(forecast, energy, unknowns);
    }

    private static List<Forecast.Below> below(ImaginedFirings firings, List<Temperature> falling) {
        List<Forecast.Below> answers = new ArrayList<>();
        for (int i = 0; i < falling.size(); i++) {
            int place = i;
            Optional<Forecast.When> when = Outlook.time(
                            firings, firing -> firing.belowS().get(place), Outlook.COOLING_LEAST)
                    .map(ForecastAtLighting::when);
            answers.add(new Forecast.Below(
                    falling.get(i),
                    when,
                    when.map(Forecast.When::fromS),
                    Outlook.isNeverAbove(Outlook.highestC(firings), falling.get(i))));
        }
        return answers;
    }

    private static Forecast.Arrival arrival(
            OutlookQuestion question, LikelyKilns kilns, ImaginedFirings firings, Optional<Forecast.TopsOut> topsOut) {
        Temperature top = question.plan().top();
        Forecast.Reaches reaches = Reach.of(question, kilns, firings);
        Optional<Forecast.When> when = reaches == Forecast.Reaches.NO
                ? Optional.empty()
                : Outlook.time(firings, ImaginedFiring::arrivalS, Outlook.HEATING_LEAST)
                        .map(ForecastAtLighting::when);
        return new Forecast.Arrival(top, reaches, when, topsOut);
    }

    private static Optional<Forecast.TopsOut> topsOut(LikelyKilns kilns) {
        return ImaginedFirings.topsOut(kilns, TOPS_OUT_WITHIN.toSeconds())
                .map(likely -> new Forecast.TopsOut(
                        Temperature.ofCelsius(likely.at()),
                        Temperature.ofCelsius(likely.from()),
                        Temperature.ofCelsius(likely.to())));
    }

    static Forecast.When when(Estimate<Duration> time) {
        return new Forecast.When(
                time.probable().toMillis() / 1000.0,
                time.from().toMillis() / 1000.0,
                time.to().toMillis() / 1000.0);
    }
}
