package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.kilnside.thermal.Forecast.When;

class TenseTest {
    private static final double ASKED_S = 36_000;

    private static Tense tense(double atS, double nowS) {
        return Tense.of(new When(atS, atS, atS), ASKED_S, nowS);
    }

    @Test
    void whatTheForecastRestsOnIsPast() {
        assertThat(tense(35_990, 36_000)).isEqualTo(Tense.PAST);
        assertThat(tense(36_000, 36_000)).isEqualTo(Tense.PAST);
    }

    @Test
    void whatIsWithinAMinuteOfTheNewestReadingIsAboutNow() {
        assertThat(tense(36_020, 36_030)).isEqualTo(Tense.ABOUT_NOW);
        assertThat(tense(36_080, 36_030)).isEqualTo(Tense.ABOUT_NOW);
    }

    @Test
    void whatANewerReadingHasLeftBehindIsPastThoughNobodySawIt() {
        assertThat(tense(36_100, 36_200)).isEqualTo(Tense.PAST);
    }

    @Test
    void whatIsFurtherOnIsAhead() {
        assertThat(tense(36_200, 36_000)).isEqualTo(Tense.AHEAD);
    }

    @Test
    void beforeLightingAllIsAhead() {
        assertThat(Tense.of(new When(100, 90, 110), 0, Double.NEGATIVE_INFINITY))
                .isEqualTo(Tense.AHEAD);
    }
}
