package org.kilnside.outlook;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.kilnside.files.KilnFiles;
import org.kilnside.files.UnitText;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.outlook.Outlook.Unknown;
import org.kilnside.outlook.PlanWarning.AboveLimit;
import org.kilnside.outlook.PlanWarning.Basis;
import org.kilnside.outlook.PlanWarning.CandlingShort;
import org.kilnside.outlook.PlanWarning.CannotFollow;
import org.kilnside.outlook.PlanWarning.CoolsSlower;
import org.kilnside.outlook.PlanWarning.FallsTooFast;
import org.kilnside.outlook.PlanWarning.HoldMayBoil;
import org.kilnside.outlook.PlanWarning.MissesAim;
import org.kilnside.outlook.PlanWarning.Passage;
import org.kilnside.outlook.PlanWarning.TooFast;
import org.kilnside.outlook.PlanWarning.TopOutOfReach;
import org.kilnside.quantity.Energy;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.thermal.Forecast;

class OutlookTest {
    private static final Kiln UNKNOWN = Kiln.named("a kiln");

    /** The scenario's kiln: 68 litres, 5.6 kW, brick, 1260 °C and 250 °C/h by its maker. */
    private static Kiln tallDrum(double kilowatts) {
        return new Kiln(
                "Tall Drum",
                Optional.of(Volume.ofLitres(68)),
                Optional.of(Power.ofKilowatts(kilowatts)),
                Optional.of(Kiln.Wall.BRICK),
                Kiln.Opening.LID,
                Optional.empty(),
                Optional.of(new Kiln.Tariff(0.30, "EUR")),
                new Kiln.Limits(Optional.of(Temperature.ofCelsius(1260)), Optional.of(UnitText.rate("250 °C/h"))),
                Kiln.Thresholds.COMMON_PRACTICE,
                List.of());
    }

    private static Segment ramp(String rate, String to, String hold) {
        return new Segment.Ramp(
                UnitText.rate(rate),
                UnitText.temperature(to),
                hold.isEmpty() ? Duration.ZERO : UnitText.duration(hold));
    }

    private static Schedule plan(Segment... segments) {
        List<Segment> all = new ArrayList<>(List.of(segments));
        all.add(new Segment.FreeCooling());
        return new Schedule("a plan", all);
    }

    private static Schedule aimingFor(String cone, Segment... segments) {
        Schedule plan = plan(segments);
        return new Schedule(plan.name(), Optional.of(cone), Optional.empty(), Optional.empty(), plan.segments());
    }

    private static Outlook of(Schedule plan, Kiln kiln) {
        return Outlook.of(OutlookQuestion.about(plan, kiln));
    }

    private static <T extends PlanWarning> List<T> warnings(Outlook outlook, Class<T> kind) {
        return outlook.warnings().stream()
                .filter(kind::isInstance)
                .map(kind::cast)
                .toList();
    }

    // Published: "Temperature Equivalents for Pyrometric Cones", wall chart, self-supporting regular.
    @ParameterizedTest
    @CsvSource({"60, 06, 998", "60, 04, 1063", "60, 1, 1137", "60, 6, 1222", "150, 6, 1243", "150, 04, 1070"})
    void aPlanToARowOfTheChartComesToThatCone(double kelvinPerHour, String cone, double celsius) {
        Outlook outlook = of(
                plan(ramp("100 °C/h", celsius - 150 + " °C", ""), ramp(kelvinPerHour + " °C/h", celsius + " °C", "")),
                UNKNOWN);
        double wanted = ConePosition.at(Cone.parse(cone)).steps().orElseThrow();
        // The chart counts no cooling; the beginning of it is in a plan's cone as it is in a firing's.
        assertThat(outlook.cone().cone().steps().orElseThrow()).isBetween(wanted - 0.3, wanted + 0.5);
        assertThat(outlook.cone().between().from().steps().orElseThrow()).isLessThan(wanted);
        assertThat(outlook.cone().between().to().steps().orElseThrow()).isGreaterThan(wanted);
    }

    // The same chart, turned round.
    @ParameterizedTest
    @CsvSource({"60, 06, 998", "60, 6, 1222", "150, 6, 1243", "60, 5.5, 1203"})
    void theWantedTopIsTheChartsTemperature(double kelvinPerHour, String cone, double celsius) {
        Schedule plan = plan(ramp("100 °C/h", "900 °C", ""), ramp(kelvinPerHour + " °C/h", "1100 °C", ""));
        Outlook outlook = Outlook.of(OutlookQuestion.about(plan, UNKNOWN).withWanted(Optional.of(Cone.parse(cone))));
        assertThat(outlook.wanted().orElseThrow().top().orElseThrow().probable().celsius())
                .isCloseTo(celsius, within(6.0));
    }

