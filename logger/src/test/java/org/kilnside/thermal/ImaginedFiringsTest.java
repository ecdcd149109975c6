package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.kilnside.ValidationPage;
import org.kilnside.firing.Kiln;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.thermal.ImaginedFiringsTrial.Case;
import org.kilnside.thermal.ImaginedFiringsTrial.Known;
import org.kilnside.virtualkiln.Population;

/** Independent of the model: the virtual kilns have other physics. */
class ImaginedFiringsTest {
    /** Nothing was tuned on it. */
    private static final long UNTOUCHED_SEED = 47;

    private static List<Case> cases(Known known, int count) {
        List<Case> cases = new ArrayList<>();
        for (Population.Family family : Population.Family.values()) {
            for (int i = 0; i < count; i++) {
                cases.addAll(ImaginedFiringsTrial.of(family, UNTOUCHED_SEED, i, known));
            }
        }
        return cases;
    }

    @Test
    void aKilnKnownByItsDescriptionAndLoadTakesAboutAsLongAsImagined() {
        List<Case> cases = cases(Known.DESCRIPTION_AND_LOAD, 2);
        assertThat(cases).hasSizeGreaterThan(30);
        assertThat(cases.stream().filter(Case::held).count() / (double) cases.size())
                .isGreaterThan(0.8);
        assertThat(cases.stream().filter(Case::overByLateEnd).count() / (double) cases.size())
                .as("a week is planned by the late ends")
                .isGreaterThan(0.9);
        assertThat(cases)
                .filteredOn(each -> each.question().equals("the end of the plan"))
                .allSatisfy(each -> assertThat(each.error()).isLessThan(0.15));
    }

    @Test
    @EnabledIfSystemProperty(named = "kilnside.long", matches = "true")
    void thePageSaysHowWellAPlanIsForeseen() {
        List<String> lines = new ArrayList<>();
        lines.add("| known before lighting | time from the lighting to | cases | error, median / 90th | held by the"
                + " interval | its half-width | over by its late end |");
        lines.add("| --- | --- | --- | --- | --- | --- | --- |");
        for (Known known : Known.values()) {
            List<Case> cases = cases(known, Integer.getInteger("kilnside.kilns", 10));
            for (String question : ImaginedFiringsTrial.QUESTIONS) {
                lines.add(ImaginedFiringsTrial.row(
                        known,
                        question,
                        cases.stream()
                                .filter(each -> each.question().equals(question))
                                .toList()));
            }
        }
        ValidationPage.holds("outlook", lines);
    }

    private static Schedule plan(double kelvinPerHour, double topC) {
        return new Schedule("a plan", List.of(ramp(kelvinPerHour, topC)));
    }

    @Test
    void aKilnOfUnknownPowerFollowsAnyRampExactly() {
        LikelyKilns kilns = LikelyKilns.of(
                Kiln.named("a kiln"),
                KilnMemory.none(Optional.empty()),
                Temperature.ofCelsius(20),
                OptionalDouble.empty());
        ImaginedFiring middle = ImaginedFirings.middle(plan(100, 1020), kilns, List.of(Temperature.ofCelsius(120)));
        // Independent: 1000 K at 100 K/h; a controller calls the last kelvin reached.
        assertThat(middle.arrivalS().orElseThrow()).isCloseTo(36_000, within(60.0));
        assertThat(middle.powerKnown()).isFalse();
        assertThat(middle.energyKwh()).isEmpty();
        assertThat(middle.at(18_000).orElseThrow().celsius()).isCloseTo(520, within(2.0));
    }

    @Test
    void aRampTooSlowToShowWithinAnHourIsFollowedToItsEnd() {
        Kiln plain = Kiln.named("a kiln");
        LikelyKilns kilns = LikelyKilns.of(
                new Kiln(
                        plain.name(),
                        Optional.of(Volume.ofLitres(68)),
                        Optional.of(Power.ofKilowatts(5.6)),
                        Optional.of(Kiln.Wall.BRICK),
                        plain.opening(),
                        plain.isolator(),
                        plain.tariff(),
                        plain.limits(),
                        plain.thresholds(),
                        plain.sensors()),
                KilnMemory.none(Optional.empty()),
                Temperature.ofCelsius(20),
                OptionalDouble.of(20));
        Schedule creeping = new Schedule("a plan", List.of(ramp(100, 100), ramp(1, 110), ramp(100, 600)));
        ImaginedFiring middle = ImaginedFirings.middle(creeping, kilns, List.of(Temperature.ofCelsius(120)));
        assertThat(middle.powerKnown()).isTrue();
        // Independent: 80 K and 490 K at 100 K/h, 10 K at 1 K/h.
        assertThat(middle.arrivalS().orElseThrow()).isCloseTo(15.7 * 3600, within(900.0));
        ImaginedFiring slowest = ImaginedFirings.middle(
                new Schedule("a plan", List.of(ramp(0.1, 30))), kilns, List.of(Temperature.ofCelsius(25)));
        assertThat(slowest.planOverS()).isCloseTo(100 * 3600, within(900.0));
    }

    private static Segment ramp(double kelvinPerHour, double toC) {
        return new Segment.Ramp(HeatingRate.ofKelvinPerHour(kelvinPerHour), Temperature.ofCelsius(toC), Duration.ZERO);
    }

    @Test
    void theRoomIsNeverReachedByWaiting() {
        LikelyKilns kilns = LikelyKilns.of(
                Kiln.named("a kiln"),
                KilnMemory.none(Optional.empty()),
                Temperature.ofCelsius(20),
                OptionalDouble.empty());
        ImaginedFiring middle = ImaginedFirings.middle(plan(100, 1020), kilns, List.of(Temperature.ofCelsius(19)));
        assertThat(middle.belowS().get(0)).isEmpty();
    }

    @Test
    void temperaturesAskedForMustFall() {
        LikelyKilns kilns = LikelyKilns.of(
                Kiln.named("a kiln"),
                KilnMemory.none(Optional.empty()),
                Temperature.ofCelsius(20),
                OptionalDouble.empty());
        assertThatThrownBy(() -> ImaginedFirings.of(
                        plan(100, 1000), kilns, List.of(Temperature.ofCelsius(60), Temperature.ofCelsius(120))))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
