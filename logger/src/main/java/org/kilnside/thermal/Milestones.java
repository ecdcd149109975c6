package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.When;

/**
 * The temperatures a kiln still comes by, one after the other: the plan's corners, then the rungs it cools down, and when
 * it is at each at the earliest, probably and at the latest.
 *
 * <p>When it is at its top and when it is below each rung are forecast by different fits, with intervals scaled by
 * different trials. While the arrival is wide open it may come hours later than "below 600 °C at the latest", and where it
 * is well known a rung's interval allows for far more than is open of the top. Taken one after the other as they stand
 * they would have a kiln fall hundreds of kelvins in no time, or linger at its top. Each side is therefore drawn from when
 * the top is left, at one pace, to the first temperature a person asks for; from there on the rungs' own times hold.
 */
record Milestones(List<Milestone> way, boolean cools) {
    /** Nearer than this to the top a kiln is there. */
    private static final double THERE_K = 4;

    /** No kiln cools in less than this part of the probable time. */
    private static final double QUICKEST = 0.3;

    Milestones {
        way = List.copyOf(way);
    }

    /** Where it comes by, and when: a kiln may be there from the earliest to the latest. */
    record Milestone(double celsius, double earlyS, double probableS, double lateS) {
        /** Never before the one before it, and the probable time never outside the others. */
        private Milestone after(Milestone before) {
            double probable = Math.max(probableS, before.probableS);
            return new Milestone(
                    celsius,
                    Math.min(probable, Math.max(earlyS, before.earlyS)),
                    probable,
                    Math.max(probable, Math.max(lateS, before.lateS)));
        }
    }

    /** @param ownFrom the highest temperature a person asks for */
    static Milestones of(Forecast forecast, double nowC, Optional<PlanAhead> ahead, Temperature ownFrom) {
        double nowS = forecast.askedS();
        List<Milestone> way = new ArrayList<>();
        way.add(new Milestone(nowC, nowS, nowS, nowS));
        if (forecast.stage() == Stage.COOLING) {
            ahead.ifPresent(plan -> plan.corners().forEach(corner -> add(way, at(corner, 0, 0, 0))));
        } else {
            forecast.arrival().ifPresent(arrival -> climb(way, arrival, ahead));
        }
        return cooling(way, forecast, ownFrom, QUICKEST);
    }

    /** The same where it is known when it comes by each temperature it is led by. */
    static Milestones along(Forecast forecast, double nowC, List<ForecastFan.Passage> led, Temperature ownFrom) {
        double nowS = forecast.askedS();
        List<Milestone> way = new ArrayList<>();
        way.add(new Milestone(nowC, nowS, nowS, nowS));
        led.forEach(each -> add(
                way,
                new Milestone(
                        each.celsius(),
                        each.when().fromS(),
                        each.when().atS(),
                        each.when().toS())));
        // Top and rungs are the same firings' here: nothing to make up for.
        return cooling(way, forecast, ownFrom, 0);
    }

    private static Milestones cooling(List<Milestone> way, Forecast forecast, Temperature ownFrom, double quickest) {
        boolean led = way.size() > 1;
        List<Below> rungs = forecast.below().stream()
                .filter(rung -> rung.when().isPresent())
                .filter(rung -> rung.temperature().celsius() < last(way).celsius - 1)
                .toList();
        cool(way, rungs, ownFrom.celsius(), led, quickest);
        return new Milestones(way, !rungs.isEmpty());
    }

    /** The plan's corners, stretched to the arrival: what comes before it in proportion, what comes after it moved. */
    private static void climb(List<Milestone> way, Arrival arrival, Optional<PlanAhead> ahead) {
        double targetC = arrival.target().celsius();
        double nowC = way.get(0).celsius;
        double nowS = way.get(0).probableS;
        List<PlanAhead.Corner> plan = ahead.map(PlanAhead::corners)
                .filter(corners -> !corners.isEmpty())
                .orElseGet(() -> arrival.when().stream()
                        .map(when -> new PlanAhead.Corner(when.atS(), targetC))
                        .toList());
        double plannedS = plan.stream()
                .filter(corner -> corner.temperatureC() >= targetC - THERE_K)
                .mapToDouble(PlanAhead.Corner::elapsedS)
                .findFirst()
                .orElse(Double.NaN);
        Optional<When> arrives = arrival.when().filter(when -> nowC < targetC - THERE_K && plannedS > nowS);
        for (PlanAhead.Corner corner : plan) {
            double part = Math.min(1, (corner.elapsedS() - nowS) / (plannedS - nowS));
            add(
                    way,
                    arrives.map(when -> at(
                                    corner,
                                    part * (when.fromS() - plannedS),
                                    part * (when.atS() - plannedS),
                                    part * (when.toS() - plannedS)))
                            .orElseGet(() -> at(corner, 0, 0, 0)));
        }
    }

    private static Milestone at(PlanAhead.Corner corner, double early, double probable, double late) {
        double at = corner.elapsedS();
        return new Milestone(corner.temperatureC(), at + early, at + probable, at + late);
    }

    private static void cool(List<Milestone> way, List<Below> rungs, double ownFromC, boolean led, double quickest) {
        Milestone left = last(way);
        double[] sinceS = sinceLeft(left.celsius, rungs);
        int from = 0;
        while (from < sinceS.length - 1 && rungs.get(from).temperature().celsius() > ownFromC) {
            from++;
        }
        // A kiln that cools already and is left alone has nothing before the rungs that they could contradict.
        int paced = led && !rungs.isEmpty() && sinceS[from] > 0 ? from : 0;
        double[] early = times(rungs, When::fromS, left.earlyS, sinceS, paced, quickest);
        double[] probable = times(rungs, When::atS, left.probableS, sinceS, paced, quickest);
        double[] late = times(rungs, When::toS, left.lateS, sinceS, paced, quickest);
        for (int i = 0; i < early.length; i++) {
            add(way, new Milestone(rungs.get(i).temperature().celsius(), early[i], probable[i], late[i]));
        }
    }

    /** How long after it was left to cool a kiln is probably at each rung, s: from rung to rung, as they cool alike. */
    private static double[] sinceLeft(double fromC, List<Below> rungs) {
        double[] since = new double[rungs.size()];
        if (since.length > 1) {
            double firstS = rungs.get(0).when().get().atS();
            double firstC = rungs.get(0).temperature().celsius();
            double pace = (rungs.get(1).when().get().atS() - firstS)
                    / (firstC - rungs.get(1).temperature().celsius());
            for (int i = 0; i < since.length; i++) {
                since[i] = rungs.get(i).when().get().atS() - firstS + (fromC - firstC) * pace;
            }
        }
        return since;
    }

    /** @param paced to this rung it comes at one pace, slower or faster than probably; from there on at their own times */
    private static double[] times(
            List<Below> rungs, ToDoubleFunction<When> own, double leftS, double[] sinceS, int paced, double quickest) {
        double[] times = rungs.stream()
                .mapToDouble(rung -> own.applyAsDouble(rung.when().get()))
                .toArray();
        if (paced > 0) {
            double pace = Math.max(quickest, (times[paced] - leftS) / sinceS[paced]);
            for (int i = 0; i < times.length; i++) {
                times[i] = i < paced ? leftS + pace * sinceS[i] : Math.max(leftS + quickest * sinceS[i], times[i]);
            }
        }
        return times;
    }

    private static void add(List<Milestone> way, Milestone next) {
        way.add(next.after(last(way)));
    }

    private static Milestone last(List<Milestone> way) {
        return way.get(way.size() - 1);
    }
}