    @Test
    void theConesAreThoseThatStandInTheKilnUnlessSomebodySaysOtherwise() {
        Kiln withLarge = KilnFiles.parse("name = \"Tall Drum\"\nseries = \"large\"", "k");
        Schedule plan = plan(ramp("150 °C/h", "1222 °C", "10 min"));
        assertThat(OutlookQuestion.about(plan, UNKNOWN).series()).isEqualTo(ConeSeries.SELF_SUPPORTING);
        OutlookQuestion large = OutlookQuestion.about(plan, withLarge);
        assertThat(large.series()).isEqualTo(ConeSeries.LARGE);
        assertThat(Outlook.of(large).cone().cone())
                .isEqualTo(Outlook.of(OutlookQuestion.about(plan, Kiln.named("Tall Drum"))
                                .withSeries(ConeSeries.LARGE))
                        .cone()
                        .cone())
                .isNotEqualTo(
                        Outlook.of(large.withSeries(ConeSeries.SMALL)).cone().cone());
    }

    @Test
    void thePlanWithTheWantedTopOrHoldComesToTheWantedCone() {
        Schedule plan = plan(ramp("100 °C/h", "1000 °C", ""), ramp("80 °C/h", "1200 °C", "10 min"));
        OutlookQuestion question = OutlookQuestion.about(plan, tallDrum(8)).withWanted(Optional.of(Cone.parse("6")));
        WantedCone wanted = Outlook.of(question).wanted().orElseThrow();
        double six = ConePosition.at(Cone.parse("6")).steps().orElseThrow();
        Schedule hotter =
                WantedCone.withTop(plan, wanted.top().orElseThrow().probable().celsius());
        Schedule longer = WantedCone.withHold(plan, wanted.hold().orElseThrow().toSeconds());
        assertThat(Outlook.of(question.withPlan(hotter)).cone().cone().steps().orElseThrow())
                .isCloseTo(six, within(0.03));
        assertThat(Outlook.of(question.withPlan(longer)).cone().cone().steps().orElseThrow())
                .isCloseTo(six, within(0.03));
    }

    @Test
    void aKilnThatIsStrongEnoughTakesThePlansTime() {
        Outlook outlook = of(plan(ramp("50 °C/h", "615 °C", "1 h"), ramp("100 °C/h", "1015 °C", "")), tallDrum(12));
        // Independent: 600 K at 50 K/h, an hour, 400 K at 100 K/h.
        assertThat(outlook.planned()).isEqualTo(Duration.ofHours(17));
        assertThat(outlook.arrival().orElseThrow().between().contains(Duration.ofHours(17)))
                .isTrue();
        assertThat(warnings(outlook, CannotFollow.class)).isEmpty();
    }

    @Test
    void elementsThatCannotFollowAreWarnedOfAtTheirSegmentAndTemperature() {
        Outlook outlook = of(plan(ramp("60 °C/h", "300 °C", ""), ramp("240 °C/h", "1200 °C", "")), tallDrum(5.6));
        List<CannotFollow> found = warnings(outlook, CannotFollow.class);
        assertThat(found).extracting(PlanWarning::segment).containsExactly(2);
        assertThat(found.get(0).from().celsius()).isBetween(300.0, 1190.0);
        assertThat(found.get(0).share()).isGreaterThan(0.5);
        assertThat(outlook.arrival().orElseThrow().probable()).isGreaterThan(outlook.planned());
    }

    @Test
    void aTopNoKilnOfItsPowerReachesIsCalledOutOfReach() {
        // A kiln whose plate says 1.2 kW for 68 litres: 18 W a litre, a quarter of the usual (common practice).
        Outlook outlook = of(plan(ramp("100 °C/h", "1250 °C", "")), tallDrum(1.2));
        assertThat(warnings(outlook, TopOutOfReach.class)).hasSize(1);
        assertThat(outlook.arrival()).isEmpty();
        assertThat(outlook.highest().probable().celsius()).isLessThan(1240);
        assertThat(outlook.crack()).isPresent();
    }

