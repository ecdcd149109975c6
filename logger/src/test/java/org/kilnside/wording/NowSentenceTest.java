package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.wording.SampleSnapshots.HOST_MS;

import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.session.Connection;
import org.kilnside.session.Snapshot;
import org.kilnside.tracking.PlanPosition;

class NowSentenceTest {
    private static final Preferences METRIC = new Preferences(
            TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("Europe/Amsterdam"), Opening.LID);

    private final Words english = Words.of(Language.ENGLISH, METRIC);

    @Test
    void aRampSaysWhereToAndHowFarBehind() {
        assertThat(said(SampleSnapshots.heating())).isEqualTo("Heating to 600 °C, 6 minutes behind the plan.");
    }

    @Test
    void theOtherLanguagesSayTheSame() {
        assertThat(NowSentence.of(SampleSnapshots.heating(), HOST_MS, Words.of(Language.DUTCH, METRIC))
                        .text())
                .isEqualTo("Stookt naar 600 °C, 6 minuten achter op het plan.");
        assertThat(NowSentence.of(SampleSnapshots.heating(), HOST_MS, Words.of(Language.GERMAN, METRIC))
                        .text())
                .isEqualTo("Heizt auf 600 °C, 6 Minuten hinter dem Plan.");
    }

    @Test
    void aMinuteOrSoIsOnThePlan() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.behind = Optional.of(Duration.ofSeconds(-70));
        assertThat(said(moment.build())).isEqualTo("Heating to 600 °C, on the plan.");
        moment.behind = Optional.of(Duration.ofMinutes(-80));
        assertThat(said(moment.build())).isEqualTo("Heating to 600 °C, 1 hour 20 minutes ahead of the plan.");
    }

    @Test
    void aHoldSaysWhatIsLeft() {
        assertThat(said(SampleSnapshots.holding()))
                .isEqualTo("Holding at 998 °C, 12 minutes left, 6 minutes behind the plan.");
    }

    @Test
    void coolingSaysHowWarmAndHowFast() {
        assertThat(said(SampleSnapshots.cooling())).matches("Cooling, \\d+ °C, falling \\d+ °C/h\\.");
    }

    /** Joined hot and falling, it was said to heat until five minutes had been seen. */
    @Test
    void ofAWarmKilnJustJoinedNobodyKnowsYetWhetherItHeats() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.minutes = 20;
        moment.segment = 1;
        moment.leg = PlanPosition.Leg.WAITING;
        assertThat(moment.build().stage()).isEqualTo(Snapshot.Stage.HEATING);
        assertThat(said(moment.build())).endsWith(": whether it heats or cools cannot be told yet.");
        assertThat(Ahead.of(moment.workedOut().build(), english).sentence()).isEmpty();
    }

    @Test
    void withoutAPlanTheRateTellsTheStory() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.plan = Optional.empty();
        assertThat(said(moment.build())).matches("Heating, \\d+ °C, rising \\d+ °C/h\\.");
    }

    @Test
    void aKilnThatHasNoMoreToGiveStandsStillAtFullOutput() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.plan = Optional.empty();
        moment.minutes = 175;
        assertThat(said(moment.build())).matches("Heating, \\d+ °C, standing still\\.");
        moment.outputPercent = 100;
        assertThat(said(moment.build())).matches("Heating, \\d+ °C, standing still at full output\\.");
    }

    @Test
    void anOldReadingIsNeverShownAsIfItWereLive() {
        NowSentence sentence = NowSentence.of(SampleSnapshots.heating(), HOST_MS + 240_000, english);
        assertThat(sentence.text()).isEqualTo("No reading for 4 min.");
        assertThat(sentence.tone()).isEqualTo(NowSentence.Tone.BLIND);
    }

    @Test
    void whyNoReadingComesIsSaidWithIt() {
        SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
        moment.connection = Connection.State.LOST;
        assertThat(NowSentence.of(moment.build(), HOST_MS + 240_000, english).text())
                .isEqualTo("No reading for 4 min: the controller is disconnected.");
        moment.connection = Connection.State.SILENT;
        assertThat(NowSentence.of(moment.build(), HOST_MS + 240_000, english).text())
                .isEqualTo("No reading for 4 min, though the cable is in.");
    }

    @Test
    void tenSecondsAreStillLiveAndElevenAreNot() {
        assertThat(NowSentence.of(SampleSnapshots.heating(), HOST_MS + 10_000, english)
                        .tone())
                .isEqualTo(NowSentence.Tone.CALM);
        assertThat(NowSentence.of(SampleSnapshots.heating(), HOST_MS + 11_000, english)
                        .text())
                .isEqualTo("No reading for 11 s.");
    }

    @Test
    void aBrokenSensorIsSaidInAPottersWords() {
        NowSentence sentence = NowSentence.of(SampleSnapshots.faulted(), HOST_MS, english);
        assertThat(sentence.text()).isEqualTo("No temperature: the thermocouple or its wire is broken or loose.");
        assertThat(sentence.tone()).isEqualTo(NowSentence.Tone.BLIND);
    }

    @Test
    void aDelayedStartWaits() {
        assertThat(said(SampleSnapshots.waiting())).isEqualTo("Waiting to start. 14 °C in the kiln.");
    }

    @Test
    void anEndedFiringIsNotSilence() {
        NowSentence sentence = NowSentence.of(SampleSnapshots.ended(), HOST_MS + 3_600_000, english);
        assertThat(sentence.text()).startsWith("The firing has ended. The last reading was ");
        assertThat(sentence.tone()).isEqualTo(NowSentence.Tone.CALM);
    }

    @Test
    void beforeTheFirstReadingTheCableIsTheStory() {
        assertThat(said(SampleSnapshots.nothingYet(Connection.State.CONNECTING)))
                .isEqualTo("Waiting for the controller's first reading.");
        assertThat(NowSentence.of(SampleSnapshots.nothingYet(Connection.State.SILENT), HOST_MS + 30_000, english)
                        .text())
                .isEqualTo("The cable is in, but no reading has come for 30 s.");
        assertThat(said(SampleSnapshots.nothingYet(Connection.State.LOST)))
                .startsWith("The controller is not connected.");
    }

    @Test
    void everyStageAndConnectionHasASentenceInEveryLanguage() {
        for (Language language : Language.values()) {
            Words words = Words.of(language, METRIC);
            for (Connection.State state : Connection.State.values()) {
                for (Snapshot.Stage stage : Snapshot.Stage.values()) {
                    SampleSnapshots.Moment moment = new SampleSnapshots.Moment();
                    moment.stage = stage;
                    moment.connection = state;
                    moment.stepSeconds = 600;
                    assertThat(NowSentence.of(moment.build(), HOST_MS, words).text())
                            .endsWith(".")
                            .doesNotContain("{");
                }
                assertThat(NowSentence.of(SampleSnapshots.nothingYet(state), HOST_MS, words)
                                .text())
                        .endsWith(".")
                        .doesNotContain("{");
            }
        }
    }

    /** An alarm that takes the number's word away stands longer than what raised it: so long no sentence is calm. */
    @Test
    void aSensorThatSlippedIsNotFollowedByThePlanHoweverWellTheNumberClimbs() {
        Alarm slipped = new Alarm(
                "1",
                AlarmKind.SENSOR_SLIPPED,
                AlarmKind.SENSOR_SLIPPED.grade(),
                Alarm.State.ACKNOWLEDGED,
                0,
                0,
                1,
                Optional.empty(),
                Optional.empty(),
                OptionalLong.of(0),
                OptionalLong.empty());
        NowSentence sentence = NowSentence.of(SampleSnapshots.heating().withAlarms(List.of(slipped)), HOST_MS, english);
        assertThat(sentence.tone()).isEqualTo(NowSentence.Tone.BLIND);
        assertThat(sentence.text()).startsWith("Do not trust this number: the sensor slipped out or is shorted.");
    }

    private String said(Snapshot snapshot) {
        return NowSentence.of(snapshot, HOST_MS, english).text();
    }
}
