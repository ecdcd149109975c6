package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.wording.Futures.ENGLISH;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmEntry;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.WallClockLine;

/** Alarms said to a potter, as the book holds them. The firing began at 7:30 on the wall at Rook Lane. */
class AlarmWordsTest {
    private static final Moments BY_THE_CLOCK =
            Moments.of(Optional.of(WallClockLine.from(SampleSnapshots.BEGAN)), 1, ENGLISH);

    private static String line(String entry) {
        return new AlarmWords(ENGLISH, BY_THE_CLOCK)
                .line(AlarmEntry.parse(entry).orElseThrow());
    }

    private static String happened(String entry, Words words, Moments moments) {
        return new StateWords(words)
                .event(FiringEvent.of(0, FiringEvent.Kind.ALARM_RAISED, entry), moments)
                .replace('\u00a0', ' ');
    }

    /** What is worked out of the future was seen by nobody. */
    @Test
    void theAlarmOfAWeakKilnSaysWhereItTopsOutAndNotThatItWasSeen() {
        assertThat(line("will-not-reach-top-1 look-soon since=0s seen=1190.0C expected=1222.0C"))
                .endsWith(": tops out near 1190 °C, planned 1222 °C");
    }

    @Test
    void newsOfWareUnderAnOpenLidIsTheModelsAndNotSeen() {
        assertThat(line("below-lid-threshold-1 good-to-know since=0s"))
                .endsWith(": by the model, as the sensor reads air");
    }

    @Test
    void whatHasMovedIsNamedWithItsTimesNowAndBefore() {
        String lid = "forecast-moved-1 good-to-know since=54000s seen=<120.0C@110700s..112980s"
                + " expected=<120.0C@113460s..115380s";
        assertThat(happened(lid, ENGLISH, BY_THE_CLOCK))
                .isEqualTo("Below 120 °C is now expected Thu 14:15–14:53 instead of 15:01–15:33");
        assertThat(line(lid))
                .startsWith("Below 120 °C is now expected Thu")
                .endsWith(" instead of 15:01–15:33 (good to know)");
        String top =
                "forecast-moved-1 good-to-know since=18000s seen=>1210.0C@39600s..41400s expected=>1210.0C@36000s..36600s";
        assertThat(happened(top, ENGLISH, BY_THE_CLOCK))
                .isEqualTo("1210 °C is now expected 18:30–19:00 instead of 17:30–17:40");
        Moments noClock = Moments.of(Optional.empty(), 1, ENGLISH);
        assertThat(happened(top, ENGLISH, noClock))
                .isEqualTo("1210 °C is now expected 11:00 h–11:30 h instead of 10:00 h–10:10 h");
        Words dutch = Futures.words(Language.DUTCH, Opening.LID);
        assertThat(happened(lid, dutch, Moments.of(Optional.of(WallClockLine.from(SampleSnapshots.BEGAN)), 1, dutch)))
                .isEqualTo("Onder 120 °C wordt nu verwacht do 14:15–14:53 in plaats van 15:01–15:33");
    }

    /** Earlier versions wrote the likeliest moment, and not what of. */
    @Test
    void whatAnOlderBookSaysHasMovedHasItsTimesOfDayToo() {
        String old = "forecast-moved-1 good-to-know since=54000s seen=110700s expected=113460s";
        assertThat(happened(old, ENGLISH, BY_THE_CLOCK))
                .isEqualTo("What is to come has moved: now expected about Thu 14:15 instead of 15:01");
    }
}
