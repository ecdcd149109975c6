package org.kilnside.host;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.Grade;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class SpeakerTest {
    private static final Words WORDS = Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH));

    @Test
    void aComputerWithoutASoundDeviceSaysSoAndNobodyWaits() throws Exception {
        Speaker speaker = new Speaker(
                () -> {
                    throw new IllegalStateException("there is no sound device");
                },
                WORDS);
        CountDownLatch done = new CountDownLatch(1);
        speaker.sound(Grade.COME_NOW, 1, done::countDown);
        assertThat(done.await(10, TimeUnit.SECONDS)).isTrue();
        assertThat(speaker.trouble()).hasValue("there is no sound device");
        speaker.close();
    }

    @Test
    void aDriverThatThrowsIsATroubleAndNoEnd() throws Exception {
        Speaker speaker = new Speaker(
                () -> {
                    throw new UnsupportedOperationException("driver");
                },
                WORDS);
        for (int i = 0; i < 2; i++) {
            CountDownLatch done = new CountDownLatch(1);
            speaker.sound(Grade.LOOK_SOON, 1, done::countDown);
            assertThat(done.await(10, TimeUnit.SECONDS)).isTrue();
            assertThat(speaker.trouble().orElseThrow()).contains("failed (driver)");
        }
        speaker.close();
    }

    @Test
    void whatSoundsIsLouderTheWorseItIsAndEveryGradeSoundsDifferent() {
        byte[] now = Sound.of(Grade.COME_NOW, 1);
        byte[] soon = Sound.of(Grade.LOOK_SOON, 1);
        byte[] good = Sound.of(Grade.GOOD_TO_KNOW, 1);
        assertThat(now.length).isGreaterThan(soon.length);
        assertThat(soon).isNotEqualTo(good);
        assertThat(peak(now)).isBetween(28_000, 32_767);
        assertThat(peak(Sound.of(Grade.COME_NOW, 0.4))).isLessThan(peak(Sound.of(Grade.COME_NOW, 0.6)));
        assertThat(peak(Sound.of(Grade.COME_NOW, 0))).isZero();
        assertThat(peak(Sound.of(Grade.COME_NOW, 7))).isEqualTo(peak(now));
    }

    @Test
    void everySoundIsHeardAtFrequenciesASmallSpeakerGives() {
        for (Grade grade : Grade.values()) {
            byte[] sound = Sound.of(grade, 1);
            int crossings = 0;
            int voiced = 0;
            short before = 0;
            for (int i = 0; i + 1 < sound.length; i += 2) {
                short now = (short) (sound[i] & 0xFF | sound[i + 1] << 8);
                crossings += before < 0 != now < 0 ? 1 : 0;
                voiced += now != 0 ? 1 : 0;
                before = now;
            }
            double hz = crossings / 2.0 / (voiced / (double) Sound.RATE);
            // From memory: small loudspeakers give little below 500 Hz.
            assertThat(hz).as(grade.name()).isBetween(500.0, 4_000.0);
        }
    }

    private static int peak(byte[] sound) {
        int peak = 0;
        for (int i = 0; i + 1 < sound.length; i += 2) {
            peak = Math.max(peak, Math.abs((short) (sound[i] & 0xFF | sound[i + 1] << 8)));
        }
        return peak;
    }
}
