package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.Channel;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.Origin;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Calibration.By;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.RawSignal;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.ToleranceClass;
import org.kilnside.session.FiringBook.FiringStart;
import org.kilnside.session.HostClock;

class KilnHistoryTest {
    private static final String KILN = "Tall Drum";
    private static final Instant SPRING = Instant.parse("2026-03-20T09:00:00Z");
    private static final Probe LINEAR = new Probe(ThermocoupleType.K, Amplifier.MAX31856);
    private static final Calibration.Point ICE = new Calibration.Point(0, 1, 0.5, By.FIXED_POINT);

    @TempDir
    private Path folder;

    private Path path;
    private BookRecorder recorder;
    private Book book;

    @BeforeEach
    void open() {
        path = folder.resolve("firing.book");
        recorder = BookRecorder.open(path);
        book = Book.open(path);
    }

    @AfterEach
    void close() {
        book.close();
        recorder.close();
    }

    private static SensorInPlace sensor(String name, String place) {
        return SensorInPlace.uncalibrated(LINEAR, name, place, ToleranceClass.CLASS_1);
    }

    private KilnHistory history() {
        return book.history(KILN);
    }

    @Test
    void aSensorIsKnownFromTheDayItWasFittedUntilTheNextOneIs() {
        history().fit(1, sensor("the first", "left wall"), SPRING);
        history().fit(1, sensor("the second", "left wall"), SPRING.plus(Duration.ofDays(100)));
        assertThat(history().guide(SPRING.minusSeconds(1))).isEmpty();
        assertThat(history().guide(SPRING).orElseThrow().sensor()).isEqualTo("the first");
        assertThat(history()
                        .guide(SPRING.plus(Duration.ofDays(100)))
                        .orElseThrow()
                        .sensor())
                .isEqualTo("the second");
        assertThat(history().sensors()).hasSize(2);
        assertThat(book.history("another").sensors()).isEmpty();
    }

    @Test
    void comparisonsCorrectTheSensorAndEndWithIt() {
        history().fit(1, sensor("the first", "left wall"), SPRING);
        long number = history().sensors().get(0).number();
        history().compare(number, ICE, false, SPRING);
        history().compare(number, new Calibration.Point(1000, 11, 2, By.THERMOMETER), false, SPRING);
        SensorInPlace known = history().guide(SPRING.plusSeconds(1)).orElseThrow();
        assertThat(known.calibration().correctedC(500)).isCloseTo(506, within(1e-9));
        assertThat(known.uncertainty().halfWidthC(1000)).isCloseTo(2, within(1e-9));

        history().fit(1, known.movedTo("lid"), SPRING.plus(Duration.ofDays(1)));
        assertThat(history()
                        .guide(SPRING.plus(Duration.ofDays(2)))
                        .orElseThrow()
                        .calibration())
                .isEqualTo(Calibration.NONE);
        assertThat(history().guide(SPRING.plusSeconds(1)).orElseThrow().calibration())
                .isEqualTo(known.calibration());
    }

    @Test
    void everyChangeCanBeUndoneAndDoneAgain() {
        KilnEdit first = history().fit(1, sensor("the first", "left wall"), SPRING);
        List<FittedSensor> before = history().sensors();
        KilnEdit second = history().fit(1, sensor("the second", "left wall"), SPRING.plusSeconds(60));
        List<FittedSensor> after = history().sensors();
        history().apply(second.inverse());
        assertThat(history().sensors()).isEqualTo(before);
        history().apply(second);
        assertThat(history().sensors()).isEqualTo(after);
        history().apply(second.inverse());

        KilnEdit compared = history().compare(before.get(0).number(), ICE, true, SPRING);
        assertThat(history().points(before.get(0).number())).hasSize(1);
        history().apply(compared.inverse());
        assertThat(history().points(before.get(0).number())).isEmpty();
        history().apply(first.inverse());
        assertThat(history().sensors()).isEmpty();
    }

    @Test
    void whatAnotherWindowChangedMeanwhileIsNotWrittenOver() {
        KilnEdit first = history().fit(1, sensor("the first", "left wall"), SPRING);
        history().fit(1, sensor("the second", "left wall"), SPRING.plusSeconds(60));
        List<FittedSensor> now = history().sensors();
        assertThatThrownBy(() -> history().apply(first.inverse()))
                .isInstanceOf(BookException.class)
                .hasMessageContaining("changed by another window");
        assertThat(history().sensors()).isEqualTo(now);
        assertThatThrownBy(() -> history().fit(1, sensor("too early", "lid"), SPRING))
                .hasMessageContaining("say a later day");
        assertThatThrownBy(() -> {
                    history().compare(now.get(0).number(), ICE, false, SPRING);
                    history().compare(now.get(0).number(), ICE, false, SPRING);
                })
                .hasMessageContaining("compared at 0.0 °C already");
    }

