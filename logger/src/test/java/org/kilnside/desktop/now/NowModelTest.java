package org.kilnside.desktop.now;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.wording.SampleSnapshots.HOST_MS;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.sensor.SignalWatch;
import org.kilnside.session.Connection;
import org.kilnside.session.Findings;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

class NowModelTest {
    private static final Preferences METRIC = new Preferences(
            TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID);
    private static final Words ENGLISH = Words.of(Language.ENGLISH, METRIC);

    @Test
    void theNumberComesWithTheAgeOfItsReading() {
        NowModel model = at(SampleSnapshots.heating(), HOST_MS + 3000);
        assertThat(model.number()).isEqualTo(new NowModel.BigNumber(true, "412", "°C", "3 s ago"));
    }

    @Test
    void pastTenSecondsTheNumberItselfGivesWay() {
        NowModel model = at(SampleSnapshots.heating(), HOST_MS + 240_000);
        assertThat(model.number().live()).isFalse();
        assertThat(model.number().text()).isEqualTo("no reading for 4 min");
        assertThat(model.number().unit()).isEmpty();
        assertThat(model.number().under()).isEqualTo("last reading 412 °C, at 13:47");
    }

    @Test
    void whileReadingsAreMissingNoFigureFromThemIsShown() {
        List<String> live = labels(at(SampleSnapshots.heating(), HOST_MS));
        List<String> old = labels(at(SampleSnapshots.heating(), HOST_MS + 60_000));
        assertThat(live).containsExactly("Rate over 10 min", "Plan", "Against the plan", "Elements on");
        assertThat(old).containsExactly("Plan");
    }

    @Test
    void theRateIsGivenOverTenSixtyAndOneMinute() {
        NowModel.Figure rate = at(SampleSnapshots.heating(), HOST_MS).figures().get(0);
        assertThat(rate.value()).matches("\\+\\d+ °C/h");
        assertThat(rate.more()).hasSize(2);
        assertThat(rate.more().get(0)).startsWith("1 min +");
        assertThat(rate.more().get(1)).startsWith("60 min +");
    }

    @Test
    void theHoldSaysWhatIsLeftAndTheSegmentWhatItAsks() {
        List<NowModel.Figure> figures = at(SampleSnapshots.holding(), HOST_MS).figures();
        assertThat(figures)
                .contains(new NowModel.Figure("Hold left", "12 min", List.of()))
                .contains(new NowModel.Figure("Plan", "Segment 3 of 4", List.of("150 °C/h to 998 °C", "hold 15 min")))
                .contains(new NowModel.Figure("Against the plan", "+1 °C", List.of("6 min behind")));
    }

    @Test
    void aBrokenSensorHasNoNumberAndNamesTheLastGoodOne() {
        NowModel model = at(SampleSnapshots.faulted(), HOST_MS + 1000);
        assertThat(model.number().live()).isFalse();
        assertThat(model.number().text()).isEqualTo("no temperature");
        assertThat(model.number().under()).startsWith("last reading 41").endsWith("at 13:46");
        assertThat(labels(model)).containsExactly("Plan", "Elements on");
    }

    @Test
    void eventsStandNewestFirstAndTroubleIsMarked() {
        List<NowModel.EventLine> events = at(SampleSnapshots.heating(), HOST_MS).events();
        assertThat(events.get(0)).isEqualTo(new NowModel.EventLine("11:35", "Connected again", false));
        assertThat(events.get(1)).isEqualTo(new NowModel.EventLine("11:34", "Disconnected", true));
        assertThat(events).contains(new NowModel.EventLine("10:00", "Note: Bung out", false));
    }

    @Test
    void theLineOfNowGoesOnWhileReadingsStop() {
        long live = at(SampleSnapshots.heating(), HOST_MS).chart().nowMs().orElseThrow();
        long later =
                at(SampleSnapshots.heating(), HOST_MS + 600_000).chart().nowMs().orElseThrow();
        assertThat(later - live).isEqualTo(600_000);
    }

