package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.files.KilnFiles;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.SensorUncertainty;

/** The cone so far, doubts about the sensor and the forecast, as the session hands them out. */
class FindingsTest {
    private static final Schedule GLAZE = new Schedule(
            "Glaze",
            List.of(
                    new Segment.Ramp(HeatingRate.ofKelvinPerHour(200), Temperature.ofCelsius(1100), Duration.ZERO),
                    new Segment.FreeCooling()));

    private final FiringSettings settings = FiringSettings.of(Optional.empty(), Optional.of(GLAZE), Optional.empty());
    private final HandFiring firing = new HandFiring(settings);
    private final HandClock clock = firing.clock;
    private final FiringWatch watch = firing.watch;
    private final List<ForecastRequest> asked = new ArrayList<>();

    /** A reading, ten seconds of kiln and host after the last; questions are kept, and not answered. */
    private void reads(double celsius) {
        reads(celsius, 10_000);
    }

    private void reads(double celsius, long hostMs) {
        clock.forwardMs(hostMs);
        firing.uptimeMs += 10_000;
        firing.reads(celsius);
        watch.takeForecastRequest().ifPresent(asked::add);
    }

    private void ramp(double fromC, double toC, double kelvinPerHour) {
        int steps = (int) (Math.abs(toC - fromC) / kelvinPerHour * 360);
        for (int i = 1; i <= steps; i++) {
            reads(fromC + (toC - fromC) * i / steps);
        }
    }

    private Findings findings() {
        return watch.snapshot().findings();
    }

    private static LiveForecast answer(ForecastRequest request) {
        return LiveForecast.failed(request, "asked at " + request.askedMs());
    }

    @Test
    void theConeSoFarIsThatOfTheCurveSoFar() {
        ramp(20, 1100, 200);
        Snapshot snapshot = watch.snapshot();
        ConeReached whole = HeatWork.of(ConeTable.of(ConeSeries.SELF_SUPPORTING), snapshot.curve())
                .reached(SensorUncertainty.UNKNOWN);
        assertThat(snapshot.findings().cone()).hasValue(whole);
        assertThat(whole.isBelowScale()).isFalse();
        assertThat(whole.between().from()).isLessThan(whole.cone());
        assertThat(whole.between().to()).isGreaterThan(whole.cone());
    }

    @Test
    void theConeIsOfTheKindThatStandsInTheKilnAndStaysSoWhenTheFiringIsGoneOnWith() {
        HandFiring small = new HandFiring(settings.knowing(having(ConeSeries.SMALL)));
        FiringWatch watched = small.watch;
        for (int i = 0; i <= 1_900; i++) {
            small.readsAfter(10_000, 20 + i / 1.8);
        }
        ConeReached cone = watched.snapshot().findings().cone().orElseThrow();
        assertThat(cone.series()).isEqualTo(ConeSeries.SMALL);
        assertThat(cone)
                .isEqualTo(HeatWork.of(
                                ConeTable.of(ConeSeries.SMALL),
                                watched.snapshot().curve())
                        .reached(SensorUncertainty.UNKNOWN));
        assertThat(watched.takeForecastRequest().orElseThrow().work().table().series())
                .isEqualTo(ConeSeries.SMALL);
        assertThat(small.book.starts.get(0).series()).isEqualTo(ConeSeries.SMALL);

        // Meanwhile somebody says that the kiln has large ones: from the next firing on.
        FiringWatch second = small.run(small.leftBehind(), settings.knowing(having(ConeSeries.LARGE)));
        second.resume();
        assertThat(second.snapshot().findings().cone()).hasValue(cone);
    }

    private static Kiln having(ConeSeries series) {
        return KilnFiles.parse("name = \"Tall Drum\"\nseries = \"" + series.word() + "\"", "kiln.toml");
    }

    @Test
    void anOutlierBendsNoCone() {
        ramp(20, 900, 200);
        ConeReached before = findings().cone().orElseThrow();
        for (int i = 0; i < 3; i++) {
            reads(1372);
        }
        ramp(900, 901, 60);
        assertThat(findings().cone().orElseThrow().peak().celsius()).isLessThan(902);
        assertThat(before.cone().stepsTo(findings().cone().orElseThrow().cone()).orElseThrow())
                .isLessThan(0.4);
    }

    @Test
    void aFiringReplayedFromTheBookHasTheSameConeToTheBit() {
        ramp(20, 1000, 200);
        reads(1372);
        ramp(1000, 1010, 100);
        FiringWatch second = firing.run(firing.leftBehind());
        second.resume();
        assertThat(second.snapshot().findings().cone())
                .isPresent()
                .isEqualTo(watch.snapshot().findings().cone());
    }