    @Test
    void aKilnOfUnknownPowerIsNotCalledTooWeakButSaidToBeUnknown() {
        Outlook outlook = of(plan(ramp("900 °C/h", "1250 °C", "")), UNKNOWN);
        assertThat(warnings(outlook, CannotFollow.class)).isEmpty();
        assertThat(outlook.unknowns())
                .contains(Unknown.POWER, Unknown.SIZE, Unknown.KILN_NEVER_SEEN, Unknown.TARIFF, Unknown.LOAD);
        assertThat(outlook.energy()).isEmpty();
        assertThat(outlook.cost()).isEmpty();
        assertThat(outlook.reachesShare()).isEmpty();
        assertThat(outlook.reaches()).isEqualTo(Forecast.Reaches.CANNOT_SAY_YET);
    }

    @Test
    void energyCostsWhatTheTariffSays() {
        Outlook outlook = of(plan(ramp("100 °C/h", "1000 °C", "")), tallDrum(5.6));
        Estimate<Energy> energy = outlook.energy().orElseThrow();
        // Common practice: a 68 litre kiln takes some 20 to 45 kWh to 1000 °C; at most full power all the time.
        assertThat(energy.probable().kilowattHours()).isBetween(10.0, 45.0);
        assertThat(energy.to().kilowattHours()).isLessThan(5.6 * 10.5 * 1.2);
        assertThat(outlook.cost().orElseThrow().price().probable())
                .isCloseTo(0.30 * energy.probable().kilowattHours(), within(1e-9));
        assertThat(outlook.cost().orElseThrow().currency()).isEqualTo("EUR");
    }

    @Test
    void aHeavierLoadTakesMoreEnergyAndCoolsLater() {
        OutlookQuestion question = OutlookQuestion.about(plan(ramp("100 °C/h", "1000 °C", "")), tallDrum(7));
        Outlook light = Outlook.of(question.withLoadKg(OptionalDouble.of(10)));
        Outlook heavy = Outlook.of(question.withLoadKg(OptionalDouble.of(60)));
        assertThat(heavy.energy().orElseThrow().probable())
                .isGreaterThan(light.energy().orElseThrow().probable());
        assertThat(heavy.unload().orElseThrow().probable())
                .isGreaterThan(light.unload().orElseThrow().probable());
        assertThat(heavy.unknowns()).doesNotContain(Unknown.LOAD);
    }

    @Test
    void rawWareIsNotToGoFastThroughSteamQuartzAndBurnOut() {
        Schedule rash = plan(ramp("200 °C/h", "1000 °C", ""));
        Outlook outlook = Outlook.of(OutlookQuestion.about(rash, UNKNOWN)
                .withWare(new Ware(Optional.of(Ware.State.RAW), OptionalDouble.of(25), Optional.empty())));
        assertThat(warnings(outlook, TooFast.class))
                .filteredOn(each -> each.basis() == Basis.COMMON_PRACTICE && each.passage() != Passage.QUARTZ_FALLING)
                .extracting(TooFast::passage)
                .containsExactly(Passage.BOILING, Passage.QUARTZ_RISING, Passage.BURN_OUT);
        // Common practice: 50 °C/h for thick ware, 12 h of candling.
        TooFast boiling = warnings(outlook, TooFast.class).get(0);
        assertThat(boiling.limit().kelvinPerHour()).isEqualTo(50);
        assertThat(boiling.found().kelvinPerHour()).isCloseTo(200, within(1.0));
        assertThat(warnings(outlook, CandlingShort.class))
                .containsExactly(new CandlingShort(1, Duration.ZERO, Duration.ofHours(12)));
    }

    @Test
    void aCarefulBisqueOfThinRawWareIsNotWarnedOf() {
        Schedule careful = plan(
                ramp("60 °C/h", "82 °C", "2 h"),
                ramp("80 °C/h", "600 °C", ""),
                ramp("110 °C/h", "890 °C", ""),
                ramp("60 °C/h", "992 °C", "10 min"));
        Outlook outlook = Outlook.of(OutlookQuestion.about(careful, tallDrum(7))
                .withWare(new Ware(Optional.of(Ware.State.RAW), OptionalDouble.of(6), Optional.empty())));
        assertThat(outlook.warnings()).isEmpty();
    }

    @Test
    void aHoldJustBelowBoilingMayBoil() {
        Schedule near = plan(ramp("60 °C/h", "95 °C", "4 h"), ramp("80 °C/h", "1000 °C", ""));
        Outlook outlook = Outlook.of(OutlookQuestion.about(near, UNKNOWN)
                .withWare(new Ware(Optional.of(Ware.State.RAW), OptionalDouble.of(6), Optional.empty())));
        assertThat(warnings(outlook, HoldMayBoil.class)).containsExactly(new HoldMayBoil(1, Temperature.ofCelsius(95)));
    }

