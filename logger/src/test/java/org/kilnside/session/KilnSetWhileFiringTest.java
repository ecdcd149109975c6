package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.AlarmEntry;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;

/** What a kiln's owner sets while it is being fired: thresholds, limits, isolator at once; the cones with the next firing. */
class KilnSetWhileFiringTest {
    private static final Kiln TALL_DRUM = kiln(120, 50, Optional.empty(), ConeSeries.SELF_SUPPORTING);

    private final HandFiring firing = new HandFiring(HandFiring.TALL_DRUM.knowing(TALL_DRUM));
    private final HandClock clock = firing.clock;
    private final BookInMemory book = firing.book;
    private final FiringWatch watch = firing.watch;
    private double celsius = 20;

    private static Kiln kiln(double crackC, double unloadC, Optional<Temperature> highest, ConeSeries series) {
        Kiln named = Kiln.named("Tall Drum");
        return new Kiln(
                named.name(),
                named.volume(),
                Optional.of(Power.ofKilowatts(5.6)),
                named.wall(),
                named.opening(),
                Optional.of("the red switch"),
                named.tariff(),
                new Kiln.Limits(highest, Optional.empty()),
                new Kiln.Thresholds(
                        Temperature.ofCelsius(crackC), Temperature.ofCelsius(unloadC), Kiln.Thresholds.Source.MAKER),
                named.sensors(),
                named.cutOut(),
                named.alarms(),
                series);
    }

    private void set(Kiln now) {
        watch.kilnIs(HandFiring.TALL_DRUM.knowing(now));
    }

    /** Ten seconds of kiln time after another along a straight line. */
    private void goesTo(double toC, int minutes) {
        double fromC = celsius;
        for (int i = 1; i <= minutes * 6; i++) {
            celsius = fromC + (toC - fromC) * i / (minutes * 6) + 0.2 * (i % 3 - 1);
            firing.readsAfter(10_000, celsius);
            watch.lookRound();
        }
    }

    private List<String> inTheBook(Kind kind, AlarmKind alarm) {
        return book.events.get(0).stream()
                .filter(event -> event.kind() == kind)
                .map(FiringEvent::text)
                .flatMap(Optional::stream)
                .filter(text -> AlarmEntry.parse(text).orElseThrow().kind() == alarm)
                .toList();
    }

    @Test
    void theNewThresholdIsInTheNextSnapshotAndTheForecastIsAskedAgainAtOnce() {
        goesTo(600, 300);
        goesTo(300, 200);
        watch.takeForecastRequest();
        clock.forwardMs(2_000);
        assertThat(watch.takeForecastRequest()).isEmpty();
        set(kiln(100, 45, Optional.empty(), ConeSeries.SELF_SUPPORTING));
        assertThat(watch.snapshot().thresholds().crack()).isEqualTo(Temperature.ofCelsius(100));
        assertThat(watch.snapshot().isolator()).hasValue("the red switch");
        ForecastRequest asked = watch.takeForecastRequest().orElseThrow();
        assertThat(asked.thresholds().crack()).isEqualTo(Temperature.ofCelsius(100));
        assertThat(asked.powerKw()).isEqualTo(OptionalDouble.of(5.6));
    }

    @Test
    void anAnswerAboutTheOldThresholdIsThrownAway() {
        goesTo(600, 300);
        goesTo(300, 200);
        clock.forwardMs(2_000);
        goesTo(295, 2);
        ForecastRequest old = watch.takeForecastRequest().orElseThrow();
        set(kiln(100, 45, Optional.empty(), ConeSeries.SELF_SUPPORTING));
        watch.forecast(
                old,
                new LiveForecast(
                        old.askedMs(),
                        old.thresholds(),
                        Optional.empty(),
                        List.of(),
                        Optional.empty(),
                        Optional.empty(),
                        Optional.empty()));
        assertThat(watch.snapshot().findings().forecast()).isEmpty();
    }

    @Test
    void theLidIsToldBelowTheNewTemperatureAndWhatWasToldOfTheOldOneIsTakenBack() {
        goesTo(600, 300);
        goesTo(112, 400);
        assertThat(inTheBook(Kind.ALARM_RAISED, AlarmKind.BELOW_LID_THRESHOLD)).hasSize(1);
        set(kiln(100, 45, Optional.empty(), ConeSeries.SELF_SUPPORTING));
        goesTo(110, 4);
        assertThat(inTheBook(Kind.ALARM_CLEARED, AlarmKind.BELOW_LID_THRESHOLD)).hasSize(1);
        goesTo(90, 40);
        assertThat(inTheBook(Kind.ALARM_RAISED, AlarmKind.BELOW_LID_THRESHOLD)).hasSize(2);
        set(kiln(150, 45, Optional.empty(), ConeSeries.SELF_SUPPORTING));
        goesTo(85, 20);
        assertThat(inTheBook(Kind.ALARM_RAISED, AlarmKind.BELOW_LID_THRESHOLD))
                .as("whoever knows that it is below 100 °C need not be told of 150")
                .hasSize(2);
    }

    @Test
    void aMaximumThatIsSetRingsAndOneThatIsRaisedEndsIt() {
        goesTo(600, 300);
        set(kiln(120, 50, Optional.of(Temperature.ofCelsius(590)), ConeSeries.SELF_SUPPORTING));
        goesTo(605, 3);
        assertThat(inTheBook(Kind.ALARM_RAISED, AlarmKind.ABOVE_KILN_MAXIMUM)).hasSize(1);
        set(kiln(120, 50, Optional.of(Temperature.ofCelsius(1300)), ConeSeries.SELF_SUPPORTING));
        goesTo(606, 3);
        assertThat(inTheBook(Kind.ALARM_CLEARED, AlarmKind.ABOVE_KILN_MAXIMUM)).hasSize(1);
    }

    @Test
    void thisFiringKeepsItsKindOfConeAndTheNextOneHasTheNew() {
        goesTo(600, 300);
        set(kiln(120, 50, Optional.empty(), ConeSeries.LARGE));
        goesTo(700, 60);
        assertThat(watch.snapshot().findings().cone().orElseThrow().series()).isEqualTo(ConeSeries.SELF_SUPPORTING);
        assertThat(book.starts.get(0).series()).isEqualTo(ConeSeries.SELF_SUPPORTING);
        goesTo(30, 900);
        assertThat(watch.snapshot().stage()).isEqualTo(Snapshot.Stage.ENDED);
        goesTo(200, 120);
        assertThat(book.starts).hasSize(2);
        assertThat(book.starts.get(1).series()).isEqualTo(ConeSeries.LARGE);
        assertThat(watch.snapshot().findings().cone().orElseThrow().series()).isEqualTo(ConeSeries.LARGE);
    }
}
