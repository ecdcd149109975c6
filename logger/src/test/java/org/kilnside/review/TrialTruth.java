package org.kilnside.review;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.FreeFall;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.SensorUncertainty;

/** What a simulated firing truly came to, and what its witness cones showed: from the true curve, nothing of the review's. */
final class TrialTruth {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);
    private static final String[] SHELVES = {"top", "middle", "bottom"};

    private TrialTruth() {}

    /** Cones short of the plan: the true curve down to just below its top, then a usual cooling; the plan the same. */
    static double shortOf(TrialPlan plan, Trace truth) {
        double highest = highestC(truth);
        int last = truth.size() - 1;
        while (!plan.heldBack() && truth.temperatureC(last) < highest - 4) {
            last--;
        }
        Trace.Builder line = new Trace.Builder();
        for (int i = 0; i <= last; i++) {
            line.add(truth.elapsedMs(i), truth.temperatureC(i));
        }
        double from = truth.temperatureC(last);
        FreeFall.Falling kiln = FreeFall.USUAL.from(from);
        for (double after = 60; after < 3 * 3600; after += 60) {
            kiln.go(60, Double.NEGATIVE_INFINITY);
            line.add(truth.elapsedMs(last) + Math.round(after * 1000), kiln.celsius());
        }
        ConeReached planned = PlanHeat.of(
                        TABLE, plan.plan().curveFrom(Temperature.ofCelsius(15)), SensorUncertainty.UNKNOWN)
                .whole();
        return steps(planned) - steps(HeatWork.ofLine(TABLE, line.view()).reached(SensorUncertainty.UNKNOWN));
    }

    private static double steps(ConeReached reached) {
        return reached.cone().steps().orElse(0) + reached.coolingAdded().orElse(0);
    }

    static double highestC(Trace truth) {
        double highest = 0;
        for (int i = 0; i < truth.size(); i++) {
            highest = Math.max(highest, truth.temperatureC(i));
        }
        return highest;
    }

    /** How long it took to fall from one temperature to another, s. */
    static double fallS(Trace truth, double fromC, double toC) {
        int from = truth.size() - 1;
        while (from > 0 && truth.temperatureC(from) < fromC) {
            from--;
        }
        int to = from;
        while (to < truth.size() - 1 && truth.temperatureC(to) > toC) {
            to++;
        }
        return (truth.elapsedMs(to) - truth.elapsedMs(from)) / 1000.0;
    }

    /** One to three packs of three cones, bending by one of three laws; often none where none is needed to tell. */
    static List<WitnessPack> packs(Trace truth, Set<Injected> injected, Random noise) {
        boolean uneven = injected.contains(Injected.UNEVEN);
        boolean needed = uneven
                || injected.contains(Injected.SENSOR_READS_HIGH)
                || injected.contains(Injected.SENSOR_READS_LOW)
                || injected.contains(Injected.AMPLIFIER_UNCORRECTED);
        if (!needed && noise.nextInt(3) > 0) {
            return List.of();
        }
        int law = noise.nextInt(3);
        double apart = uneven ? 9 + 6 * noise.nextDouble() : 2 * noise.nextDouble();
        int count = uneven ? 3 : 1 + noise.nextInt(3);
        int middle = (int) Math.round(steps(HeatWork.ofLine(TABLE, truth).reached(SensorUncertainty.UNKNOWN)));
        List<WitnessPack> packs = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            Trace there = shifted(truth, apart * (1 - i));
            List<WitnessCone> seen = new ArrayList<>();
            for (int cone = middle - 1; cone <= middle + 1; cone++) {
                Cone each = Cone.whole().get(Math.max(0, Math.min(Cone.whole().size() - 1, cone)));
                double work = HeatWork.ofLine(TABLE, there).share(each).orElse(0);
                double share = law == 0 ? Math.max(0, 2 * work - 1) : law == 1 ? work : work * work;
                double angle = Math.max(0, Math.min(95, 90 * share + 4 * noise.nextGaussian()));
                seen.add(new WitnessCone(each, OptionalDouble.of(5 * Math.rint(angle / 5)), OptionalLong.empty()));
            }
            packs.add(new WitnessPack(SHELVES[i], seen));
        }
        return packs;
    }

    private static Trace shifted(Trace truth, double shift) {
        Trace.Builder line = new Trace.Builder();
        for (int i = 0; i < truth.size(); i += 4) {
            line.add(truth.elapsedMs(i), truth.temperatureC(i) + shift);
        }
        return line.view();
    }
}
