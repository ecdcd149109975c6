package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.wording.Futures.ENGLISH;
import static org.kilnside.wording.Futures.HOUR_S;
import static org.kilnside.wording.Futures.arrival;
import static org.kilnside.wording.Futures.below;
import static org.kilnside.wording.Futures.celsius;
import static org.kilnside.wording.Futures.cooling;
import static org.kilnside.wording.Futures.forecast;
import static org.kilnside.wording.Futures.heating;
import static org.kilnside.wording.Futures.when;
import static org.kilnside.wording.Futures.with;
import static org.kilnside.wording.Futures.words;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.sensor.SignalWatch.Suspicion;
import org.kilnside.session.Findings;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Choice;
import org.kilnside.thermal.Forecast.Choice.Way;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Stage;

/** What is to come, said to a potter. The firing began at 7:30 on the wall at Rook Lane. */
class AheadTest {
    @Test
    void whileCoolingItSaysWhenTheLidMayBeThoughtOfWithItsIntervalAndItsDay() {
        Snapshot cooling = cooling(below(120, 28, 28.75, 29.67), below(50, 34, 36, 38.5));
        Ahead ahead = Ahead.of(cooling, ENGLISH);
        assertThat(ahead.sentence()).isEqualTo("Below 120 °C probably Thu\u00a011:30–13:10 (nine in ten).");
        assertThat(ahead.lines())
                .contains(
                        new Ahead.Line("Lid < 120 °C", "Thu\u00a011:30–13:10"),
                        new Ahead.Line("Unload < 50 °C", "Thu\u00a017:30–22:00"));
        assertThat(ahead.cautions())
                .contains(
                        "One sensor; the ware inside is hotter; the kiln maker decides.",
                        "120 °C and 50 °C: common practice.");
    }

    @Test
    void aKilnWithADoorHasADoor() {
        Snapshot cooling = cooling(below(120, 28, 28.75, 29.67));
        assertThat(Ahead.of(cooling, words(Language.ENGLISH, Opening.DOOR)).lines())
                .extracting(Ahead.Line::label)
                .contains("Door < 120 °C");
    }

    @Test
    void anIntervalThatGoesPastMidnightHasBothDays() {
        Snapshot cooling = cooling(below(120, 16, 16.9, 17.9));
        assertThat(Ahead.of(cooling, ENGLISH).sentence())
                .isEqualTo("Below 120 °C probably 23:30\u00a0– Thu\u00a001:24 (nine in ten).");
    }

    @Test
    void theTextOfAForecastKeepsTheLateEndToo() {
        Forecast open = forecast(
                14,
                Stage.COOLING,
                Optional.empty(),
                List.of(below(120, 14, 14, 14), below(50, 14, 14.5, 19)),
                new Remark(Remark.Kind.SENSOR_READS_AIR, Optional.empty()));
        Trace log = new Trace.Builder().add(0, 20).add(14 * 3_600_000, 28).view();
        assertThat(new ForecastWords(ENGLISH, Optional.empty(), log).lines(open))
                .contains("Below 120 °C by now.")
                .anySatisfy(line -> assertThat(line).startsWith("Below 50 °C probably no later than after 19 h"));
    }

    @Test
    void whileItCoolsItSaysWhatEachChoiceWouldGiveAndNotTheWayItIsTwice() {
        Ahead.Choices choices =
                Ahead.choices(SampleSnapshots.coolingForecast(), ENGLISH).orElseThrow();
        assertThat(choices.head()).isEqualTo("If you opened it, nine in ten");
        assertThat(choices.what()).isEqualTo("Unload < 50 °C");
        assertThat(choices.lines()).hasSize(3);
        assertThat(choices.lines().get(0)).startsWith("all shut: Thu");
        assertThat(choices.lines().get(1)).startsWith("bung out, 300 °C: Thu");
        assertThat(choices.lines().get(2)).startsWith("lid propped 2–10 cm, 120 °C: Thu");
        assertThat(choices.caution()).isEqualTo("Ware is hotter; the kiln maker decides.");
        assertThat(Ahead.choices(SampleSnapshots.heatingForecast(), ENGLISH)).isEmpty();
    }