    @Test
    void aFastVirtualKilnIsMarkedEverywhereAndTimedFromItsBegin() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.link = "virtual:Tall Drum?speed=600";
        moment.speed = 600;
        NowModel model = at(moment.build(), HOST_MS + 1000);
        assertThat(model.notReal()).contains("Virtual kiln, 600 times faster. No real kiln is hot.");
        assertThat(model.chart().across()).contains("not a real kiln");
        assertThat(model.chart().zero()).isEmpty();
        assertThat(model.spoken()).startsWith("Virtual kiln");
        long elapsed = moment.build().latest().orElseThrow().elapsedMs();
        assertThat(model.chart().nowMs()).hasValue(elapsed + 600_000);
    }

    @Test
    void whenItIsOverTheSummaryIsThereAndTheNumberIsNotLive() {
        NowModel model = at(SampleSnapshots.ended(), HOST_MS + 4_000_000);
        assertThat(model.summary()).isPresent();
        assertThat(model.number().live()).isFalse();
        assertThat(model.number().text()).isEqualTo("over");
        assertThat(model.chart().nowMs()).isEmpty();
        assertThat(model.hand()).isEqualTo(NowModel.Hand.NOTHING);
    }

    @Test
    void troubleWithTheBookIsInSight() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.bookTrouble = Optional.of("the disk is full.");
        NowModel.Status book = at(moment.build(), HOST_MS).book();
        assertThat(book).isEqualTo(new NowModel.Status("Not in the book: the disk is full.", true));
    }

    @Test
    void beforeAnythingCameNothingIsInvented() {
        NowModel model = at(SampleSnapshots.nothingYet(Connection.State.SILENT), HOST_MS + 30_000);
        assertThat(model.number()).isEqualTo(new NowModel.BigNumber(false, "no reading yet", "", ""));
        assertThat(model.figures()).isEmpty();
        assertThat(model.connection().trouble()).isTrue();
        assertThat(model.title()).isEqualTo("Tall Drum  ·  Bisque");
    }

    @Test
    void readingsThatStopWithoutTheCableBeingOutAreATroubleOfTheConnectionToo() {
        assertThat(at(SampleSnapshots.heating(), HOST_MS + 30_000).connection())
                .isEqualTo(new NowModel.Status("No reading for 30 s.", true));
    }

    @Test
    void fahrenheitAndTwelveHoursReachEveryString() {
        Words american = Words.of(
                Language.ENGLISH, METRIC.withUnit(TemperatureUnit.FAHRENHEIT).withClock(ClockStyle.TWELVE_HOURS));
        NowModel model = NowModel.of(SampleSnapshots.heating(), HOST_MS, american, false);
        assertThat(model.toString()).doesNotContain("°C");
        assertThat(model.events().get(0).when()).isEqualTo("11:35 AM");
        // 412.x °C = 774 °F, by hand.
        assertThat(model.number().text()).isIn("773", "774", "775");
    }

    private static NowModel at(Snapshot snapshot, long hostMs) {
        return NowModel.of(snapshot, hostMs, ENGLISH, false);
    }

    private static List<String> labels(NowModel model) {
        return model.figures().stream().map(NowModel.Figure::label).toList();
    }

    @Test
    void whatIsToComeStandsUnderTheSentenceAndBesideTheChart() {
        NowModel model =
                NowModel.of(SampleSnapshots.coolingForecast(), SampleSnapshots.HOST_MS + 2_000, ENGLISH, false);
        NowModel.Coming coming = model.ahead().orElseThrow();
        assertThat(coming.sentence()).startsWith("Below 120 °C probably ").endsWith(" (nine in ten).");
        assertThat(coming.head()).isEqualTo("What is to come, nine in ten");
        assertThat(coming.told().cautions()).contains("One sensor; the ware inside is hotter; the kiln maker decides.");
        assertThat(model.chart().fan()).hasSizeBetween(100, 300);
        assertThat(model.spoken()).contains("Below 120 °C probably ");
    }

    @Test
    void whenReadingsStopWhatWasToComeIsSaidAsOfThen() {
        NowModel model =
                NowModel.of(SampleSnapshots.coolingForecast(), SampleSnapshots.HOST_MS + 300_000, ENGLISH, false);
        NowModel.Coming coming = model.ahead().orElseThrow();
        assertThat(coming.head()).startsWith("What is to come, as of ");
        assertThat(coming.sentence()).isEmpty();
    }

    @Test
    void aNumberNotToBeTrustedIsShownWithThatAndWithoutAFuture() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.doubts = List.of(new Findings.Doubt(SignalWatch.Suspicion.READS_FAR_TOO_LOW, 0));
        NowModel model = NowModel.of(moment.build(), SampleSnapshots.HOST_MS + 3_000, ENGLISH, false);
        assertThat(model.number().under()).isEqualTo("3 s ago; do not trust this number");
        assertThat(model.ahead()).isEmpty();
        assertThat(model.chart().fan()).isEmpty();
        assertThat(model.sentence().text()).startsWith("Do not trust this number: ");
    }
}
