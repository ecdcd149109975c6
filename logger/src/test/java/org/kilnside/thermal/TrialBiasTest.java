package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Trace;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;
import org.kilnside.virtualkiln.Disturbance;
import org.kilnside.virtualkiln.Happenings;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Programs;

/** What is taken off for the model's usual error. Independent of the model: virtual and trial kilns nothing was set on. */
class TrialBiasTest {
    private static final double[] THRESHOLDS_C = {200, 120, 60};
    private static final long UNSEEN_SEED = 20_270_101;
    private static final int UNSEEN_FROM = 40_000;
    private static final int NEAR_SLABS_FROM = 60_000;

    private static FiringData data(Tried firing, double askedC) {
        return FiringData.of(Course.of(firing.until(firing.belowS(askedC), true)), OptionalDouble.of(firing.roomC()));
    }

    private static double[] bias(FiringData data, double... thresholdsC) {
        return TrialBias.of(data, KilnMemory.none(Optional.empty()).fit(data), thresholdsC);
    }

    private static List<Tried> kilns() {
        List<Tried> kilns = new ArrayList<>();
        for (int i = 0; i < 8; i++) {
            for (Population.Family family : List.of(Population.Family.values()).subList(0, 3)) {
                kilns.add(VirtualTrial.of(family, UNSEEN_SEED, i, 0, false));
            }
            kilns.add(TrialPopulation.of(Family.ORDINARY, UNSEEN_FROM + i, 1, Habit.FREE_COOLING)
                    .firings()
                    .get(0));
        }
        return kilns;
    }

    /** Sorted absolute errors of ln(remaining time). */
    private static double[] errors(List<Tried> kilns, double askedC, boolean whole) {
        return kilns.stream()
                .flatMapToDouble(kiln -> {
                    FiringData data = data(kiln, askedC);
                    List<FiringFit.Weighted> fits =
                            KilnMemory.none(Optional.empty()).fit(data);
                    Spread[] spreads = CoolingForecast.remaining(data, fits, THRESHOLDS_C, Optional.empty());
                    double[] bias = TrialBias.of(data, fits, THRESHOLDS_C);
                    double[] errors = new double[THRESHOLDS_C.length];
                    for (int i = 0; i < errors.length; i++) {
                        double truth = Math.log(kiln.belowS(THRESHOLDS_C[i]) - kiln.belowS(askedC));
                        errors[i] = Math.abs(spreads[i].mean() - (whole ? 0 : bias[i]) - truth);
                    }
                    return Arrays.stream(errors);
                })
                .sorted()
                .toArray();
    }

    @Test
    void bringsKilnsItHasNotSeenNearerToTheirTruth() {
        List<Tried> kilns = kilns();
        for (double askedC : new double[] {800, 600, 400}) {
            double[] with = errors(kilns, askedC, true);
            double[] without = errors(kilns, askedC, false);
            assertThat(Arrays.stream(with).sum())
                    .as("mean error asked at %.0f °C", askedC)
                    .isLessThan(0.93 * Arrays.stream(without).sum());
            int ninth = with.length * 9 / 10;
            assertThat(with[ninth]).as("the worst tenth at %.0f °C", askedC).isLessThan(1.05 * without[ninth]);
        }
    }

    /** What is taken off was learned of other kilns than these: taken whole it lays them 8 % too early (own trials). */
    @Test
    void aHotKilnThatIsNearlyTheModelsOwnIsNotLaidMuchTooEarly() {
        List<Judged.Kiln> plain = new ArrayList<>();
        for (int i = 0; i < 24; i++) {
            plain.add(new Judged.Kiln(
                    TrialPopulation.of(Family.PLAIN, NEAR_SLABS_FROM + i, 1, Habit.FREE_COOLING)
                            .firings()
                            .get(0),
                    KilnMemory.none(Optional.empty())));
        }
        double[] errors = Judged.of(plain, true, Judged.Room.TOLD).cases(800, 120).stream()
                .mapToDouble(Judged.Case::error)
                .sorted()
                .toArray();
        assertThat(errors[errors.length / 2]).isBetween(-0.07, 0.0);
    }

