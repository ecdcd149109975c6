package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.wording.SampleSnapshots.HOST_MS;

import java.time.Duration;
import java.time.ZoneId;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.FiringEvent;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Segment;
import org.kilnside.session.Connection;
import org.kilnside.session.Snapshot;
import org.kilnside.tracking.PlanPosition;

class StateWordsTest {
    private static final Preferences METRIC = new Preferences(
            TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID);
    private static final Moments ANY_TIME = Moments.of(Optional.empty(), 1, Words.of(Language.ENGLISH, METRIC));
    private final StateWords words = new StateWords(Words.of(Language.ENGLISH, METRIC));

    @Test
    void aSegmentIsCountedAndSaysItsAim() {
        Snapshot snapshot = SampleSnapshots.heating();
        assertThat(words.segment(snapshot.position().orElseThrow())).isEqualTo("Segment 2 of 4");
        assertThat(words.segmentAim(snapshot.plan(), snapshot.position().orElseThrow()))
                .containsExactly("100 °C/h to 600 °C");
        assertThat(words.segment(SampleSnapshots.BISQUE.segments().get(2)))
                .isEqualTo("150 °C/h to 998 °C, hold 15 min");
        assertThat(words.segment(
                        new Segment.Ramp(HeatingRate.ofKelvinPerHour(0.1), Temperature.ofCelsius(60), Duration.ZERO)))
                .isEqualTo("0.1 °C/h to 60 °C");
        assertThat(words.segment(SampleSnapshots.BISQUE.segments().get(3))).isEqualTo("cool by itself");
    }

    @Test
    void heatThatEndedEarlyIsSaidToHaveEndedInItsSegment() {
        PlanPosition through = SampleSnapshots.cooling().position().orElseThrow();
        assertThat(words.segment(through)).isEqualTo("Segment 4 of 4");
        PlanPosition early = new PlanPosition(
                4,
                4,
                through.leg(),
                through.knownFrom(),
                through.planned(),
                through.deviation(),
                through.behind(),
                through.holdLeft(),
                OptionalInt.of(2),
                through.top(),
                through.aligned());
        assertThat(words.segment(early)).isEqualTo("Segment 2 of 4");
        assertThat(words.segmentAim(SampleSnapshots.cooling().plan(), early))
                .containsExactly("the heat ended in it", "cooling by itself");
    }

    @Test
    void theControllersOwnNumberIsSaidOnlyWhereItIsAnother() {
        Snapshot.Latest plain = SampleSnapshots.heating().latest().orElseThrow();
        Temperature truth = plain.temperature().orElseThrow();
        assertThat(words.shown(plain)).isEmpty();
        assertThat(words.shown(showing(plain, truth.celsius() - 0.4))).isEmpty();
        assertThat(words.shown(showing(plain, 1222))).hasValue("the controller shows 1222 °C");
    }

    @Test
    void goodNewsIsNoAlarmAndBadNewsIs() {
        FiringEvent news = FiringEvent.of(
                0,
                FiringEvent.Kind.ALARM_RAISED,
                "below-lid-threshold-1 good-to-know since=0s seen=120.0C expected=120.0C");
        assertThat(words.event(news, ANY_TIME))
                .doesNotContain("Alarm", "expected")
                .endsWith("seen 120 °C");
        assertThat(words.isTrouble(news)).isFalse();
        FiringEvent bad = FiringEvent.of(
                0, FiringEvent.Kind.ALARM_RAISED, "stuck-relay-1 come-now since=0s seen=1012.0C expected=1000.0C");
        assertThat(words.event(bad, ANY_TIME)).startsWith("Alarm").contains("come now", "expected 1000 °C");
        assertThat(words.isTrouble(bad)).isTrue();
    }

    private static Snapshot.Latest showing(Snapshot.Latest plain, double celsius) {
        return new Snapshot.Latest(
                plain.elapsedMs(),
                plain.hostMs(),
                plain.temperature(),
                Optional.of(Temperature.ofCelsius(celsius)),
                plain.coldJunction(),
                plain.faults(),
                plain.controller(),
                plain.outlier(),
                plain.staleAfterMs());
    }

