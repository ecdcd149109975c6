package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.Snapshot;

class FiringSummaryTest {
    private static final Preferences METRIC = new Preferences(
            TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID);
    private final Words english = Words.of(Language.ENGLISH, METRIC);

    @Test
    void anEndedFiringIsToldWithItsPeakHoldPlanAndCooling() {
        FiringSummary summary =
                FiringSummary.of(SampleSnapshots.ended(), english).orElseThrow();
        Map<String, String> lines = byLabel(summary);
        assertThat(summary.headline()).matches("Bisque: reached (999|1000) °C, and took 31 hours in all\\.");
        assertThat(lines.get("Duration")).isEqualTo("31 h: 10 h 37 min of heating, 20 h 23 min of cooling");
        assertThat(lines.get("Peak")).matches("(999|1000) °C, at Wed 18:\\d\\d");
        assertThat(lines.get("Hold at the top"))
                .matches("(15|16|17|18) min no more than 5 °C below 998 °C, planned 15 min");
        // By hand: 106 + 60 + 288 + 159.2 min are planned to the top; within 5 °C of it at about minute 619.
        assertThat(lines.get("Top reached")).matches("(4|5|6|7) min behind the plan");
        assertThat(lines.get("Readings missing")).isEqualTo("none");
        assertThat(lines.get("Energy")).isEqualTo("not measured");
        assertThat(lines.get("Below 120 °C")).startsWith("Thu 0");
        assertThat(lines.get("Below 50 °C")).startsWith("Thu 1");
    }

    @Test
    void aFiringOfAVirtualKilnIsTimedFromItsBeginAsNoClockOnTheWallShowedIt() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.minutes = 1900;
        moment.stage = Snapshot.Stage.ENDED;
        moment.speed = 600;
        Map<String, String> lines =
                byLabel(FiringSummary.of(moment.build(), english).orElseThrow());
        assertThat(lines.get("Peak")).matches("(999|1000) °C, after 1[01] h( \\d+ min)?");
    }

    @Test
    void theConeItCameToIsTheFirstFigureAndANumberNobodyWorkedOutIsNone() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.minutes = 1900;
        moment.stage = Snapshot.Stage.ENDED;
        assertThat(byLabel(FiringSummary.of(moment.build(), english).orElseThrow()))
                .doesNotContainKey("Cone");
        FiringSummary.Line first = FiringSummary.of(moment.workedOut().build(), english)
                .orElseThrow()
                .lines()
                .get(0);
        assertThat(first.label()).isEqualTo("Cone");
        assertThat(first.value()).matches("Cone \\d+ \\(\\d+ °C\\), \\d+ to \\d+ by sensor and chart");
    }

    @Test
    void aTopThatWasNotReachedIsTheHeadline() {
        Trace curve = new Trace.Builder()
                .add(0, 20)
                .add(3_600_000, 700)
                .add(7_200_000, 300)
                .view();
        FiringSummary summary = FiringSummary.of(
                        curve,
                        Optional.of(SampleSnapshots.BISQUE),
                        List.of(),
                        List.of(),
                        Optional.empty(),
                        1,
                        Kiln.Thresholds.COMMON_PRACTICE,
                        english)
                .orElseThrow();
        assertThat(summary.headline())
                .isEqualTo("The plan's top of 998 °C was not reached: the peak was 700 °C, after 2 hours in all.");
        assertThat(byLabel(summary)).containsEntry("Below 120 °C", "not seen");
    }

    @Test
    void coolingIsToldAtTheKilnsOwnTemperaturesForOpeningAndUnloading() {
        Trace curve = new Trace.Builder()
                .add(0, 20)
                .add(3_600_000, 700)
                .add(7_200_000, 90)
                .view();
        assertThat(byLabel(cooled(curve, List.of())))
                .containsEntry("Below 95 °C", "2:00 h")
                .containsEntry("Below 65 °C", "not seen")
                .doesNotContainKeys("Below 120 °C", "Below 50 °C");
    }

    @Test
    void nothingIsSaidOfTheWareWhereSomebodyNotedThatTheLidWasPropped() {
        Trace curve = new Trace.Builder()
                .add(0, 20)
                .add(3_600_000, 700)
                .add(7_200_000, 90)
                .view();
        assertThat(byLabel(cooled(curve, List.of(FiringEvent.of(7_000_000, FiringEvent.Kind.NOTE, "Lid propped")))))
                .containsEntry("Below 95 °C", "not known: the kiln was open, and the number is the air's");
        assertThat(byLabel(cooled(
                        curve,
                        List.of(
                                FiringEvent.of(6_000_000, FiringEvent.Kind.NOTE, "Lid propped"),
                                FiringEvent.of(6_500_000, FiringEvent.Kind.NOTE, "Lid shut again")))))
                .containsEntry("Below 95 °C", "2:00 h");
    }

    private FiringSummary cooled(Trace curve, List<FiringEvent> events) {
        return FiringSummary.of(
                        curve,
                        Optional.empty(),
                        List.of(),
                        events,
                        Optional.empty(),
                        1,
                        new Kiln.Thresholds(
                                Temperature.ofCelsius(95), Temperature.ofCelsius(65), Kiln.Thresholds.Source.MAKER),
                        english)
                .orElseThrow();
    }

    @Test
    void aHoleInTheCurveIsCounted() {
        Trace.Builder curve = new Trace.Builder();
        for (int second = 0; second < 4000; second += 5) {
            if (second < 1000 || second > 1800) {
                curve.add(second * 1000L, 100 + second * 0.05);
            }
        }
        FiringSummary summary = FiringSummary.of(
                        curve.view(),
                        Optional.empty(),
                        List.of(),
                        List.of(),
                        Optional.of(WallClockLine.from(SampleSnapshots.BEGAN)),
                        1,
                        Kiln.Thresholds.COMMON_PRACTICE,
                        english)
                .orElseThrow();
        assertThat(byLabel(summary))
                .containsEntry("Readings missing", "1 times, the longest 14 min")
                .containsEntry("Plan", "none was given");
    }

    @Test
    void withoutAnyReadingThereIsNothingToSay() {
        assertThat(FiringSummary.of(SampleSnapshots.nothingYet(org.kilnside.session.Connection.State.CLOSED), english))
                .isEmpty();
    }

    @Test
    void asPlainLinesTheLabelsStandInAColumn() {
        List<String> lines =
                FiringSummary.of(SampleSnapshots.ended(), english).orElseThrow().asLines();
        assertThat(lines.get(1)).startsWith("  Cone               ");
        assertThat(lines.get(2)).startsWith("  Duration           ");
        assertThat(lines).allSatisfy(line -> assertThat(line).doesNotContain("{"));
    }

    private static Map<String, String> byLabel(FiringSummary summary) {
        return summary.lines().stream().collect(Collectors.toMap(FiringSummary.Line::label, FiringSummary.Line::value));
    }
}