    @Test
    void whenAGapIsFilledTheConeIsThatOfTheWholeCurve() {
        ramp(20, 1000, 200);
        long lostFrom = firing.uptimeMs;
        firing.step(3_600_000);
        reads(1050);
        ConeReached across = findings().cone().orElseThrow();
        assertThat(across.gaps()).isGreaterThan(Duration.ofMinutes(55));
        for (int part = 1; part < 120; part++) {
            double celsius = part < 60 ? 1000 + part * 1.5 : 1090 - part * 0.5;
            watch.reading(Arrivals.kept(lostFrom + part * 30_000L, clock.monotonicMs(), celsius));
        }
        clock.forwardMs(2_000);
        watch.lookRound();
        ConeReached filled = HeatWork.of(
                        ConeTable.of(ConeSeries.SELF_SUPPORTING),
                        watch.snapshot().curve())
                .reached(SensorUncertainty.UNKNOWN);
        assertThat(findings().cone().orElseThrow().cone().steps().orElseThrow())
                .isCloseTo(filled.cone().steps().orElseThrow(), org.assertj.core.api.Assertions.within(0.03))
                .isGreaterThan(across.cone().steps().orElseThrow());
        assertThat(findings().cone().orElseThrow().gaps()).isZero();
    }

    @Test
    void aNumberThatDoesNotMoveIsDoubtedAndTheConeAndTheForecastAreWithdrawn() {
        ramp(20, 900, 200);
        ForecastRequest last = asked.get(asked.size() - 1);
        watch.forecast(last, answer(last));
        assertThat(findings().forecast()).isPresent();
        for (int i = 0; i < 300; i++) {
            reads(900);
        }
        assertThat(watch.snapshot().distrusting().orElseThrow().kind()).isEqualTo(AlarmKind.SENSOR_FROZEN);
        assertThat(findings().cone()).isEmpty();
        assertThat(findings().forecast()).isEmpty();
        ramp(900, 910, 200);
        // The alarm waits for some calm before it believes the sensor again; the cone waits with it.
        ramp(910, 960, 200);
        assertThat(findings().cone()).isPresent();
    }

    @Test
    void aForecastIsAskedOnceAMinuteOfTheKilnsTime() {
        for (int i = 0; i < 360; i++) {
            reads(12 + i * 0.5);
        }
        int before = asked.size();
        for (int i = 0; i < 60; i++) {
            reads(192 + i * 0.5);
        }
        assertThat(asked.size() - before).isEqualTo(10);
        ForecastRequest newest = asked.get(asked.size() - 1);
        assertThat(newest.plan()).hasValue(GLAZE);
        assertThat(newest.ahead().orElseThrow()).isNotEmpty().allMatch(corner -> corner.elapsedMs() > newest.askedMs());
        assertThat(newest.thresholds().crack().celsius()).isEqualTo(120);
    }

    @Test
    void aSpedUpKilnIsForecastNoMoreThanOnceASecondOfTheHost() {
        for (int i = 0; i < 360; i++) {
            reads(12 + i * 0.5);
        }
        int before = asked.size();
        for (int i = 0; i < 600; i++) {
            reads(192 + i * 0.5, 10);
        }
        assertThat(asked.size() - before).isBetween(5, 7);
    }

    @Test
    void theNewestAnswerIsShownUntilTheNextAndAnOldCoursesNever() {
        ramp(20, 400, 200);
        ForecastRequest request = asked.get(asked.size() - 1);
        watch.forecast(request, answer(request));
        assertThat(findings().forecast().orElseThrow().askedMs()).isEqualTo(request.askedMs());
        watch.firingEnds();
        assertThat(findings().forecast()).isEmpty();
    }

    @Test
    void anAnswerAboutTheCurveBeforeAGapWasFilledIsThrownAway() {
        ramp(20, 400, 200);
        long lostFrom = firing.uptimeMs;
        firing.step(600_000);
        reads(440);
        ForecastRequest request = asked.get(asked.size() - 1);
        watch.reading(Arrivals.kept(lostFrom + 300_000, clock.monotonicMs(), 417));
        clock.forwardMs(2_000);
        watch.lookRound();
        watch.forecast(request, answer(request));
        assertThat(findings().forecast()).isEmpty();
    }

    @Test
    void anotherProbeIsWatchedAnew() {
        WareWatch ware = new WareWatch(SensorInPlace.asSaid(Probe.UNKNOWN), ConeSeries.USUAL);
        Probe other = new Probe(org.kilnside.sensor.ThermocoupleType.N, org.kilnside.sensor.Amplifier.MAX31856);
        ware.sensor(SensorInPlace.asSaid(other));
        assertThat(ware.uncertainty().probe()).isEqualTo(other);
        assertThat(ware.findings().cone()).isEmpty();
    }
}