    @Test
    void neverMovesATimeByMoreThanThreeTenthsAndLeavesWhatIsNearAlone() {
        for (Tried kiln : kilns().subList(0, 8)) {
            for (double askedC : new double[] {1000, 800, 500, 150}) {
                if (askedC > kiln.peakC() - 50) {
                    continue;
                }
                double[] bias = bias(data(kiln, askedC), askedC - 1, askedC - 10, askedC / 2, 50);
                assertThat(bias[0]).isBetween(-0.005, 0.005);
                assertThat(bias[1]).isBetween(-0.03, 0.03);
                assertThat(bias[2]).isBetween(-0.27, 0.27);
                assertThat(bias[3]).isBetween(-0.27, 0.27);
            }
        }
    }

    @Test
    void aLowerTemperatureIsStillReachedLater() {
        double[] ladder = new double[60];
        for (int i = 0; i < ladder.length; i++) {
            ladder[i] = 790 * Math.pow(45.0 / 790, i / 59.0);
        }
        for (Tried kiln : kilns().subList(0, 8)) {
            FiringData data = data(kiln, 800);
            Spread[] remaining = CoolingForecast.remaining(
                    data, KilnMemory.none(Optional.empty()).fit(data), ladder, Optional.empty());
            for (int i = 1; i < ladder.length; i++) {
                assertThat(remaining[i].mean()).as("%.0f °C", ladder[i]).isGreaterThan(remaining[i - 1].mean());
            }
        }
    }

    @Test
    void saysNothingOfAKilnWhoseHeatingTheLogDoesNotShow() {
        VirtualTrial kiln = VirtualTrial.of(Population.Family.values()[0], UNSEEN_SEED, 0, 0, false);
        double from = kiln.belowS(700);
        Trace whole = kiln.until(kiln.belowS(300), true);
        Trace.Builder late = new Trace.Builder();
        for (int i = 0; i < whole.size(); i++) {
            if (whole.elapsedMs(i) >= from * 1000) {
                late.add(whole.elapsedMs(i), whole.temperatureC(i));
            }
        }
        assertThat(bias(FiringData.of(Course.of(late.view()), OptionalDouble.empty()), 120, 60))
                .containsOnly(0);
    }

    @Test
    void saysNothingOfAnOpenedKiln() {
        VirtualTrial kiln = VirtualTrial.glaze(
                Population.Family.values()[0],
                2,
                Programs.glaze(1200, 70),
                Double.POSITIVE_INFINITY,
                Disturbance.falling(300, Happenings.bung(1)));
        FiringData data =
                FiringData.of(Course.of(kiln.until(kiln.belowS(300) + 5400, true)), OptionalDouble.of(kiln.roomC()));
        assertThat(data.openedNow()).isTrue();
        assertThat(bias(data, 120, 60)).containsOnly(0);
    }

    @Test
    void saysNothingWhileTheElementsStillLeadItDown() {
        TrialFiring slow = TrialPopulation.of(Family.BRICK, 1, 1, Habit.SLOW_COOLING)
                .firings()
                .get(0);
        FiringData data = data(slow, 950);
        assertThat(data.phases.drivenNow()).isTrue();
        assertThat(bias(data, 120, 60)).containsOnly(0);
    }

    @Test
    void leavesFibreThatIsCalledSoToTheModel() {
        VirtualTrial kiln = VirtualTrial.of(Population.Family.values()[3], UNSEEN_SEED, 0, 0, false);
        FiringData data = data(kiln, 600);
        List<FiringFit.Weighted> fits =
                KilnMemory.none(Optional.of(WallKind.FIBRE)).fit(data);
        assertThat(TrialBias.of(data, fits, THRESHOLDS_C)).containsOnly(0);
    }

    /** Its walls are soaked as those of no kiln were that it was set on; trial bricks asked at 600 °C came out 6 % too late by it. */
    @Test
    void saysNothingOfAKilnThatWasLedDownFromItsTop() {
        Tried led = TrialPopulation.of(Family.BRICK, UNSEEN_FROM, 1, Habit.SLOW_COOLING)
                .firings()
                .get(0);
        FiringData data = data(led, 600);
        assertThat(DrivenFall.lastedS(data.course, data.phases)).isGreaterThan(3600);
        assertThat(TrialBias.of(data, KilnMemory.none(Optional.empty()).fit(data), THRESHOLDS_C))
                .containsOnly(0);
    }
}