    /** At 621 °C: what is to be done further down has its temperature, what may be done at once has none. */
    @Test
    void whereItIsOpenTheChoiceIsToShutItAndNotToOpenIt() {
        List<Below> open = List.of(below(50, 25, 26, 28));
        Forecast asItIs = forecast(14, Stage.COOLING, Optional.empty(), open);
        Forecast forecast = new Forecast(
                asItIs.askedS(),
                asItIs.stage(),
                asItIs.ambient(),
                asItIs.below(),
                asItIs.arrival(),
                asItIs.energy(),
                asItIs.estimate(),
                List.of(
                        new Choice(Way.BUNG_OUT, Optional.of(celsius(621)), true, open),
                        new Choice(Way.SHUT, Optional.of(celsius(621)), true, List.of(below(50, 30, 32, 35))),
                        new Choice(Way.LID_PROPPED, Optional.of(celsius(120)), false, List.of(below(50, 22, 23, 25)))),
                List.of());
        Ahead.Choices choices = Ahead.choices(with(SampleSnapshots.cooling(), forecast), ENGLISH)
                .orElseThrow();
        assertThat(choices.head()).isEqualTo("If you changed that, nine in ten");
        assertThat(choices.lines())
                .containsExactly(
                        "as it is: Thu\u00a008:30–11:30",
                        "all shut now: Thu\u00a013:30–18:30",
                        "lid propped 2–10 cm, 120 °C: Thu\u00a005:30–08:30");
    }

    @Test
    void aTemperatureItIsJustGoingThroughHasNoTimeToWaitFor() {
        Snapshot cooling = cooling(below(120, 14.08, 14.09, 14.1), below(50, 25, 26, 28));
        assertThat(Ahead.of(cooling, ENGLISH).lines()).contains(new Ahead.Line("Lid < 120 °C", "just now"));
        assertThat(Ahead.of(cooling, ENGLISH).sentence()).doesNotContain("120 °C");
    }

    private static List<Ahead.Line> underAnOpenLid(Below... below) {
        Snapshot open = with(
                SampleSnapshots.cooling(),
                forecast(
                        14,
                        Stage.COOLING,
                        Optional.empty(),
                        List.of(below),
                        new Remark(Remark.Kind.SENSOR_READS_AIR, Optional.empty())));
        return Ahead.of(open, ENGLISH).lines();
    }

    @Test
    void whereTheSensorReadsAirNoTimeIsSaidThatNobodySaw() {
        assertThat(underAnOpenLid(below(120, 14, 14, 14), below(50, 14.5, 15, 19)))
                .contains(
                        new Ahead.Line("Lid < 120 °C", "by now"),
                        new Ahead.Line("Unload < 50 °C", "22:00\u00a0– Thu\u00a002:30"));
    }

    @Test
    void whereTheSensorReadsAirItIsNotSoByNowWhileTheModelSaysItMayStillBeToCome() {
        assertThat(underAnOpenLid(below(120, 14, 14, 16), below(50, 14, 14.5, 19)))
                .contains(
                        new Ahead.Line("Lid < 120 °C", "probably by 23:30"),
                        new Ahead.Line("Unload < 50 °C", "probably by Thu\u00a002:30"));
    }

    @Test
    void whatItNeverWasAboveAndWhatItWasBelowAllAlongHasNoTime() {
        Below never = new Below(celsius(120), Optional.empty(), Optional.empty(), true);
        assertThat(Ahead.of(cooling(never, below(50, 0, 0, 0)), ENGLISH).lines())
                .contains(
                        new Ahead.Line("Lid < 120 °C", "never above it"),
                        new Ahead.Line("Unload < 50 °C", "from the first reading on"));
    }

