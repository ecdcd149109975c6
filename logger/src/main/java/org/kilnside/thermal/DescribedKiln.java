package org.kilnside.thermal;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.When;

/**
 * When its owner's description has a kiln's first firing arrive: each kiln it may be, driven by the curve as far as it goes and then
 * through the rest of its plan. Early on a curve says next to nothing of what the elements can still do; their kilowatts
 * and the kiln's litres do. For its cooling the two are as good as one another, and err together (own trials): nothing is taken there.
 */
final class DescribedKiln {
    /** Hotter than this its curve tells by itself, °C. */
    private static final double EARLY_BELOW_C = 500;

    /** What the kilns do not know of, ln: as before lighting. */
    private static final double LEAST = 0.025;

    private static final double LOW = 0.05;
    private static final double HIGH = 0.95;

    private DescribedKiln() {}

    /**
     * The same arrival, with the description's interval where that is the narrower and what the curve says lies in it. Whether it gets
     * there stays as it was: a description knows nothing of worn elements.
     */
    static Arrival sharpened(Arrival seen, ForecastQuestion question, FiringData data, PlanAhead ahead, double aimC) {
        Optional<Kiln> described = question.memory().described();
        if (described.isEmpty()
                || described.get().volume().isEmpty()
                || described.get().power().isEmpty()
                || data.nowC > EARLY_BELOW_C
                || data.startsWarm
                || seen.when().filter(when -> when.fromS() > data.nowS).isEmpty()) {
            return seen;
        }
        When byCurve = seen.when().get();
        return arrives(described.get(), question, data, ahead, aimC)
                .filter(told -> told.toS() - told.fromS() < byCurve.toS() - byCurve.fromS())
                .filter(told -> told.fromS() <= byCurve.atS() && byCurve.atS() <= told.toS())
                .map(told -> new Arrival(seen.target(), seen.reaches(), Optional.of(told), seen.topsOut()))
                .orElse(seen);
    }

    private static Optional<When> arrives(
            Kiln described, ForecastQuestion question, FiringData data, PlanAhead ahead, double aimC) {
        LikelyKilns kilns = LikelyKilns.of(
                described, question.memory(), Temperature.ofCelsius(data.ambient.celsius()), OptionalDouble.empty());
        double[] logs = kilns.draws().stream()
                .mapToDouble(likely -> arrivesS(likely, data, ahead, aimC))
                .filter(at -> at > data.nowS)
                .map(at -> Math.log(at - data.nowS))
                .sorted()
                .toArray();
        if (2 * logs.length < kilns.draws().size()) {
            return Optional.empty();
        }
        double middle = ImaginedFirings.quantile(logs, 0.5);
        double sooner = Math.hypot(LEAST, middle - ImaginedFirings.quantile(logs, LOW));
        double later = Math.hypot(LEAST, ImaginedFirings.quantile(logs, HIGH) - middle);
        return Optional.of(new When(
                data.nowS + Math.exp(middle),
                data.nowS + Math.exp(middle - sooner),
                data.nowS + Math.exp(middle + later)));
    }

    private static double arrivesS(LikelyKilns.Likely likely, FiringData data, PlanAhead ahead, double aimC) {
        WallSlab slab = new WallSlab(likely.kind().shape(), WallSlab.USUAL_CELLS);
        slab.use(likely.kiln());
        slab.startUniform(data.driveC[0]);
        for (int i = 1; i < data.driveS.length; i++) {
            slab.drive(data.driveS[i] - data.driveS[i - 1], data.driveC[i]);
        }
        return PlanRun.follow(slab, ahead, data.nowS, likely.powerKnown(), aimC).arrivalS();
    }
}
