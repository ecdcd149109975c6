package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.quantity.Energy;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;

/** What a plan will take in a kiln known from earlier firings: each of them fires it once more. */
public final class BeforeLighting {
    /** Half-width of ln(time) where the load's mass is not known, and where it is: the table of the kiln model. */
    private static final double LOAD_UNKNOWN = 0.18;

    private static final double LOAD_KNOWN = 0.1;

    /** J/(kg K) at 600 °C, fired clay and shelves (VDI Heat Atlas: fireclay 997). */
    private static final double LOAD_CAPACITY = 1000;

    /** The top-out of a kiln some numbers are uncertain of: half-width over the temperature. */
    private static final double TOPS_OUT_HALF = 0.03;

    private BeforeLighting() {}

    /**
     * Forecasts a firing that has not begun; times count from the lighting.
     *
     * @param memory earlier firings of the kiln; at least one must have taught something
     * @param loadKg ware and furniture, where weighed; used only with the elements' power and logs that tell the output
     * @return empty when nothing is remembered
     */
    public static Optional<Forecast> forecast(
            Schedule plan,
            KilnMemory memory,
            Temperature ambient,
            List<Temperature> below,
            OptionalDouble powerKw,
            OptionalDouble loadKg) {
        List<FittedKiln> kilns = memory.kilns();
        if (kilns.isEmpty()) {
            return Optional.empty();
        }
        double[] thresholds = below.stream()
                .sorted((a, b) -> b.compareTo(a))
                .mapToDouble(Temperature::celsius)
                .toArray();
        double aimC = plan.top().celsius();
        double[] sums = new double[3 + thresholds.length];
        double[] squares = new double[sums.length];
        int[] counts = new int[sums.length];
        boolean powered = false;
        boolean weighed = false;
        for (FittedKiln known : kilns) {
            KilnParameters kiln = known.kiln().withAmbientC(ambient.celsius());
            boolean hasPower = known.prior().hasPower();
            if (hasPower && powerKw.isPresent() && loadKg.isPresent()) {
                double conductanceWK = powerKw.getAsDouble() * 1000 / kiln.psiC();
                kiln = kiln.withPhi(loadKg.getAsDouble() * LOAD_CAPACITY / (conductanceWK * kiln.tauS()));
                weighed = true;
            }
            powered |= hasPower;
            double[] answers = fire(known.kind(), kiln, plan, hasPower, aimC, thresholds, powerKw);
            for (int i = 0; i < answers.length; i++) {
                if (Double.isFinite(answers[i])) {
                    sums[i] += answers[i];
                    squares[i] += answers[i] * answers[i];
                    counts[i]++;
                }
            }
        }
        double least = weighed ? LOAD_KNOWN : LOAD_UNKNOWN;
        List<Below> answers = new ArrayList<>();
        for (int i = 0; i < thresholds.length; i++) {
            int at = 3 + i;
            Optional<When> when =
                    counts[at] == 0 ? Optional.empty() : Optional.of(when(sums[at], squares[at], counts[at], least));
            answers.add(new Below(Temperature.ofCelsius(thresholds[i]), when, when.map(When::fromS)));
        }
        Optional<TopsOut> topsOut = Optional.empty();
        Reaches reaches =
                counts[0] == kilns.size() ? Reaches.YES : counts[0] == 0 ? Reaches.NO : Reaches.CANNOT_SAY_YET;
        if (powered) {
            double top = sums[1] / counts[1];
            double half = top * TOPS_OUT_HALF;
            topsOut = Optional.of(new TopsOut(
                    Temperature.ofCelsius(top), Temperature.ofCelsius(top - half), Temperature.ofCelsius(top + half)));
        }
        Optional<When> arrives =
                counts[0] == 0 ? Optional.empty() : Optional.of(when(sums[0], squares[0], counts[0], 0.05));
        Optional<Energy> energy =
                counts[2] == 0 ? Optional.empty() : Optional.of(Energy.ofKilowattHours(sums[2] / counts[2]));
        return Optional.of(new Forecast(
                0,
                Stage.WAITING,
                ambient,
                answers,
                Optional.of(new Arrival(plan.top(), reaches, arrives, topsOut)),
                energy,
                Optional.empty(),
                List.of(),
                List.of()));
    }

    private static When when(double sum, double squares, int count, double least) {
        double mean = sum / count;
        double spread = count < 2 ? 0 : Math.sqrt(Math.max(0, squares / count - mean * mean) * count / (count - 1));
        double half = Math.hypot(least, 1.65 * spread);
        return new When(Math.exp(mean), Math.exp(mean - half), Math.exp(mean + half));
    }

    /** ln of arrival, top-out °C, kWh, ln of the time to each threshold; NaN where there is none. */
    private static double[] fire(
            WallKind kind,
            KilnParameters kiln,
            Schedule plan,
            boolean hasPower,
            double aimC,
            double[] thresholds,
            OptionalDouble powerKw) {
        double[] answers = new double[3 + thresholds.length];
        WallSlab slab = new WallSlab(kind.shape(), WallSlab.USUAL_CELLS);
        slab.use(kiln);
        slab.startUniform(kiln.ambientC());
        WallSlab full = new WallSlab(kind.shape(), WallSlab.USUAL_CELLS);
        full.startLike(slab);
        answers[1] = hasPower ? PlanRun.topsOutC(full, 24 * 3600) : Double.NaN;
        List<PlanAhead.Corner> corners = new ArrayList<>();
        for (PlannedCurve.Leg leg :
                plan.curveFrom(Temperature.ofCelsius(kiln.ambientC())).legs()) {
            corners.add(new PlanAhead.Corner(leg.toMs() / 1000.0, leg.toC()));
        }
        PlanRun run = PlanRun.follow(slab, new PlanAhead(corners), 0, hasPower, aimC);
        answers[0] = Math.log(run.arrivalS());
        answers[2] = hasPower && powerKw.isPresent()
                ? slab.supplied() * kiln.tauS() / kiln.psiC() * powerKw.getAsDouble() / 3600
                : Double.NaN;
        double[] times = Projection.below(slab, run.endS(), kiln.ambientC(), thresholds);
        for (int i = 0; i < times.length; i++) {
            answers[3 + i] = Math.log(times[i]);
        }
        return answers;
    }
}
