package org.kilnside.desktop.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.book.NotedCone;
import org.kilnside.book.RecordedFiring;
import org.kilnside.book.WrittenRecord;
import org.kilnside.chart.CurveLevels;
import org.kilnside.chart.Overlay;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.session.FiringBook.FiringStart;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

class OpenedModelTest {
    private static final Words WORDS = Words.of(
            Language.ENGLISH,
            new Preferences(
                    TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID));
    private static final long MINUTE = 60_000;

    /** Straight up to a top at 100 °C/h from 20 °C after a delay, and straight down. */
    private static OpenedFiring firing(long number, long delayMs, double topC, double clockRate) {
        Trace.Builder curve = new Trace.Builder();
        long climb = Math.round((topC - 20) / 100 * 60);
        for (long minute = 0; minute <= 2 * climb; minute++) {
            double celsius = 20 + (climb - Math.abs(climb - minute)) * 100 / 60.0;
            curve.add(delayMs + minute * MINUTE, celsius);
        }
        Instant started = Instant.parse("2026-11-20T06:00:00Z");
        RecordedFiring recorded = new RecordedFiring(
                number,
                new FiringStart(
                        Optional.of("Tall Drum"),
                        "/dev/ttyUSB0",
                        started,
                        Optional.of(SampleSnapshots.BISQUE),
                        Optional.empty(),
                        ConeSeries.USUAL),
                curve.view(),
                List.of(
                        FiringEvent.of(delayMs, FiringEvent.Kind.FIRING_BEGAN),
                        FiringEvent.of(600 * MINUTE, FiringEvent.Kind.NOTE, "Bung in")),
                List.of(),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                OptionalLong.empty());
        return new OpenedFiring(
                recorded,
                CurveLevels.of(curve.view()),
                WrittenRecord.EMPTY,
                Optional.of(new WallClockLine(started, clockRate)),
                1,
                Kiln.Thresholds.COMMON_PRACTICE);
    }

    @Test
    void oneFiringStandsAgainstItsPlanOnTheWallClock() {
        OpenedModel model = OpenedModel.of(List.of(firing(3, 0, 1000, 1)));
        Overlay overlay = model.overlay(WORDS);
        assertThat(overlay.lines()).hasSize(1);
        assertThat(overlay.zero()).contains(Instant.parse("2026-11-20T06:00:00Z"));
        assertThat(overlay.plan()).hasSizeGreaterThan(3);
        assertThat(model.title(WORDS)).isEqualTo("Firing 3  ·  Tall Drum  ·  20 Nov 2026");
    }

    @Test
    void ofAFiringThatGoesOnNothingIsSaidAsIfItWereOver() {
        assertThat(OpenedModel.of(List.of(firing(3, 0, 1000, 1))).headline(WORDS))
                .isEqualTo("Bisque: going on when it was opened here. The highest so far was 1000 °C, after 19 hours 36"
                        + " minutes.");
    }

    @Test
    void severalMeetAtTheirBegin() {
        OpenedModel model = OpenedModel.of(List.of(firing(3, 0, 1000, 1), firing(4, 90 * MINUTE, 1000, 1)));
        Overlay overlay = model.overlay(WORDS);
        assertThat(overlay.zero()).isEmpty();
        assertThat(overlay.lines()).extracting(Overlay.Line::shiftMs).containsExactly(0L, -90 * MINUTE);
        assertThat(overlay.at(overlay.lines().get(0), 60 * MINUTE))
                .isEqualTo(overlay.at(overlay.lines().get(1), 60 * MINUTE));
    }

    @Test
    void severalMeetAtATemperatureAndOneThatNeverCameToItIsNamed() {
        OpenedModel model = OpenedModel.of(
                        List.of(firing(3, 0, 1000, 1), firing(4, 90 * MINUTE, 900, 1), firing(5, 0, 500, 1)))
                .withCommon(OptionalDouble.of(620));
        Overlay overlay = model.overlay(WORDS);
        assertThat(overlay.lines()).extracting(Overlay.Line::name).containsExactly("No. 3", "No. 4");
        // From 20 to 620 °C at 100 °C/h: six hours.
        assertThat(overlay.lines()).extracting(Overlay.Line::shiftMs).containsExactly(-360 * MINUTE, -450 * MINUTE);
        assertThat(model.leftOut(WORDS).orElseThrow()).contains("No. 5").contains("620 °C");
        assertThat(model.withCommon(OptionalDouble.of(300)).leftOut(WORDS)).isEmpty();
    }

