package org.kilnside.outlook;

import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.quantity.Energy;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.thermal.ImaginedFiring;
import org.kilnside.thermal.ImaginedFirings;
import org.kilnside.thermal.LikelyKilns;

/**
 * What a plan will come to in this kiln with this load. Times count from the lighting; intervals hold nine in ten. Never
 * a promise: one sensor, the ware inside is hotter, the kiln maker decides.
 *
 * @param cone what it comes to
 * @param planned how long the plan takes as written, free cooling not counted
 * @param arrival when the top is reached; empty when it probably never is
 * @param topOver when its hold is over
 * @param planOver when the kiln is left to cool
 * @param crack when it is below the temperature for cracking the lid; empty when not within days, or never above it
 * @param unload when it is below the temperature for unloading; empty when not within days, or never above it
 * @param highest how hot it gets
 * @param reaches whether it reaches the top; the arrival of one in doubt is when, if it does
 * @param reachesShare how likely that is, 0 … 1; empty where nothing is known of the elements' power
 * @param energy from the mains; empty where neither the power nor the volume says how large the kiln is
 * @param cost of that; empty without a tariff
 * @param warnings what is rash, in the order of the segments
 * @param unknowns what would sharpen this answer
 * @param wanted which top or hold comes to the wanted cone; empty where none is wanted
 * @param onController the controller's own number at the top; empty where it is the true one
 * @param fan how the kiln is expected to go, with the band nine in ten lie in, from the lighting
 */