    /** A sensor that reads 12 °C low at the top, and cones that know better: independent of the sensor by making. */
    @Test
    void witnessConesOfFiringsTeachTheSensorsOffsetAndANewSensorForgetsIt() {
        long one = glazeFiring(SPRING.plus(Duration.ofDays(1)), -12);
        long two = glazeFiring(SPRING.plus(Duration.ofDays(8)), -12);
        for (long firing : List.of(one, two)) {
            book.addWitnessCones(firing, cones());
        }
        List<KilnHistory.OffsetOfFiring> offsets =
                history().offsets(history().sensors().get(0));
        assertThat(offsets).extracting(KilnHistory.OffsetOfFiring::firing).containsExactly(one, two);
        SensorInPlace known = history().guide(SPRING.plus(Duration.ofDays(9))).orElseThrow();
        assertThat(known.calibration().correctedC(1210)).isCloseTo(1222, within(6.0));
        assertThat(known.calibration().correctedC(20))
                .as("cold, nothing is off")
                .isCloseTo(20, within(0.5));

        Trace truth = history().curve(one);
        HeatWork work = new HeatWork(ConeTable.of(ConeSeries.SELF_SUPPORTING));
        for (int i = 0; i < truth.size(); i++) {
            work.add(truth.elapsedMs(i), truth.temperatureC(i));
        }
        // Cone 6 was found bent to 90 degrees: its share of heat work is 1 but for what a bend tells.
        assertThat(work.share(Cone.parse("6")).orElseThrow()).isBetween(0.85, 1.2);

        history().fit(1, sensor("new in autumn", ""), SPRING.plus(Duration.ofDays(200)));
        assertThat(history()
                        .guide(SPRING.plus(Duration.ofDays(201)))
                        .orElseThrow()
                        .calibration())
                .isEqualTo(Calibration.NONE);
    }

    @Test
    void conesAreKeptShelfByShelfAndStruckOutAgain() {
        long firing = glazeFiring(SPRING, 0);
        List<BookEdit.Witness> edits = book.addWitnessCones(firing, cones());
        assertThat(book.witnessCones(firing)).extracting(NotedCone::shelf).containsOnly("middle");
        assertThat(book.witnessCones(firing)).extracting(NotedCone::cone).contains(Cone.parse("6"));
        assertThat(history().offsets(history().sensors().get(0))).hasSize(1);
        edits.forEach(edit -> book.apply(edit.inverse()));
        assertThat(book.witnessCones(firing)).isEmpty();
        assertThat(history().offsets(history().sensors().get(0))).isEmpty();
        assertThatThrownBy(() -> book.apply(edits.get(0).inverse())).hasMessageContaining("cone 5");
    }

    @Test
    void aSensorTheControllerNamesOtherwiseIsNotCalibratedByTheOldOne() {
        history()
                .fit(
                        1,
                        SensorInPlace.uncalibrated(
                                new Probe(ThermocoupleType.S, Amplifier.MAX31856), "S", "", ToleranceClass.CLASS_2),
                        SPRING.minusSeconds(60));
        history().compare(history().sensors().get(0).number(), ICE, true, SPRING);
        long firing = glazeFiring(SPRING, 0);
        assertThat(history().sensorOf(firing)).isEqualTo(SensorInPlace.asSaid(LINEAR));
    }

    @Test
    void aFiringIsJudgedByTheConesNotedForItAndElseByThoseItsKilnHadWhenItBegan() {
        long first = recorder.begin(new FiringStart(
                Optional.of(KILN),
                "serial:/dev/ttyUSB0",
                SPRING,
                Optional.empty(),
                Optional.empty(),
                ConeSeries.SMALL));
        long second = glazeFiring(SPRING.plus(Duration.ofDays(3)), 0);
        assertThat(history().seriesOf(first)).isEqualTo(ConeSeries.SMALL);
        assertThat(history().seriesOf(second)).isEqualTo(ConeSeries.SELF_SUPPORTING);
        NotedCone large =
                new NotedCone(0, "top", ConeSeries.LARGE, Cone.parse("6"), OptionalDouble.of(90), OptionalLong.empty());
        CurveSketch before = book.sketch(second);
        assertThat(before.cone().orElseThrow().series()).isEqualTo(ConeSeries.SELF_SUPPORTING);
        List<BookEdit.Witness> edits = book.addWitnessCones(second, List.of(large, noted("7", 12)));
        assertThat(history().seriesOf(second)).isEqualTo(ConeSeries.LARGE);
        assertThat(BookedReview.of(book, book.firing(second)).series()).isEqualTo(ConeSeries.LARGE);

        // What is shown until it is made anew still says which kind it tells.
        ListedFiring outdated = book.list().get(0);
        assertThat(outdated.upToDate()).isFalse();
        assertThat(outdated.sketch().orElseThrow().cone()).isEqualTo(before.cone());
        CurveSketch anew = book.sketch(second);
        assertThat(anew.cone().orElseThrow().series()).isEqualTo(ConeSeries.LARGE);
        assertThat(book.list().get(0).sketch().orElseThrow().cone()).isEqualTo(anew.cone());
        assertThat(history()
                        .coneOf(second, history().curve(second))
                        .orElseThrow()
                        .cone())
                .isEqualTo(anew.cone().orElseThrow().position());

        edits.forEach(edit -> book.apply(edit.inverse()));
        assertThat(history().seriesOf(second)).isEqualTo(ConeSeries.SELF_SUPPORTING);
        assertThat(book.list().get(0).upToDate()).isFalse();
    }

