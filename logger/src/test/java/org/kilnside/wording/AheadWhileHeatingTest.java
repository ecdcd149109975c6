package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.wording.Futures.ENGLISH;
import static org.kilnside.wording.Futures.arrival;
import static org.kilnside.wording.Futures.below;
import static org.kilnside.wording.Futures.celsius;
import static org.kilnside.wording.Futures.heating;
import static org.kilnside.wording.Futures.heatingForecast;
import static org.kilnside.wording.Futures.topsOut;
import static org.kilnside.wording.Futures.when;
import static org.kilnside.wording.Futures.with;
import static org.kilnside.wording.Futures.words;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.quantity.Interval;
import org.kilnside.session.ConeDown;
import org.kilnside.session.Findings;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast.Below;
import org.kilnside.thermal.Forecast.Reaches;

/** What the ware has had and what is to come while it heats, said to a potter. */
class AheadWhileHeatingTest {
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

    private static Snapshot aimed(Snapshot snapshot, ConeDown aimed) {
        LiveForecast live = snapshot.findings().forecast().orElseThrow();
        LiveForecast with = new LiveForecast(
                live.askedMs(),
                live.thresholds(),
                live.forecast(),
                live.fan(),
                live.cone(),
                Optional.of(aimed),
                live.failure());
        return snapshot.with(
                snapshot.connection(),
                snapshot.latest(),
                snapshot.curve(),
                snapshot.findings().with(Optional.of(with)));
    }

    /** Who waits for a number that does not come waits for the cone. */
    @Test
    void aKilnThatTopsOutUnderItsTopIsGivenTheTimeOfItsCone() {
        Cone six = Cone.find("06").orElseThrow();
        Snapshot weak = heatingForecast(arrival(1222, Reaches.NO, Optional.empty(), topsOut(1190, 1180, 1200)));
        long hourMs = 3_600_000;
        ConeDown.When known = new ConeDown.When(10 * hourMs, 9 * hourMs, OptionalLong.of(12 * hourMs));
        assertThat(Ahead.of(aimed(weak, new ConeDown(six, Optional.of(known), Optional.empty())), ENGLISH)
                        .sentence())
                .startsWith("At this pace it tops out near 1190 °C")
                .endsWith("Cone 06 (998 °C) expected at 17:30 (16:30–19:30, nine in ten).");
        ConeDown.When open = new ConeDown.When(10 * hourMs, 9 * hourMs, OptionalLong.empty());
        assertThat(Ahead.of(aimed(weak, new ConeDown(six, Optional.of(open), Optional.empty())), ENGLISH)
                        .sentence())
                .endsWith("Cone 06 (998 °C) expected at 17:30, not before 16:30; the firing may fall short of it"
                        + " (nine in ten).");
        ConeDown never = new ConeDown(six, Optional.empty(), Optional.of(ConeDown.WhyNot.NOT_ON_ITS_WAY));
        assertThat(Ahead.of(aimed(weak, never), ENGLISH).sentence())
                .endsWith("Cone 06 (998 °C) does not come at that, not within twelve hours.");
        ConeDown unknown = new ConeDown(six, Optional.empty(), Optional.of(ConeDown.WhyNot.WAY_NOT_KNOWN));
        assertThat(Ahead.of(aimed(weak, unknown), ENGLISH).sentence())
                .endsWith("When cone 06 (998 °C) is down cannot be said yet.");
    }

    private static Snapshot withExpected(Snapshot snapshot) {
        LiveForecast live = snapshot.findings().forecast().orElseThrow();
        ConePosition eight = ConePosition.at(Cone.find("8").orElseThrow());
        LiveForecast.ExpectedCone expected = new LiveForecast.ExpectedCone(eight, new Interval<>(eight, eight, 0.9));
        LiveForecast with = new LiveForecast(
                live.askedMs(),
                live.thresholds(),
                live.forecast(),
                live.fan(),
                Optional.of(expected),
                live.aimed(),
                live.failure());
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

    @Test
    void thePlansConeIsExpectedAtATimeAndNeverWithoutItsTemperature() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.minutes = 640;
        moment.segment = 3;
        Ahead ahead = Ahead.of(moment.workedOut().build(), ENGLISH);
        assertThat(ahead.sentence().replace('\u00a0', ' '))
                .matches(
                        "Cone 06 \\(998 °C\\) expected at 18:\\d\\d"
                                + "(, not before 18:\\d\\d; the firing may fall short of it| \\(18:\\d\\d–18:\\d\\d,) ?\\(?nine in ten\\)\\.");
        assertThat(ahead.lines().get(0).value()).endsWith("; aiming for cone 06 (998 °C)");
        assertThat(ahead.lines())
                .as("the range of what it comes to is never lost")
                .extracting(Ahead.Line::value)
                .anySatisfy(line -> assertThat(line).startsWith("Comes to cone 06 (998 °C), 06 to 05"));
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
}