    @Test
    void whereOnlyTheEarliestTimeIsKnownItSaysWhy() {
        Below unknown = new Below(celsius(120), Optional.empty(), Optional.of(20 * HOUR_S));
        Snapshot driven = with(
                SampleSnapshots.cooling(),
                forecast(
                        14,
                        Stage.COOLING,
                        Optional.empty(),
                        List.of(unknown),
                        new Remark(Remark.Kind.DRIVEN_PAST_PLAN, Optional.empty())));
        assertThat(Ahead.of(driven, ENGLISH).cautions())
                .anySatisfy(caution -> assertThat(caution).startsWith("The elements are on while the kiln cools"));
    }

    @Test
    void afterTheTopTheConeIsNoLongerSoFar() {
        Ahead ahead = Ahead.of(SampleSnapshots.coolingForecast(), ENGLISH);
        assertThat(ahead.lines().get(0).value())
                .doesNotContain("so far")
                .doesNotContain("aiming")
                .endsWith(" by sensor and chart");
    }

    @Test
    void onASpedUpKilnTimesCountFromTheBegin() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.speed = 600;
        moment.minutes = 840;
        moment.stage = Snapshot.Stage.COOLING;
        Snapshot cooling = with(
                moment.build(), forecast(14, Stage.COOLING, Optional.empty(), List.of(below(120, 28, 28.75, 29.5))));
        assertThat(Ahead.of(cooling, ENGLISH).sentence())
                .isEqualTo("Below 120 °C probably 28:00 h–29:30 h after the start (nine in ten).");
        assertThat(Ahead.of(cooling, ENGLISH).lines())
                .contains(new Ahead.Line("Lid < 120 °C", "28:00\u00a0h–29:30\u00a0h"));
    }

    /** On a sped-up kiln the newest answer may be an hour old. */
    @Test
    void aTimeThatHasGoneByIsNotExpectedAnyMore() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        Snapshot cooling = with(
                moment.build(),
                forecast(
                        4,
                        Stage.HEATING,
                        Optional.of(arrival(998, Reaches.YES, when(5.9, 6, 6.1), Optional.empty())),
                        List.of()));
        assertThat(Ahead.of(cooling, ENGLISH).sentence()).isEmpty();
    }

    @Test
    void aNumberNotToBeTrustedHasNoConeAndNoFuture() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.doubts = List.of(new Findings.Doubt(Suspicion.FROZEN, 0));
        Snapshot doubted = moment.build();
        assertThat(Ahead.of(doubted, ENGLISH).isEmpty()).isTrue();
        NowSentence sentence = NowSentence.of(doubted, SampleSnapshots.HOST_MS, ENGLISH);
        assertThat(sentence.tone()).isEqualTo(NowSentence.Tone.BLIND);
        assertThat(sentence.text()).startsWith("Do not trust this number: it has not moved for a long time");
    }

    @Test
    void theModelsOwnDoubtWithdrawsTheForecastToo() {
        Snapshot heating = with(
                SampleSnapshots.heating(),
                forecast(
                        6.28,
                        Stage.HEATING,
                        Optional.empty(),
                        List.of(),
                        new Remark(Remark.Kind.DO_NOT_TRUST_SENSOR, Optional.empty())));
        assertThat(Ahead.of(heating, ENGLISH).isEmpty()).isTrue();
        assertThat(NowSentence.of(heating, SampleSnapshots.HOST_MS, ENGLISH).text())
                .isEqualTo("Do not trust this number: the kiln takes far more power than it needs at this temperature."
                        + " Look at the sensor and at the kiln.");
    }

    @Test
    void aForecastThatFailedSaysWhy() {
        Snapshot failed = with(SampleSnapshots.heating(), Optional.empty(), Optional.of("the fit did not converge"));
        Ahead ahead = Ahead.of(failed, ENGLISH);
        assertThat(ahead.lines())
                .containsExactly(new Ahead.Line("Forecast", "there is none: the fit did not converge"));
    }
}