    /** A chip's codes are on the wire, but whether the controller corrects them nobody has said. */
    @Test
    void whatAControllerShowsIsNotMadeUpBecauseConesWereNoted() {
        Probe chip = new Probe(ThermocoupleType.K, Amplifier.MAX31855);
        long firing = recorder.begin(new FiringStart(
                Optional.of(KILN),
                "serial:/dev/ttyUSB0",
                SPRING,
                Optional.empty(),
                Optional.empty(),
                ConeSeries.USUAL));
        recorder.sensors(firing, 0, List.of(chip));
        recorder.append(firing, reading(0, 20));
        recorder.append(firing, reading(10_000, 21));
        recorder.end(firing, 10_000);
        assertThat(recorder.flush(Duration.ofSeconds(20))).isTrue();
        assertThat(history().guideAsAnswered(SPRING)).isEmpty();
        book.addWitnessCones(firing, cones());
        assertThat(history().guideAsAnswered(SPRING).orElseThrow().uncorrected())
                .isEmpty();
        assertThat(history().guide(SPRING).orElseThrow().probe()).isEqualTo(chip);
        assertThat(history().isUnasked(history().sensors().get(0))).isTrue();
        Instant later = SPRING.plusSeconds(1);
        history().fit(1, SensorInPlace.asSaid(chip), later);
        assertThat(history().guideAsAnswered(later).orElseThrow().uncorrected()).contains(Amplifier.MAX31855);
    }

    private static List<NotedCone> cones() {
        return List.of(noted("5", 150), noted("6", 90), noted("7", 12));
    }

    private static NotedCone noted(String cone, double degrees) {
        return new NotedCone(
                0,
                "middle",
                ConeSeries.SELF_SUPPORTING,
                Cone.parse(cone),
                OptionalDouble.of(degrees),
                OptionalLong.empty());
    }

    /** 100 °C/h to 1222 °C, held until cone 6 is down, read by a sensor that is off in proportion to the heat. */
    private long glazeFiring(Instant at, double offAtTopK) {
        long firing = recorder.begin(new FiringStart(
                Optional.of(KILN), "serial:/dev/ttyUSB0", at, Optional.empty(), Optional.empty(), ConeSeries.USUAL));
        recorder.sensors(firing, 0, List.of(LINEAR));
        HeatWork work = new HeatWork(ConeTable.of(ConeSeries.SELF_SUPPORTING));
        List<Reading> readings = new ArrayList<>();
        double truthC = 20;
        long elapsedMs = 0;
        boolean down = false;
        while (truthC > 900 || !down) {
            work.add(elapsedMs, truthC);
            down = down || work.share(Cone.parse("6")).orElse(0.0) >= 1;
            readings.add(reading(elapsedMs, truthC + offAtTopK * truthC / 1222));
            elapsedMs += 10_000;
            truthC += down ? -1.0 : truthC < 1222 ? 100.0 / 360 : 0;
        }
        readings.forEach(reading -> recorder.append(firing, reading));
        recorder.end(firing, elapsedMs);
        assertThat(recorder.flush(Duration.ofSeconds(20))).isTrue();
        return firing;
    }

    private static Reading reading(long elapsedMs, double celsius) {
        RawSignal raw = new RawSignal(OptionalInt.of((int) Math.round(celsius * 128)), OptionalInt.of(20 * 64), 0);
        Channel channel = new Channel(
                1, raw, Optional.of(Temperature.ofCelsius(celsius)), Optional.of(Temperature.ofCelsius(20)));
        return Reading.of(elapsedMs, List.of(channel), ControllerReport.NONE, Origin.LIVE);
    }

    @Test
    void theRecorderHearsOfWhatIsNotedInMidFiring() {
        PastOfKiln past = new PastOfKiln(path, KILN, new HostClock() {
            @Override
            public long monotonicMs() {
                return 0;
            }

            @Override
            public Instant wallClock() {
                return SPRING.plusSeconds(60);
            }
        });
        assertThat(past.guide()).isEmpty();
        history().fit(1, sensor("the first", "left wall"), SPRING);
        assertThat(past.guide().orElseThrow().calibration()).isEqualTo(Calibration.NONE);
        KilnEdit compared = history().compare(history().sensors().get(0).number(), ICE, true, SPRING);
        assertThat(past.guide().orElseThrow().calibration().correctedC(500)).isEqualTo(501);
        history().apply(compared.inverse());
        assertThat(past.guide().orElseThrow().calibration()).isEqualTo(Calibration.NONE);
        long firing = glazeFiring(SPRING.plusSeconds(30), -12);
        assertThat(past.earlier(firing + 1)).hasSize(1);
        book.addWitnessCones(firing, cones());
        assertThat(past.guide().orElseThrow().calibration().correctedC(1210)).isGreaterThan(1212);
    }
}
