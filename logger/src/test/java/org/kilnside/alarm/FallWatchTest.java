package org.kilnside.alarm;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.firing.ControllerReport;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;

/** Own curves: a kiln that stands at 1200 °C, and what its number does from a moment on. */
class FallWatchTest {
    private static final int LINE_S = 10;
    private static final int HAPPENS_S = 3600;

    private final Beats beats = new Beats();
    private final FallWatch watch = new FallWatch();
    private int nowS;

    private boolean ringsWithin(int seconds, DoubleUnaryOperator celsius, DoubleUnaryOperator output) {
        for (int endS = nowS + seconds; nowS < endS; ) {
            if (line(celsius, output, true).orElse(false)) {
                return true;
            }
        }
        return false;
    }

    /** Whether it is doubted all the while. */
    private boolean staysDoubted(int seconds, DoubleUnaryOperator celsius, double output) {
        boolean doubted = true;
        for (int endS = nowS + seconds; nowS < endS; ) {
            doubted &= line(celsius, since -> output, output > 0).orElse(true);
        }
        return doubted;
    }

    /** The next line, its number and output told by the seconds since it happened; what is doubted after it, where a beat is full. */
    private Optional<Boolean> line(DoubleUnaryOperator celsius, DoubleUnaryOperator output, boolean heated) {
        double since = nowS - HAPPENS_S;
        ControllerReport report = new ControllerReport(
                Optional.of(Share.ofPercent(100 * output.applyAsDouble(since))), Optional.empty(), OptionalInt.empty());
        boolean full = beats.add(nowS * 1000L, celsius.applyAsDouble(since), report);
        nowS += LINE_S;
        return full ? Optional.of(watch.lookForSlip(beats, heated).isPresent()) : Optional.empty();
    }

    private static double onUntil(double since, double untilS) {
        return since < untilS ? 0.6 : 0;
    }

    /** A bare sensor between glowing elements reads 35 K of them: they go dark within a minute, the kiln cools on. */
    private static double bareSensorAtSwitchOff(double since) {
        return since < 0 ? 1200 : 1165 * Math.exp(-since / 3600 / 4) + 35 * Math.exp(-since / 50);
    }

    /** It slipped back into the wall: the number falls by so much, and goes on as the kiln does there. */
    private static double slips(double since, double byK) {
        return since < 0 ? 1200 : 1200 - byK * (1 - Math.exp(-since / 40));
    }

    @Test
    void aBareSensorThatFallsAsTheElementsGoDarkDidNotSlip() {
        assertThat(ringsWithin(HAPPENS_S + 4 * 3600, FallWatchTest::bareSensorAtSwitchOff, since -> onUntil(since, 0)))
                .isFalse();
    }

    @Test
    void whatAKilnWithoutPowerIsAndWhatItShouldBeAreBothTemperatures() {
        Optional<Finding> found = Optional.empty();
        for (int s = 0; s < HAPPENS_S + 600; s += LINE_S) {
            double celsius = s < HAPPENS_S ? 900 : 900 - (s - HAPPENS_S) / 20.0;
            ControllerReport full = new ControllerReport(
                    Optional.of(Share.ofPercent(100)), Optional.of(Temperature.ofCelsius(903)), OptionalInt.empty());
            if (beats.add(s * 1000L, celsius, full)) {
                found = watch.lookForPower(beats, OptionalDouble.of(903));
            }
        }
        assertThat(found.orElseThrow().expected()).contains(Measure.ofCelsius(903));
        assertThat(found.orElseThrow().seen())
                .hasValueSatisfying(seen -> assertThat(seen)
                        .isInstanceOfSatisfying(
                                Measure.OfTemperature.class,
                                temperature -> assertThat(temperature.value().celsius())
                                        .isBetween(865.0, 880.0)));
    }

    @Test
    void noMoreDoesOneWhoseControllerTellsOnlyThatItsSetPointIsGone() {
        boolean rang = false;
        for (int s = 0; s < HAPPENS_S + 4 * 3600; s += LINE_S) {
            double since = s - HAPPENS_S;
            Optional<Temperature> wanted = since < 0 ? Optional.of(Temperature.ofCelsius(1200)) : Optional.empty();
            ControllerReport report = new ControllerReport(Optional.empty(), wanted, OptionalInt.empty());
            rang |= beats.add(s * 1000L, bareSensorAtSwitchOff(since), report)
                    && watch.lookForSlip(beats, true).isPresent();
        }
        assertThat(rang).isFalse();
    }

    @ParameterizedTest
    @ValueSource(doubles = {45, 100, 400, 900})
    void aSensorThatSlipsWhileTheElementsAreOnIsFoundInTwoMinutes(double byK) {
        assertThat(ringsWithin(HAPPENS_S + 150, since -> slips(since, byK), since -> onUntil(since, 1e9)))
                .isTrue();
    }

    @ParameterizedTest
    @ValueSource(doubles = {100, 400, 900})
    void aSensorThatSlipsAsTheElementsGoOffIsFoundAllTheSame(double byK) {
        assertThat(ringsWithin(HAPPENS_S + 150, since -> slips(since, byK), since -> onUntil(since, 0)))
                .isTrue();
    }

    /** A controller that does not believe the fall switches off itself. */
    @ParameterizedTest
    @ValueSource(doubles = {45, 100, 400})
    void aControllerThatSwitchesOffAfterTheFallDoesNotExplainIt(double byK) {
        assertThat(ringsWithin(HAPPENS_S + 180, since -> slips(since, byK), since -> onUntil(since, 20)))
                .isTrue();
    }

    /** Where the controller says nothing of its output the fall at the switch-off is found, and an hour of cooling takes it back. */
    @Test
    void aDoubtThatAnHourOfPlainCoolingGainsaysIsOver() {
        assertThat(ringsWithin(HAPPENS_S + 300, FallWatchTest::bareSensorAtSwitchOff, since -> 0.6))
                .isTrue();
        assertThat(staysDoubted(3000, FallWatchTest::bareSensorAtSwitchOff, 0)).isTrue();
        assertThat(staysDoubted(1200, FallWatchTest::bareSensorAtSwitchOff, 0)).isFalse();
    }

    /** The hole it slipped into cools as the kiln does: the number is not the kiln's for that. */
    @Test
    void aSensorThatFellByHundredsIsDoubtedThroughAllOfTheCooling() {
        DoubleUnaryOperator hole = since -> since < 0 ? 1200 : slips(since, 500) * Math.exp(-since / 3600 / 4);
        assertThat(ringsWithin(HAPPENS_S + 150, hole, since -> 0.6)).isTrue();
        assertThat(staysDoubted(10 * 3600, hole, 0)).isTrue();
    }

    /** While the elements are on nothing is taken back. */
    @Test
    void aSensorThatSlippedALittleIsDoubtedAsLongAsTheElementsAreOn() {
        assertThat(ringsWithin(HAPPENS_S + 150, since -> slips(since, 45), since -> 0.6))
                .isTrue();
        DoubleUnaryOperator falls = since -> slips(since, 45) * Math.exp(-since / 3600 / 8);
        assertThat(staysDoubted(4 * 3600, falls, 0.8)).isTrue();
    }
}
