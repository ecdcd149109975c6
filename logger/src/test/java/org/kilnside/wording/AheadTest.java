package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Measure;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.quantity.Interval;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.SignalWatch.Suspicion;
import org.kilnside.session.Findings;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Arrival;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Choice;
import org.kilnside.thermal.Forecast.Choice.Way;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Remark;
import org.kilnside.thermal.Forecast.Stage;
import org.kilnside.thermal.Forecast.TopsOut;
import org.kilnside.thermal.Forecast.When;

/** What is to come, said to a potter. The firing began at 7:30 on the wall at Rook Lane. */
class AheadTest {
    private static final Words ENGLISH = words(Language.ENGLISH, Opening.LID);
    private static final double HOUR_S = 3600;

    private static Words words(Language language, Opening opening) {
        return Words.of(
                language,
                new Preferences(
                        TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), opening));
    }

    private static Temperature celsius(double celsius) {
        return Temperature.ofCelsius(celsius);
    }

    private static Snapshot with(Snapshot snapshot, Forecast forecast) {
        return with(snapshot, Optional.of(forecast), Optional.empty());
    }

    private static Snapshot with(Snapshot snapshot, Optional<Forecast> forecast, Optional<String> failure) {
        LiveForecast live = new LiveForecast(
                snapshot.curve().elapsedMs(snapshot.curve().size() - 1),
                Kiln.Thresholds.COMMON_PRACTICE,
                forecast,
                List.of(),
                Optional.empty(),
                failure);
        return snapshot.with(
                snapshot.connection(),
                snapshot.latest(),
                snapshot.curve(),
                snapshot.findings().with(Optional.of(live)));
    }

    private static Forecast forecast(
            double askedH, Stage stage, Optional<Arrival> arrival, List<Below> below, Remark... remarks) {
        return new Forecast(
                askedH * HOUR_S,
                stage,
                celsius(12),
                below,
                arrival,
                Optional.empty(),
                Optional.empty(),
                List.of(),
                List.of(remarks));
    }

    private static Below below(double celsius, double fromH, double atH, double toH) {
        return new Below(
                celsius(celsius),
                Optional.of(new When(atH * HOUR_S, fromH * HOUR_S, toH * HOUR_S)),
                Optional.of(fromH * HOUR_S));
    }

    /** Twenty past six of a firing under way, with an answer for the top and what comes below. */
    private static Snapshot heating(Arrival arrival, Below... below) {
        return with(SampleSnapshots.heating(), forecast(6.28, Stage.HEATING, Optional.of(arrival), List.of(below)));
    }

    /** The same with the cone so far and the plan's. */
    private static Snapshot heatingForecast(Arrival arrival) {
        return with(SampleSnapshots.heatingForecast(), forecast(6.28, Stage.HEATING, Optional.of(arrival), List.of()));
    }

    /** The fourteenth hour, an hour after the top. */
    private static Snapshot cooling(Below... below) {
        return with(SampleSnapshots.cooling(), forecast(14, Stage.COOLING, Optional.empty(), List.of(below)));
    }

    private static Arrival arrival(double targetC, Reaches reaches, Optional<When> when, Optional<TopsOut> topsOut) {
        return new Arrival(celsius(targetC), reaches, when, topsOut);
    }

    private static Optional<When> when(double fromH, double atH, double toH) {
        return Optional.of(new When(atH * HOUR_S, fromH * HOUR_S, toH * HOUR_S));
    }

    private static Optional<TopsOut> topsOut(double atC, double fromC, double toC) {
        return Optional.of(new TopsOut(celsius(atC), celsius(fromC), celsius(toC)));
    }

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
    void everyConeIsNamedWithItsKindWhereThatIsNotTheUsual() {
        Ahead large = Ahead.of(SampleSnapshots.holdingLargeCones(), ENGLISH);
        String said = large.sentence() + large.lines();
        assertThat(said).contains("large cone 06 (995 °C)").doesNotContainPattern("(?<![Ll]arge )cone 0\\d \\(");
        Ahead german = Ahead.of(SampleSnapshots.holdingLargeCones(), words(Language.GERMAN, Opening.LID));
        assertThat(german.sentence() + german.lines()).contains("Großkegel 06 (995 °C)");
        assertThat(Ahead.of(SampleSnapshots.holdingForecast(), ENGLISH).lines().toString())
                .doesNotContain("large");
    }

    @Test
    void aKilnTooWeakForItsPlanIsSaidToTopOut() {
        Snapshot heating = heating(
                arrival(1222, Reaches.NO, Optional.empty(), topsOut(1190, 1180, 1200)),
                new Below(celsius(120), Optional.empty(), Optional.empty()));
        assertThat(Ahead.of(heating, ENGLISH).sentence())
                .isEqualTo("At this pace it tops out near 1190 °C (1180 to 1200), below the planned 1222 °C.");
    }

    /** A controller that waits for its top gives cone after cone: the cone is what is waited for, not the number. */
    @Test
    void aConeThatIsDownWhileItHeatsOnIsSaidFirst() {
        Snapshot heating = heatingForecast(arrival(1222, Reaches.NO, Optional.empty(), topsOut(1190, 1180, 1200)));
        assertThat(Ahead.of(heating, ENGLISH).sentence()).startsWith("At this pace");
        assertThat(Ahead.of(hadItsCone(heating), ENGLISH).sentence())
                .startsWith(
                        "By its curve the ware has had cone 06 (998 °C): from here on more time is more cone. At this pace");
    }

    /** What the plan's own way would come to is not where a kiln gets that falls short of it. */
    @Test
    void aKilnThatFallsShortIsGivenNoConeOfItsPlan() {
        Snapshot reaches = withExpected(
                heatingForecast(arrival(1222, Reaches.YES, when(10.6, 10.8, 11), topsOut(1290, 1250, 1320))));
        Snapshot falls =
                withExpected(heatingForecast(arrival(1222, Reaches.NO, Optional.empty(), topsOut(1190, 1180, 1200))));
        assertThat(Ahead.of(reaches, ENGLISH).lines().toString()).contains("Comes to cone 8");
        assertThat(Ahead.of(falls, ENGLISH).lines().toString()).doesNotContain("Comes to");
    }

    private static Snapshot hadItsCone(Snapshot snapshot) {
        ConeReached soFar = snapshot.findings().cone().orElseThrow();
        ConePosition aimed = ConePosition.at(Cone.find("06").orElseThrow());
        ConeReached had = new ConeReached(
                soFar.series(),
                aimed,
                new Interval<>(aimed, aimed, 0.9),
                soFar.coolingAdded(),
                soFar.peak(),
                soFar.peakMs(),
                soFar.top(),
                soFar.gaps());
        return snapshot.with(
                snapshot.connection(),
                snapshot.latest(),
                snapshot.curve(),
                new Findings(List.of(), Optional.of(had), snapshot.findings().forecast()));
    }

    private static Snapshot withExpected(Snapshot snapshot) {
        LiveForecast live = snapshot.findings().forecast().orElseThrow();
        ConePosition eight = ConePosition.at(Cone.find("8").orElseThrow());
        LiveForecast.ExpectedCone expected =
                new LiveForecast.ExpectedCone(eight, new Interval<>(eight, eight, 0.9), OptionalLong.empty());
        LiveForecast with = new LiveForecast(
                live.askedMs(), live.thresholds(), live.forecast(), live.fan(), Optional.of(expected), live.failure());
        return snapshot.with(
                snapshot.connection(),
                snapshot.latest(),
                snapshot.curve(),
                snapshot.findings().with(Optional.of(with)));
    }

    @Test
    void whereItCannotBeSaidItSaysSo() {
        Snapshot heating = heating(arrival(1222, Reaches.CANNOT_SAY_YET, Optional.empty(), topsOut(1225, 1200, 1250)));
        Ahead ahead = Ahead.of(heating, ENGLISH);
        assertThat(ahead.sentence())
                .isEqualTo("Whether it reaches 1222 °C cannot be said yet: it tops out near 1225 °C (1200 to 1250).");
        assertThat(ahead.cautions()).containsExactly("One sensor; the ware inside is hotter; the kiln maker decides.");
    }

    @Test
    void aTopThatCouldBeAnythingIsNotTold() {
        Snapshot heating = heating(arrival(1222, Reaches.CANNOT_SAY_YET, Optional.empty(), topsOut(1190, 840, 1550)));
        assertThat(Ahead.of(heating, ENGLISH).sentence()).isEqualTo("Whether it reaches 1222 °C cannot be said yet.");
    }

    /** The drawing shows the cooling while it heats: so do the lines, however wide, but no sentence leads with it. */
    @Test
    void whileItHeatsTheLidsWideIntervalStandsInItsLineWithItsCautions() {
        Snapshot heating = heating(
                arrival(998, Reaches.YES, when(10.6, 10.8, 11), topsOut(1250, 1200, 1290)), below(120, 18, 23, 31));
        Ahead ahead = Ahead.of(heating, ENGLISH);
        assertThat(ahead.sentence()).doesNotContain("120 °C");
        assertThat(ahead.lines()).extracting(Ahead.Line::label).contains("Lid < 120 °C");
        assertThat(ahead.cautions())
                .contains(
                        "One sensor; the ware inside is hotter; the kiln maker decides.",
                        "120 °C and 50 °C: common practice.");
    }

    @Test
    void whileItHeatsItsUnloadingStandsBesideTheLid() {
        Snapshot heating = heating(
                arrival(998, Reaches.YES, when(10.6, 10.8, 11), topsOut(1250, 1200, 1290)),
                below(120, 18, 23, 31),
                below(50, 24, 29, 39));
        assertThat(Ahead.of(heating, ENGLISH).lines())
                .extracting(Ahead.Line::label)
                .containsSequence("Lid < 120 °C", "Unload < 50 °C");
    }

    /** What is worked out of the future was seen by nobody. */
    @Test
    void theAlarmOfAWeakKilnSaysWhereItTopsOutAndNotThatItWasSeen() {
        assertThat(new AlarmWords(ENGLISH)
                        .seenAgainstExpected(
                                AlarmKind.WILL_NOT_REACH_TOP,
                                Optional.of(new Measure.OfTemperature(celsius(1190))),
                                Optional.of(new Measure.OfTemperature(celsius(1222)))))
                .contains("tops out near 1190 °C, planned 1222 °C");
    }

    @Test
    void newsOfWareUnderAnOpenLidIsTheModelsAndNotSeen() {
        assertThat(new AlarmWords(ENGLISH)
                        .seenAgainstExpected(AlarmKind.BELOW_LID_THRESHOLD, Optional.empty(), Optional.empty()))
                .contains("by the model, as the sensor reads air");
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
    void thePlansConeIsExpectedAtATimeAndNeverWithoutItsTemperature() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.minutes = 640;
        moment.segment = 3;
        Ahead ahead = Ahead.of(moment.workedOut().build(), ENGLISH);
        assertThat(ahead.sentence()).startsWith("Cone 06 (998 °C) expected at 18:");
        assertThat(ahead.lines().get(0).value()).endsWith("; aiming for cone 06 (998 °C)");
        assertThat(ahead.lines()).extracting(Ahead.Line::value).noneMatch(line -> line.startsWith("Comes to"));
    }

    @Test
    void farBelowTheTopTheTimeIsExpectedOnlyIfTheElementsCan() {
        Snapshot heating =
                heatingForecast(arrival(998, Reaches.CANNOT_SAY_YET, when(10.6, 10.8, 11), topsOut(1150, 980, 1290)));
        Ahead ahead = Ahead.of(heating, ENGLISH);
        assertThat(ahead.sentence())
                .startsWith("998 °C expected at ")
                .contains("if the elements are strong enough: that cannot be said yet.");
        assertThat(ahead.lines().get(0).value()).isEqualTo("No cone is down yet; aiming for cone 06 (998 °C)");
    }

    @Test
    void aTopThatNothingToldOfThePowerSpeaksForIsExpectedOnlyIfTheElementsCan() {
        Snapshot heating =
                heatingForecast(arrival(998, Reaches.CANNOT_SAY_YET, when(10.6, 10.8, 11), Optional.empty()));
        assertThat(Ahead.of(heating, ENGLISH).sentence())
                .startsWith("998 °C expected at ")
                .contains("if the elements are strong enough: that cannot be said yet.");
    }

    @Test
    void nearTheTopItSaysWhatTheWareHasHadAndWhatItIsToHave() {
        Ahead ahead = Ahead.of(SampleSnapshots.holdingForecast(), ENGLISH);
        assertThat(ahead.lines().get(0).value())
                .startsWith("So far like ")
                .contains("cone 0")
                .matches(".*, \\d+ to \\d+ by sensor and chart; .*")
                .endsWith("; aiming for cone 06 (998 °C)");
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