    @Test
    void eventsHaveTheTimeOfDayOfAControllerThatRunsFast() {
        OpenedModel model = OpenedModel.of(List.of(firing(3, 0, 1000, 0.996)));
        // Ten hours by the controller are 9 h 57 min 36 s on the wall.
        assertThat(model.happened(WORDS).get(1).when()).isEqualTo("Fri 16:57");
        assertThat(model.happened(WORDS).get(1).what()).isEqualTo("Note: Bung in");
    }

    @Test
    void theReadOutNamesEveryLineAndThePlan() {
        OpenedModel model = OpenedModel.of(List.of(firing(3, 0, 1000, 1), firing(4, 0, 900, 1)));
        Overlay overlay = model.overlay(WORDS);
        assertThat(model.readout(overlay, 120 * MINUTE, WORDS))
                .contains("No. 3: 220 °C", "No. 4: 220 °C")
                .anyMatch(row -> row.startsWith("the plan: "));
        assertThat(model.readout(overlay, -500 * MINUTE, WORDS)).hasSize(1);
    }

    @Test
    void aFiringWithoutAGoodReadingIsShownAsSuch() {
        OpenedFiring nothing = firing(9, 0, 1000, 1);
        OpenedFiring empty = new OpenedFiring(
                nothing.firing(),
                CurveLevels.of(Trace.EMPTY),
                WrittenRecord.EMPTY,
                nothing.clock(),
                1,
                nothing.thresholds());
        OpenedModel model = OpenedModel.of(List.of(empty, nothing)).withCommon(OptionalDouble.of(600));
        assertThat(model.headline(WORDS)).isEqualTo(WORDS.text("book.no_curve"));
        assertThat(model.overlay(WORDS).lines()).hasSize(1);
        assertThat(OpenedModel.of(List.of(empty)).overlay(WORDS).whole().lengthMs())
                .isPositive();
    }

    @Test
    void witnessConesAreReadAsTheyAreWrittenOnTheCommandLine() {
        OpenedFiring firing = firing(3, 0, 1000, 1);
        List<NotedCone> cones = WitnessText.read(
                        "middle 06:90 05:35", ConeSeries.SELF_SUPPORTING, firing, ZoneId.of("Europe/Amsterdam"))
                .orElseThrow();
        assertThat(cones).extracting(cone -> cone.cone().number()).containsExactly("06", "05");
        assertThat(WitnessText.of(cones.get(0), firing, WORDS)).isEqualTo("cone 06 (998 °C)  90°, down");
        NotedCone seen = WitnessText.read(
                        "top 06@16:40", ConeSeries.SELF_SUPPORTING, firing, ZoneId.of("Europe/Amsterdam"))
                .orElseThrow()
                .get(0);
        // 16:40 in Amsterdam is 15:40 UTC, 9 h 40 min after the zero.
        assertThat(seen.seenDownMs()).hasValue(580 * MINUTE);
        for (String text :
                new String[] {"", "middle", "middle 99:90", "middle 06:900", "06", "a\u0000b", "top 06@25:00"}) {
            assertThat(WitnessText.read(text, ConeSeries.SELF_SUPPORTING, firing, ZoneId.of("UTC")))
                    .as(text)
                    .isEmpty();
        }
    }

    @Test
    void aCommonTemperatureIsWrittenInThePersonsOwnUnit() {
        assertThat(CommonPane.temperature("600", TemperatureUnit.CELSIUS)
                        .orElseThrow()
                        .celsius())
                .isEqualTo(600);
        assertThat(CommonPane.temperature("1112 °F", TemperatureUnit.FAHRENHEIT)
                        .orElseThrow()
                        .celsius())
                .isEqualTo(600);
        assertThat(CommonPane.temperature("573,5", TemperatureUnit.CELSIUS)
                        .orElseThrow()
                        .celsius())
                .isEqualTo(573.5);
        for (String text : new String[] {"", "hot", "-5", "5000", "1e3", "NaN"}) {
            assertThat(CommonPane.temperature(text, TemperatureUnit.CELSIUS))
                    .as(text)
                    .isEmpty();
        }
    }
}