    @Test
    void onlyTheSegmentThatGoesThroughTheBoilingPointIsTooFastThroughIt() {
        Schedule held = plan(ramp("100 °C/h", "95 °C", "4 h"), ramp("120 °C/h", "1000 °C", ""));
        Outlook outlook = Outlook.of(OutlookQuestion.about(held, UNKNOWN)
                .withWare(new Ware(Optional.of(Ware.State.RAW), OptionalDouble.of(15), Optional.empty())));
        assertThat(warnings(outlook, TooFast.class))
                .filteredOn(each -> each.passage() == Passage.BOILING)
                .extracting(TooFast::segment)
                .containsExactly(2);
    }

    @Test
    void limitsOfKilnAndWareAreHeldAgainstEverySegment() {
        Schedule hot = plan(ramp("300 °C/h", "1000 °C", ""), ramp("100 °C/h", "1280 °C", ""));
        Outlook outlook = Outlook.of(OutlookQuestion.about(hot, tallDrum(9))
                .withWare(new Ware(
                        Optional.of(Ware.State.GLAZED),
                        OptionalDouble.empty(),
                        Optional.of(Temperature.ofCelsius(1240)))));
        assertThat(warnings(outlook, AboveLimit.class))
                .extracting(AboveLimit::segment, AboveLimit::basis)
                .containsExactlyInAnyOrder(
                        org.assertj.core.groups.Tuple.tuple(2, Basis.KILN_MAKER),
                        org.assertj.core.groups.Tuple.tuple(2, Basis.WARE_MAKER));
        assertThat(warnings(outlook, TooFast.class))
                .anySatisfy(each -> assertThat(each.passage()).isEqualTo(Passage.WHOLE_SEGMENT));
    }

    @Test
    void controlledCoolingFasterThanTheKilnCoolsIsWarnedOf() {
        Outlook outlook = of(plan(ramp("150 °C/h", "1200 °C", ""), ramp("900 °C/h", "700 °C", "30 min")), tallDrum(7));
        List<CoolsSlower> found = warnings(outlook, CoolsSlower.class);
        assertThat(found).extracting(PlanWarning::segment).containsExactly(2);
        assertThat(found.get(0).own().kelvinPerHour())
                .isLessThan(found.get(0).planned().kelvinPerHour());
    }

    @Test
    void howFastAKilnNobodyNamedCoolsByItselfIsALikelihoodNotAFact() {
        Schedule glaze = plan(ramp("150 °C/h", "1222 °C", "10 min"));
        Ware thick = new Ware(Optional.of(Ware.State.GLAZED), OptionalDouble.of(20), Optional.empty());
        Outlook outlook = Outlook.of(OutlookQuestion.about(glaze, UNKNOWN).withWare(thick));
        assertThat(warnings(outlook, FallsTooFast.class))
                .singleElement()
                .satisfies(falls -> assertThat(falls.share()).isBetween(0.6, 0.9));
        assertThat(warnings(outlook, TooFast.class)).noneMatch(each -> each.passage() == Passage.QUARTZ_FALLING);
    }

    @Test
    void aPlanThatMissesTheConeItAimsForIsToldByHowMuch() {
        Outlook outlook = of(aimingFor("cone 6", ramp("60 °C/h", "1150 °C", "")), UNKNOWN);
        MissesAim misses = warnings(outlook, MissesAim.class).get(0);
        assertThat(misses.aim()).isEqualTo(Cone.parse("6"));
        // Published: cone 2 goes down at 1142 °C, cone 3 at 1152 °C, 60 °C/h.
        assertThat(misses.cones()).isBetween(-4.0, -2.8);
    }

    @Test
    void aConeTheRestOfThePlanIsTooHotForHasNoTop() {
        Schedule plan = plan(ramp("100 °C/h", "1150 °C", "1 h"), ramp("60 °C/h", "1200 °C", ""));
        WantedCone wanted = Outlook.of(OutlookQuestion.about(plan, UNKNOWN).withWanted(Optional.of(Cone.parse("06"))))
                .wanted()
                .orElseThrow();
        assertThat(wanted.top()).isEmpty();
        assertThat(wanted.noTop()).contains(WantedCone.NoTop.REST_IS_HOTTER);
    }

