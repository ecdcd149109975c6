package org.kilnside.outlook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import org.kilnside.files.UnitText;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Volume;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.ForecastFan.Point;

/** The drawing of a plan not yet lit says what the numbers beside it say. */
class OutlookFanTest {
    private static final Schedule BISQUE = new Schedule(
            "a bisque", List.of(ramp("60 °C/h", "600 °C", "15 min"), ramp("100 °C/h", "992 °C", "10 min")));

    private static Segment ramp(String rate, String to, String hold) {
        return new Segment.Ramp(UnitText.rate(rate), UnitText.temperature(to), UnitText.duration(hold));
    }

    private static Outlook in(Kiln kiln) {
        return Outlook.of(OutlookQuestion.about(BISQUE, kiln));
    }

    private static Kiln tallDrum(double kilowatts) {
        return new Kiln(
                "Tall Drum",
                Optional.of(Volume.ofLitres(68)),
                Optional.of(Power.ofKilowatts(kilowatts)),
                Optional.of(Kiln.Wall.BRICK),
                Kiln.Opening.LID,
                Optional.empty(),
                Optional.empty(),
                Kiln.Limits.UNKNOWN,
                Kiln.Thresholds.COMMON_PRACTICE,
                List.of());
    }

    @Test
    void itComesDownWhenTheNumbersSay() {
        for (Kiln kiln : List.of(Kiln.named("any"), tallDrum(5.6), tallDrum(3), tallDrum(1.6))) {
            Outlook outlook = in(kiln);
            Estimate<Duration> crack = outlook.crack().orElseThrow();
            assertThat(belowH(outlook, Point::medianC, 120)).isCloseTo(hours(crack.probable()), within(0.1));
            assertThat(belowH(outlook, Point::lowC, 120)).isCloseTo(hours(crack.from()), within(0.1));
            Point last = outlook.fan().get(outlook.fan().size() - 1);
            assertThat(last.elapsedMs() / 3.6e6).isCloseTo(hours(crack.to()), within(0.1));
            assertThat(last.highC()).isCloseTo(120, within(1.0));
            assertThat(belowH(outlook, Point::medianC, 50))
                    .isCloseTo(hours(outlook.unload().orElseThrow().probable()), within(0.1));
        }
    }

    @Test
    void itBeginsInTheRoomAndIsAtItsTopWhenTheNumberSays() {
        Outlook outlook = in(tallDrum(5.6));
        assertThat(outlook.fan().get(0)).isEqualTo(new Point(0, 15, 15, 15));
        double atTopH = outlook.fan().stream()
                        .filter(point -> point.medianC() > 991)
                        .findFirst()
                        .orElseThrow()
                        .elapsedMs()
                / 3.6e6;
        assertThat(atTopH).isCloseTo(hours(outlook.arrival().orElseThrow().probable()), within(0.15));
    }

    @Test
    void aKilnThatFallsShortIsNotDrawnAtATopItDoesNotReach() {
        Outlook outlook = in(tallDrum(1.6));
        assertThat(outlook.reaches()).isEqualTo(Forecast.Reaches.NO);
        double highestC = outlook.highest().probable().celsius();
        assertThat(outlook.fan().stream().mapToDouble(Point::medianC).max().orElseThrow())
                .isCloseTo(highestC, within(1.0));
        assertThat(outlook.fan().stream().mapToDouble(Point::highC).max().orElseThrow())
                .isCloseTo(outlook.highest().to().celsius(), within(1.0));
        assertThat(belowH(outlook, Point::medianC, 120))
                .isCloseTo(hours(outlook.crack().orElseThrow().probable()), within(0.1));
    }

    /** When a line of the drawing is below a temperature for good, in hours. */
    private static double belowH(Outlook outlook, ToDoubleFunction<Point> line, double celsius) {
        List<Point> fan = outlook.fan();
        for (int i = fan.size() - 1; i > 0; i--) {
            double before = line.applyAsDouble(fan.get(i - 1));
            double after = line.applyAsDouble(fan.get(i));
            if (before >= celsius && after < celsius) {
                double part = (before - celsius) / (before - after);
                double fromMs = fan.get(i - 1).elapsedMs();
                return (fromMs + part * (fan.get(i).elapsedMs() - fromMs)) / 3.6e6;
            }
        }
        return Double.NaN;
    }

    private static double hours(Duration duration) {
        return duration.toMillis() / 3.6e6;
    }
}
