package org.kilnside.tracking;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;

class FiringsApartTest {
    private static final long MINUTE_MS = 60_000;

    private final Trace.Builder curve = new Trace.Builder();
    private long atMs;
    private OptionalDouble output = OptionalDouble.empty();

    @Test
    void aCurveOfOneFiringStaysAsItIs() {
        firing(1000);
        Trace whole = curve.view();
        assertThat(FiringsApart.of(whole)).containsExactly(whole);
        assertThat(FiringsApart.of(Trace.EMPTY)).containsExactly(Trace.EMPTY);
    }

    @Test
    void aKilnLitAgainWhenItWasColdHasFiredTwiceAndTheSecondBeginsWhereItRises() {
        firing(1000);
        long secondMs = atMs;
        firing(1200);
        List<Trace> firings = FiringsApart.of(curve.view());
        assertThat(firings).hasSize(2);
        assertThat(firings.get(1).elapsedMs(0)).isBetween(secondMs - 2 * MINUTE_MS, secondMs + 2 * MINUTE_MS);
        assertThat(firings.get(0).size() + firings.get(1).size())
                .isEqualTo(curve.view().size());
    }

    @Test
    void dryingBeforeAFiringAndAfterItIsNoFiring() {
        firing(120);
        firing(1000);
        firing(90);
        assertThat(FiringsApart.of(curve.view())).hasSize(1);
        firing(1100);
        assertThat(FiringsApart.of(curve.view())).hasSize(2);
    }

    @Test
    void aKilnThatHasJustBeenLitAgainIsInItsNewestFiringWhereTheControllerSaysThatItHeats() {
        output = OptionalDouble.of(0);
        firing(1000);
        long secondMs = atMs;
        output = OptionalDouble.of(0.4);
        line(15, 130, 1);
        assertThat(FiringsApart.of(curve.view())).hasSize(1);
        assertThat(FiringsApart.newest(curve.view()).elapsedMs(0)).isBetween(secondMs - 2 * MINUTE_MS, secondMs);
        output = OptionalDouble.of(0);
        line(130, 30, 2);
        assertThat(FiringsApart.newest(curve.view()).elapsedMs(0)).isZero();
        assertThat(FiringsApart.newest(Trace.EMPTY)).isSameAs(Trace.EMPTY);
    }

    @Test
    void aLidShutAgainOverWarmWareIsNoNewestFiring() {
        firing(1000);
        line(30, 100, 2);
        assertThat(FiringsApart.newest(curve.view()).elapsedMs(0)).isZero();
    }

    @Test
    void heatThatComesBackToAHotKilnBelongsToTheSameFiring() {
        line(15, 1000, 8);
        line(1000, 500, 3);
        line(500, 1040, 4);
        line(1040, 30, 20);
        assertThat(FiringsApart.of(curve.view())).hasSize(1);
    }

    private void firing(double topC) {
        line(15, topC, 8);
        for (int minute = 0; minute < 20 * 60; minute++) {
            add(15 + (topC - 15) * Math.exp(-minute / 200.0));
        }
    }

    private void line(double fromC, double toC, double hours) {
        int minutes = (int) (hours * 60);
        for (int minute = 0; minute < minutes; minute++) {
            add(fromC + (toC - fromC) * minute / minutes);
        }
    }

    private void add(double celsius) {
        curve.add(atMs, celsius, output, OptionalDouble.empty());
        atMs += MINUTE_MS;
    }
}
