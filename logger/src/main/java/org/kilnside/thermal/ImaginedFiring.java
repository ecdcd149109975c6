package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;

/**
 * One plan fired in one kiln that this one may be. Times are seconds from the lighting.
 *
 * @param powerKnown whether the elements had a limit; without one the kiln follows any ramp upwards
 * @param arrivalS when the top was first reached; empty when it never was
 * @param topOverS when the plan let go of its top; empty when it was never reached
 * @param planOverS when the last of the plan was over and the kiln was left to itself
 * @param highestC the highest temperature, °C
 * @param legs what became of each stretch of the plan, in order; those after a stall are missing
 * @param belowS when it was below each temperature asked for for good, in their order; empty where not within five days,
 *     or where it never was above
 * @param energyKwh what went into the elements; empty where the kiln's size is not known
 * @param curve °C against ms from the lighting, down to the lowest temperature asked for
 */
public record ImaginedFiring(
        boolean powerKnown,
        OptionalDouble arrivalS,
        OptionalDouble topOverS,
        double planOverS,
        double highestC,
        List<Leg> legs,
        List<OptionalDouble> belowS,
        OptionalDouble energyKwh,
        Trace curve) {
    /** Further than this from its set-point, a kiln does not follow, K: more than controllers swing about it. */
    private static final double LAGS_K = 10;

    public ImaginedFiring {
        legs = List.copyOf(legs);
        belowS = List.copyOf(belowS);
    }

    /**
     * A stretch of the plan as it went.
     *
     * @param planned the stretch as written
     * @param fromS when it began
     * @param toS when it was over
     * @param lagsFromC the temperature at which the kiln fell behind and stayed so; empty when it followed
     */
    public record Leg(PlannedCurve.Leg planned, double fromS, double toS, OptionalDouble lagsFromC) {
        /** By how much longer than written it took, s; never negative. */
        public double lateS() {
            return Math.max(0, toS - fromS - planned.durationMs() / 1000.0);
        }
    }

    /** @param thresholdsC falling */
    static ImaginedFiring of(LikelyKilns.Likely likely, Schedule plan, double[] thresholdsC) {
        KilnParameters kiln = likely.kiln();
        WallSlab slab = new WallSlab(likely.kind().shape(), WallSlab.USUAL_CELLS);
        slab.use(kiln);
        slab.startUniform(kiln.ambientC());
        List<PlannedCurve.Leg> planned =
                plan.curveFrom(Temperature.ofCelsius(kiln.ambientC())).legs();
        List<PlanAhead.Corner> corners = planned.stream()
                .map(leg -> new PlanAhead.Corner(leg.toMs() / 1000.0, leg.toC()))
                .toList();
        double topC = plan.top().celsius();
        Recorder seen = new Recorder(slab, kiln, planned.size(), likely.powerKnown());
        PlanRun run = PlanRun.follow(slab, new PlanAhead(corners), 0, likely.powerKnown(), topC, seen);
        OptionalDouble arrival = OptionalDouble.empty();
        if (!Double.isNaN(run.arrivalS())) {
            arrival = OptionalDouble.of(run.arrivalS());
        } else if (seen.highestC >= topC - PlanRun.THERE_K) {
            // Controllers call it there, and without a hold they let go at once.
            arrival = OptionalDouble.of(seen.highestS);
        }
        List<Leg> legs = new ArrayList<>();
        double from = 0;
        OptionalDouble topOver = OptionalDouble.empty();
        for (int i = 0; i <= seen.last; i++) {
            double to = seen.endedS[i];
            if (!Double.isNaN(to)) {
                boolean lagged = !Double.isNaN(seen.lagsFromC[i]);
                legs.add(new Leg(
                        planned.get(i),
                        from,
                        to,
                        lagged ? OptionalDouble.of(seen.lagsFromC[i]) : OptionalDouble.empty()));
                from = to;
                if (planned.get(i).toC() >= topC && arrival.isPresent()) {
                    topOver = OptionalDouble.of(Math.max(to, arrival.getAsDouble()));
                }
            } else {
                legs.add(new Leg(planned.get(i), from, from, OptionalDouble.empty()));
            }
        }
        double[] below = seen.cool(run.endS(), thresholdsC);
        return new ImaginedFiring(
                likely.powerKnown(),
                arrival,
                topOver,
                run.endS(),
                seen.highestC,
                legs,
                Arrays.stream(below)
                        .mapToObj(at -> Double.isNaN(at) ? OptionalDouble.empty() : OptionalDouble.of(at))
                        .toList(),
                likely.conductanceWK().isPresent()
                        ? OptionalDouble.of(
                                seen.heat * kiln.tauS() * likely.conductanceWK().getAsDouble() / 3.6e6)
                        : OptionalDouble.empty(),
                seen.curve.view());
    }

    /** When a stretch of the plan led it by a temperature; empty where it never came so far. */
    public OptionalDouble passesS(int leg, double celsius) {
        if (leg >= legs.size()) {
            return OptionalDouble.empty();
        }
        Leg its = legs.get(leg);
        boolean rises = its.planned().toC() > its.planned().fromC();
        int last = Math.max(0, curve.indexAt(Math.round(its.toS() * 1000)));
        for (int i = Math.max(1, curve.indexAt(Math.round(its.fromS() * 1000))); i <= last; i++) {
            double before = curve.temperatureC(i - 1);
            double after = curve.temperatureC(i);
            if (rises ? after >= celsius : after <= celsius) {
                double part = after == before ? 1 : Math.max(0, Math.min(1, (celsius - before) / (after - before)));
                double fromMs = curve.elapsedMs(i - 1);
                double atS = (fromMs + part * (curve.elapsedMs(i) - fromMs)) / 1000;
                return OptionalDouble.of(Math.max(its.fromS(), atS));
            }
        }
        // A controller calls it there, and goes on.
        return Math.abs(curve.temperatureC(last) - celsius) <= PlanRun.THERE_K
                ? OptionalDouble.of(its.toS())
                : OptionalDouble.empty();
    }

    /** When a stretch of the plan was over; empty where the kiln never came so far. */
    public OptionalDouble overS(int leg) {
        return passesS(leg, legs.size() > leg ? legs.get(leg).planned().toC() : 0)
                        .isPresent()
                ? OptionalDouble.of(legs.get(leg).toS())
                : OptionalDouble.empty();
    }

    /** The curve's temperature at a time, straight between its corners; empty before and after it. */
    public Optional<Temperature> at(double seconds) {
        long ms = Math.round(seconds * 1000);
        int before = curve.indexAt(ms);
        if (before < 0 || before + 1 >= curve.size()) {
            return Optional.empty();
        }
        double span = curve.elapsedMs(before + 1) - curve.elapsedMs(before);
        double part = span <= 0 ? 0 : (ms - curve.elapsedMs(before)) / span;
        double fromC = curve.temperatureC(before);
        return Optional.of(Temperature.ofCelsius(fromC + part * (curve.temperatureC(before + 1) - fromC)));
    }

    /** Keeps what a run showed. */
    private static final class Recorder implements PlanRun.Watch {
        private final WallSlab slab;
        private final KilnParameters kiln;
        private final boolean limited;
        private final double[] endedS;
        private final double[] lagsFromC;
        private final Trace.Builder curve = new Trace.Builder();
        private int last = -1;
        private double highestC;
        private double highestS;
        private double heat;
        private double beforeC;
        private double beforeS;
        private double beforeTaken;

        Recorder(WallSlab slab, KilnParameters kiln, int legs, boolean limited) {
            this.slab = slab;
            this.kiln = kiln;
            this.limited = limited;
            endedS = new double[legs];
            lagsFromC = new double[legs];
            Arrays.fill(endedS, Double.NaN);
            Arrays.fill(lagsFromC, Double.NaN);
            beforeC = slab.chamberC();
            highestC = beforeC;
            curve.add(0, beforeC);
        }

        @Override
        public void step(int corner, double endS, double wantedC) {
            double nowC = slab.chamberC();
            last = Math.max(last, corner);
            endedS[corner] = endS;
            if (nowC > highestC) {
                highestC = nowC;
                highestS = endS;
            }
            boolean lags = Math.abs(wantedC - nowC) > LAGS_K;
            if (lags && Double.isNaN(lagsFromC[corner])) {
                lagsFromC[corner] = nowC;
            }
            addHeat(endS, nowC);
            curve.add(Math.round(endS * 1000), nowC);
            beforeS = endS;
            beforeC = nowC;
        }

        /** What the load took, the wall took and the leak lost; a kiln never gives any back to its elements. */
        private void addHeat(double endS, double nowC) {
            if (limited) {
                heat = slab.supplied();
            } else {
                double middleC = (beforeC + nowC) / 2;
                double step = slab.loadTakes(beforeC, nowC)
                        + slab.intoWall()
                        - beforeTaken
                        + kiln.leakAt(middleC) * (middleC - kiln.ambientC()) * (endS - beforeS) / kiln.tauS();
                heat += Math.max(0, step);
            }
            beforeTaken = slab.intoWall();
        }

        /** When the plan itself brought the kiln below a temperature, for the last time; NaN where it never was above. */
        private double passedWithinPlan(double celsius) {
            Trace soFar = curve.view();
            for (int i = soFar.size() - 1; i > 0; i--) {
                double above = soFar.temperatureC(i - 1) - celsius;
                double below = soFar.temperatureC(i) - celsius;
                if (above > 0 && below <= 0) {
                    double fromS = soFar.elapsedMs(i - 1) / 1000.0;
                    return fromS + (soFar.elapsedMs(i) / 1000.0 - fromS) * above / (above - below);
                }
            }
            return Double.NaN;
        }

        /** Lets the kiln cool by itself and records it. */
        double[] cool(double fromS, double[] thresholdsC) {
            double[] times = new double[thresholdsC.length];
            Arrays.fill(times, Double.NaN);
            double time = fromS;
            double before = slab.chamberC();
            int next = 0;
            while (next < times.length && thresholdsC[next] >= before) {
                times[next] = passedWithinPlan(thresholdsC[next]);
                next++;
            }
            double step = 60;
            while (next < times.length && time < fromS + Projection.HORIZON_S) {
                slab.coast(step);
                double after = slab.chamberC();
                while (next < times.length && after < thresholdsC[next]) {
                    times[next] = time + step * Projection.part(before, after, thresholdsC[next], kiln.ambientC());
                    next++;
                }
                before = after;
                time += step;
                curve.add(Math.round(time * 1000), after);
                step = Math.min(WallSlab.COASTING_STEP_S, step * 1.25);
            }
            return times;
        }
    }
}