    @Test
    void aSensorKnownToReadLowMeansALowerTopToKeyInAndAHotterFiringWhereItIsNot() {
        OutlookQuestion question = OutlookQuestion.about(
                        plan(ramp("100 °C/h", "1000 °C", ""), ramp("60 °C/h", "1222 °C", "")), UNKNOWN)
                .withWanted(Optional.of(Cone.parse("6")));
        SensorInPlace low =
                SensorInPlace.asSaid(Probe.UNKNOWN).calibrated(Calibration.offset(12, 5, Calibration.By.WITNESS_CONES));
        Outlook plain = Outlook.of(question);
        Outlook known = Outlook.of(question.withSensor(low));
        WantedCone plainly = plain.wanted().orElseThrow();
        WantedCone calibrated = known.wanted().orElseThrow();
        double top = plainly.top().orElseThrow().probable().celsius();
        assertThat(plainly.onController()).isEmpty();
        assertThat(plain.onController()).isEmpty();
        assertThat(calibrated.top().orElseThrow().probable().celsius()).isCloseTo(top, within(0.5));
        // Independent: what the ware gets is 12 °C more than what the controller shows.
        assertThat(calibrated.onController().orElseThrow().celsius()).isCloseTo(top - 12, within(0.5));
        Outlook.OnController keyed = known.onController().orElseThrow();
        assertThat(keyed.shown().orElseThrow().celsius()).isCloseTo(1210, within(0.1));
        assertThat(keyed.asWritten().steps().orElseThrow())
                .isGreaterThan(known.cone().cone().steps().orElseThrow() + 0.3);
    }

    @Test
    void anUncorrectedChipKeyedInAsWrittenIsAConeOver() {
        Outlook outlook = Outlook.of(
                OutlookQuestion.about(plan(ramp("150 °C/h", "1100 °C", ""), ramp("60 °C/h", "1222 °C", "")), UNKNOWN)
                        .withSensor(SensorInPlace.asSaid(new Probe(ThermocoupleType.K, Amplifier.MAX31855))));
        Outlook.OnController keyed = outlook.onController().orElseThrow();
        // Computed, trade facts: shown 1222 is truly 1243, a cone over; so a true 1222 shows some 19 less.
        assertThat(keyed.shown().orElseThrow().celsius()).isBetween(1201.0, 1206.0);
        assertThat(keyed.asWritten().steps().orElseThrow()
                        - outlook.cone().cone().steps().orElseThrow())
                .isBetween(0.8, 1.6);
    }

    @Test
    void theSameQuestionGivesTheSameAnswer() {
        OutlookQuestion question = OutlookQuestion.about(plan(ramp("100 °C/h", "1100 °C", "20 min")), tallDrum(5.6));
        assertThat(Outlook.of(question).unload()).isEqualTo(Outlook.of(question).unload());
    }

    @Test
    void aCandlingAloneIsAnsweredWithoutACone() {
        Outlook outlook = of(plan(ramp("40 °C/h", "80 °C", "8 h")), tallDrum(5.6));
        assertThat(outlook.cone().cone().past()).isEmpty();
        assertThat(outlook.unload()).isPresent();
    }

    @Test
    void aTemperatureThePlanNeverPassesHasNoTimeAtWhichTheKilnIsBelowIt() {
        OutlookQuestion candling = OutlookQuestion.about(plan(ramp("40 °C/h", "80 °C", "8 h")), tallDrum(5.6));
        Outlook outlook = Outlook.of(candling);
        assertThat(outlook.crack()).isEmpty();
        assertThat(outlook.isNeverAbove(Temperature.ofCelsius(120))).isTrue();
        assertThat(outlook.isNeverAbove(Temperature.ofCelsius(60))).isFalse();
        assertThat(ForecastAtLighting.of(candling, List.of(Temperature.ofCelsius(60), Temperature.ofCelsius(120)))
                        .forecast()
                        .below())
                .extracting(Forecast.Below::neverAbove, below -> below.when().isPresent())
                .containsExactly(tuple(true, false), tuple(false, true));
    }

    @Test
    void aPlanThatCoolsUnderControlIsBelowATemperatureWhenItPassesItNotWhenItIsOver() {
        Outlook outlook = of(plan(ramp("100 °C/h", "515 °C", ""), ramp("20 °C/h", "80 °C", "4 h")), UNKNOWN);
        // Independent: 500 K at 100 K/h, then 395 K at 20 K/h to 120 °C: 24 h 45 min; the plan goes on to 80 °C and
        // holds.
        assertThat(outlook.crack().orElseThrow().between().contains(Duration.ofMinutes(24 * 60 + 45)))
                .isTrue();
        assertThat(outlook.crack().orElseThrow().probable())
                .isLessThan(outlook.planOver().orElseThrow().probable().minusHours(5));
    }
}