public record Outlook(
        ConeAhead cone,
        Duration planned,
        Optional<Estimate<Duration>> arrival,
        Optional<Estimate<Duration>> topOver,
        Optional<Estimate<Duration>> planOver,
        Optional<Estimate<Duration>> crack,
        Optional<Estimate<Duration>> unload,
        Estimate<Temperature> highest,
        Forecast.Reaches reaches,
        OptionalDouble reachesShare,
        Optional<Estimate<Energy>> energy,
        Optional<Cost> cost,
        List<PlanWarning> warnings,
        Set<Unknown> unknowns,
        Optional<WantedCone> wanted,
        Optional<OnController> onController,
        List<ForecastFan.Point> fan) {
    /** A controller's clock and its hesitations, a part of the time to the top. */
    static final double HEATING_LEAST = 0.025;

    /** What the draws do not know of a cooling, a part of the time from the lighting: a bung, a draught, how it is stacked. */
    static final double COOLING_LEAST = 0.07;

    /** The same of the energy: mains voltage, what the maker's plate is worth. */
    private static final double ENERGY_LEAST = 0.05;

    /** What the model's top may be off by, K. */
    private static final double HIGHEST_LEAST_K = 4;

    public Outlook {
        warnings = List.copyOf(warnings);
        unknowns = Set.copyOf(unknowns);
        fan = List.copyOf(fan);
    }

    /** What a firing's energy costs. */
    public record Cost(Estimate<Double> price, String currency) {}

    /**
     * What a controller shows that steers by another number than the temperature.
     *
     * @param top the plan's, truly
     * @param shown what the controller shows there: what to key in; empty where it cannot show as much, and would heat
     *     for ever
     * @param asWritten what the plan comes to when its own numbers are keyed in
     */
    public record OnController(Temperature top, Optional<Temperature> shown, ConePosition asWritten) {}

    /** What nobody said, and what would sharpen the answer. */
    public enum Unknown {
        /** No earlier firing of this kiln was given. */
        KILN_NEVER_SEEN,
        /** What the wall is made of. */
        WALL,
        /** The elements' power: the kiln is taken to follow any ramp. */
        POWER,
        /** The elements' power is known, and not the size it has to heat: the kiln is taken to follow any ramp. */
        POWER_FOR_SIZE,
        /** How large the kiln is: no energy, and a weighed load does not count. */
        SIZE,
        /** The load's weight. */
        LOAD,
        /** The price of a kilowatt-hour. */
        TARIFF,
        /** Whether the ware is raw or was fired before. */
        WARE,
        /** How thick raw ware is. */
        THICKNESS
    }

    /** Answers. */
    public static Outlook of(OutlookQuestion question) {
        return of(question, question.kilns());
    }

    /**
     * Answers, sparing the making of the kilns.
     *
     * @param kilns {@link OutlookQuestion#kilns} of a question that differs in plan, ware, sensor or cone alone
     */
    public static Outlook of(OutlookQuestion question, LikelyKilns kilns) {
        Kiln.Thresholds thresholds = question.kiln().thresholds();
        List<Temperature> asked = OutlookFan.asked(question);
        ImaginedFirings firings = ImaginedFirings.of(question.plan(), kilns, asked);
        boolean powerKnown = firings.middle().powerKnown();
        ConeAhead cone =
                ConeAhead.of(firings, question.table(), question.sensor().uncertainty());
        Optional<Estimate<Energy>> energy = energy(firings);
        Estimate<Temperature> highest = highest(firings, question);
        Forecast.Reaches reaches = Reach.of(question, kilns, firings);
        return new Outlook(
                cone,
                question.plan().curveFrom(question.room()).duration(),
                time(firings, ImaginedFiring::arrivalS, HEATING_LEAST),
                time(firings, ImaginedFiring::topOverS, HEATING_LEAST),
                time(firings, firing -> OptionalDouble.of(firing.planOverS()), HEATING_LEAST),
                time(firings, firing -> firing.belowS().get(asked.indexOf(thresholds.crack())), COOLING_LEAST),
                time(firings, firing -> firing.belowS().get(asked.indexOf(thresholds.unload())), COOLING_LEAST),
                highest,
                reaches,
                powerKnown
                        ? OptionalDouble.of(
                                firings.share(firing -> firing.arrivalS().isPresent()))
                        : OptionalDouble.empty(),
                energy,
                energy.flatMap(used -> question.kiln()
                        .tariff()
                        .map(tariff -> new Cost(
                                used.map(each -> each.kilowattHours() * tariff.pricePerKwh()), tariff.currency()))),
                PlanWarnings.of(question, firings, cone, highest),
                unknowns(question, kilns, firings),
                question.aim().map(aim -> WantedCone.of(question, kilns, aim)),
                onController(question, firings),
                OutlookFan.of(question, firings, reaches, highest));
    }

    private static Optional<OnController> onController(OutlookQuestion question, ImaginedFirings firings) {
        ControllerNumbers numbers = question.numbers();
        Temperature top = question.plan().top();
        Optional<Temperature> shown = numbers.otherThan(top);
        return shown.isEmpty() && !numbers.endsBelow(top)
                ? Optional.empty()
                : Optional.of(new OnController(
                        top,
                        shown,
                        ConeAhead.keyedInAsWritten(
                                firings, question.table(), question.sensor().uncertainty(), numbers)));
    }

    static Optional<Estimate<Energy>> energy(ImaginedFirings firings) {
        return firings.likely(ImaginedFiring::energyKwh, ENERGY_LEAST)
                .map(kwh -> Estimate.of(
                        Energy.ofKilowattHours(kwh.at()),
                        Energy.ofKilowattHours(kwh.from()),
                        Energy.ofKilowattHours(kwh.to())));
    }

    static Optional<Estimate<Duration>> time(
            ImaginedFirings firings, Function<ImaginedFiring, OptionalDouble> time, double least) {
        return firings.time(time, least)
                .map(likely -> Estimate.of(seconds(likely.at()), seconds(likely.from()), seconds(likely.to())));
    }

    private static Duration seconds(double seconds) {
        return Duration.ofMillis(Math.round(seconds * 1000));
    }

    /** Whether the kiln most likely never is above a temperature, so that there is no waiting for it to be below. */
    public boolean isNeverAbove(Temperature threshold) {
        return isNeverAbove(highest.probable().celsius(), threshold);
    }

    static boolean isNeverAbove(double highestC, Temperature threshold) {
        return highestC <= threshold.celsius();
    }

    /** How hot it gets at its plan's pace, where it probably falls short of the top; else empty. */
    public Optional<Estimate<Temperature>> topsOut(Schedule plan) {
        boolean isShort = reaches != Forecast.Reaches.YES
                && highest.probable().celsius() < plan.top().celsius() - HIGHEST_LEAST_K;
        return isShort ? Optional.of(highest) : Optional.empty();
    }

    /** How hot it most likely gets, °C. */
    static double highestC(ImaginedFirings firings) {
        return highest(firings).at();
    }

    private static ImaginedFirings.Likely highest(ImaginedFirings firings) {
        return firings.likely(firing -> OptionalDouble.of(Math.max(1, firing.highestC())), 0)
                .orElseThrow();
    }

    private static Estimate<Temperature> highest(ImaginedFirings firings, OutlookQuestion question) {
        double topC = question.plan().top().celsius();
        ImaginedFirings.Likely likely = highest(firings);
        double low = Math.min(likely.from(), likely.at() - HIGHEST_LEAST_K);
        double high = Math.max(likely.at(), Math.min(likely.to(), topC) + HIGHEST_LEAST_K);
        return Estimate.of(Temperature.ofCelsius(likely.at()), Temperature.ofCelsius(low), Temperature.ofCelsius(high));
    }

    static Set<Unknown> unknowns(OutlookQuestion question, LikelyKilns kilns, ImaginedFirings firings) {
        EnumSet<Unknown> unknowns = EnumSet.noneOf(Unknown.class);
        Kiln kiln = question.kiln();
        if (!kilns.isRemembered()) {
            unknowns.add(Unknown.KILN_NEVER_SEEN);
            if (kiln.wall().isEmpty()) {
                unknowns.add(Unknown.WALL);
            }
        }
        if (!firings.middle().powerKnown()) {
            unknowns.add(kiln.power().isPresent() ? Unknown.POWER_FOR_SIZE : Unknown.POWER);
        }
        if (firings.middle().energyKwh().isEmpty()) {
            unknowns.add(Unknown.SIZE);
        }
        if (question.loadKg().isEmpty()) {
            unknowns.add(Unknown.LOAD);
        }
        if (kiln.tariff().isEmpty()) {
            unknowns.add(Unknown.TARIFF);
        }
        if (question.ware().state().isEmpty()) {
            unknowns.add(Unknown.WARE);
        }
        if (question.ware().isRaw() && question.ware().thicknessMm().isEmpty()) {
            unknowns.add(Unknown.THICKNESS);
        }
        return unknowns;
    }
}