    /** Nothing is found again that was never there. */
    @Test
    void whereNobodyHasRecordedTheConnectionSaysThatAndNoMore() {
        Connection nobody = new Connection(
                Connection.State.LOST, HOST_MS - 180_000, Optional.of("Nobody records."), Connection.Counts.NONE);
        assertThat(words.connection(Snapshot.before(Optional.empty(), nobody), HOST_MS))
                .isEqualTo("Nobody records.");
        Snapshot firing = SampleSnapshots.heating();
        assertThat(words.connection(firing.with(nobody, firing.latest(), firing.curve()), HOST_MS))
                .startsWith("Disconnected for 3 min");
    }

    @Test
    void theBookSaysUpToWhenItIsWritten() {
        Snapshot snapshot = SampleSnapshots.heating();
        assertThat(words.book(snapshot.disk(), snapshot.startedAt(), 1)).isEqualTo("In the book up to 13:46:59.");
    }

    @Test
    void troubleWithTheBookIsPassedOn() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.bookTrouble = Optional.of("the disk is full.");
        Snapshot snapshot = moment.build();
        assertThat(words.book(snapshot.disk(), snapshot.startedAt(), 1))
                .isEqualTo("Not in the book: the disk is full.");
    }

    @Test
    void spoiltLinesAreCountedWhereAnyCame() {
        Connection clean = new Connection(
                Connection.State.RECEIVING, 0, Optional.empty(), new Connection.Counts(4_500, 2, 0, 0, 7, 300_000));
        Connection spoilt = new Connection(
                Connection.State.RECEIVING, 0, Optional.empty(), new Connection.Counts(4_500, 2, 3, 9, 7, 300_000));
        assertThat(words.connection(clean, 0)).isEqualTo("Readings are coming.");
        assertThat(words.connection(spoilt, 0)).isEqualTo("Readings are coming. 12 of 4512 lines came spoilt.");
    }

    @Test
    void aLostCableSaysSinceWhenAndWhatToDo() {
        Connection lost = new Connection(
                Connection.State.LOST, HOST_MS - 120_000, Optional.of("Look at the plug."), Connection.Counts.NONE);
        assertThat(words.connection(lost, HOST_MS))
                .isEqualTo("Disconnected for 2 min; it will be found again by itself. Look at the plug.");
    }

    @Test
    void anEventIsItsKindAndItsText() {
        assertThat(words.event(FiringEvent.of(0, FiringEvent.Kind.NOTE, "Bung out"), ANY_TIME))
                .isEqualTo("Note: Bung out");
        assertThat(words.event(FiringEvent.of(0, FiringEvent.Kind.HOLD_BEGAN), ANY_TIME))
                .isEqualTo("Hold began");
    }

    @Test
    void nothingThatIsNoRealKilnLooksLikeOne() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.stepSeconds = 600;
        assertThat(words.notReal(moment.build())).isEmpty();
        moment.link = "virtual:Tall Drum?speed=600";
        moment.speed = 600;
        assertThat(words.notReal(moment.build())).contains("Virtual kiln, 600 times faster. No real kiln is hot.");
        moment.link = "replay:bisque.txt";
        moment.speed = 1;
        assertThat(words.notReal(moment.build())).contains("Replay of an earlier firing. This is not now.");
    }

    @Test
    void timesOfASpedUpFiringCountFromItsBegin() {
        assertThat(words.moment(33_000_000, Optional.of(SampleSnapshots.BEGAN), 600))
                .isEqualTo("9:10 h");
        assertThat(words.moment(33_000_000, Optional.of(SampleSnapshots.BEGAN), 1))
                .isEqualTo("16:40");
    }

    @Test
    void theCautionsDeferToMakerCodeAndElectrician() {
        for (Language language : Language.values()) {
            Cautions cautions = Cautions.of(Words.of(language, METRIC));
            assertThat(cautions.cautions()).hasSize(11).allSatisfy(caution -> {
                assertThat(caution.text()).doesNotContain("{").hasSizeGreaterThan(30);
            });
        }
        Cautions english = Cautions.of(Words.of(Language.ENGLISH, METRIC));
        assertThat(english.introduction()).contains("kiln maker's", "local code", "licensed electrician");
        assertThat(english.cautions().get(3).text()).contains("200 °C", "120 °C", "50 °C");
    }
}
