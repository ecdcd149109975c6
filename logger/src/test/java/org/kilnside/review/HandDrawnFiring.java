package org.kilnside.review;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.function.DoubleUnaryOperator;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/** Curves drawn by hand: 150 °C/h to 1120 °C, then to the top; the plan is 60 °C/h to 1222 °C and a quarter of an hour. */
final class HandDrawnFiring {
    static final double CORNER_S = 26_400;
    static final Schedule PLAN =
            new Schedule("Glaze", List.of(ramp(150, 1120, 0), ramp(60, 1222, 15), new Segment.FreeCooling()));

    static Segment ramp(double rate, double toC, double minutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate),
                Temperature.ofCelsius(toC),
                Duration.ofSeconds(Math.round(minutes * 60)));
    }

    /** A firing that goes to a top at a last rate, stays and cools as a kiln of usual size. */
    static DoubleUnaryOperator firing(double topC, double rate, double holdMinutes) {
        double topS = CORNER_S + (topC - 1120) / rate * 3600;
        double leftS = topS + holdMinutes * 60;
        return at -> {
            if (at < CORNER_S) {
                return 20 + at / 24;
            }
            if (at < topS) {
                return 1120 + (at - CORNER_S) * rate / 3600;
            }
            return at < leftS ? topC : 20 + (topC - 20) * Math.exp(-(at - leftS) / 12_000);
        };
    }

    static Trace trace(DoubleUnaryOperator curve, double fromS, double toS) {
        Trace.Builder log = new Trace.Builder();
        for (double at = fromS; at <= toS; at += 10) {
            log.add(Math.round(at * 1000), curve.applyAsDouble(at));
        }
        return log.view();
    }

    static Review review(DoubleUnaryOperator curve) {
        return Reviewer.review(question(trace(curve, 0, 50_000)));
    }

    static ReviewQuestion question(Trace log) {
        return ReviewQuestion.about(GoodReadings.of(log), PLAN);
    }

    static CauseCode first(Review review) {
        return review.causes().get(0).code();
    }

    /** Computed from ITS-90: an uncorrected MAX31855 that shows 1222 °C stands at about 1243 °C. */
    /** Computed from ITS-90: what a MAX31855 shows at 1228 °C, 15 °C below where it stood, is about 1207 °C. */
    /** An offset of the size of the board's error is either; a bisque firing's cones tell which. */
    /** The set-point a controller that has ended goes on giving tells nothing of a power cut. */
    /** How a cone looks after a firing, bending in proportion to its heat work. */
    static WitnessCone bent(String cone, Trace ware) {
        double share = HeatWork.of(ConeTable.of(ConeSeries.SELF_SUPPORTING), ware)
                .share(Cone.parse(cone))
                .orElseThrow();
        return seen(cone, Math.min(95, 90 * share));
    }

    static List<Advice.Kind> advised(Review review) {
        return review.advice().stream().map(Advice::kind).toList();
    }

    static Advice the(Review review, Advice.Kind kind) {
        return review.advice().stream()
                .filter(each -> each.kind() == kind)
                .findFirst()
                .orElseThrow();
    }

    static double celsius(Amount amount) {
        return ((Amount.Degrees) amount).temperature().celsius();
    }

    static List<Remark.Kind> kinds(Review review) {
        return new ArrayList<>(review.remarks().stream().map(Remark::kind).toList());
    }

    /** Cones 6, 7 and 8. */
    static WitnessPack pack(String shelf, double six, double seven, double eight) {
        return new WitnessPack(shelf, List.of(seen("6", six), seen("7", seven), seen("8", eight)));
    }

    static WitnessCone seen(String cone, double degrees) {
        return new WitnessCone(Cone.parse(cone), OptionalDouble.of(degrees), OptionalLong.empty());
    }

    private HandDrawnFiring() {}
}
