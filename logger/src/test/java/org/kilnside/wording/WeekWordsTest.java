package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Volume;
import org.kilnside.week.Attendance;
import org.kilnside.week.FiringTimes;
import org.kilnside.week.Load;
import org.kilnside.week.LoadAhead;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.PlannedFiring.AtTop;
import org.kilnside.week.PlannedFiring.WaitsFor;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;

class WeekWordsTest {
    private static final ZoneId ZONE = ZoneId.of("Europe/Amsterdam");
    private static final Kiln KILN = ProfileLibrary.starters().kiln("tall-drum");
    private static final Load BOWLS = new Load(
            "Bowls",
            "bisque",
            ProfileLibrary.starters().plan("bisque").schedule(),
            OptionalDouble.of(36),
            Ware.UNKNOWN,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            false);
    private static final Outlook OUTLOOK =
            Outlook.of(OutlookQuestion.about(BOWLS.plan(), KILN).withLoadKg(BOWLS.kg()));

    private static Instant at(String local) {
        return LocalDateTime.parse(local).atZone(ZONE).toInstant();
    }

    private static Week week(String due) {
        return new Week(
                "For the café",
                "tall-drum",
                Optional.empty(),
                Optional.ofNullable(due).map(WeekWordsTest::at),
                Optional.empty(),
                Attendance.ALWAYS,
                false,
                Duration.ofHours(1),
                ZONE,
                List.of(BOWLS));
    }

    private static Estimate<Duration> after(double h, double fromH, double toH) {
        return Estimate.of(minutes(h), minutes(fromH), minutes(toH));
    }

    private static Duration minutes(double hours) {
        return Duration.ofMinutes(Math.round(hours * 60));
    }

    /** Lit on Saturday at 18:00; at its top on Sunday at 05:03, in two minutes over half an hour either way. */
    private static PlannedFiring firing(Optional<String> by, AtTop top, WaitsFor waits) {
        FiringTimes times = new FiringTimes(
                after(11.05, 10.5, 11.6),
                after(11.2, 10.7, 11.8),
                Optional.of(after(27, 22.5, 33)),
                after(34, 29, 38.4));
        return new PlannedFiring(
                0, at("2026-11-28T18:00"), by.map(WeekWordsTest::at), times, at("2026-11-30T08:30"), top, waits);
    }

    private static WeekPlan plan(PlannedFiring firing, Long spareH) {
        return new WeekPlan(
                List.of(new LoadAhead(BOWLS, OUTLOOK, Optional.of(firing.times()))),
                List.of(firing),
                List.of(),
                List.of(),
                List.of(),
                Optional.ofNullable(spareH).map(Duration::ofHours),
                Optional.empty(),
                Optional.empty(),
                OUTLOOK.energy(),
                OUTLOOK.cost());
    }

    private static WeekWords words(String language) {
        Locale locale = Locale.forLanguageTag(language);
        Preferences its = Preferences.of(locale);
        Preferences there = new Preferences(its.unit(), its.clock(), ZONE, its.opening());
        return new WeekWords(Words.of(locale, there), ConeTable.of(KILN.series()), KILN);
    }

    private static String plain(String text) {
        return text.replace('\u00a0', ' ');
    }

    private static List<String> head(WeekWords words, Week week, WeekPlan plan) {
        return words.head(week, plan).stream().map(WeekWordsTest::plain).toList();
    }

    @Test
    void aWeekInTimeSaysSoFirstAndWhatIsToSpare() {
        PlannedFiring firing = firing(Optional.of("2026-11-29T09:15"), AtTop.SOMEBODY, WaitsFor.NOTHING);
        assertThat(head(words("en-GB"), week("2026-12-01T09:00"), plan(firing, 24L)))
                .containsExactly(
                        "All in time: the last load is out Mon 30 Nov 08:30.",
                        "24 h 30 min to spare before Tue 1 Dec 09:00.");
        assertThat(head(words("en-GB"), week(null), plan(firing, null))).containsExactly("All out Mon 30 Nov 08:30.");
    }

    @Test
    void aWeekThatIsLateSaysWhichLoadByHowMuchAndAfterWhichDate() {
        PlannedFiring firing = firing(Optional.empty(), AtTop.SOMEBODY, WaitsFor.NOTHING);
        assertThat(head(words("en-GB"), week("2026-11-27T09:00"), plan(firing, -71L)))
                .containsExactly(
                        "Too late: Bowls is out Mon 30 Nov 08:30, 3 days 0 h after Fri 27 Nov 09:00.",
                        "The last load is out Mon 30 Nov 08:30.");
    }

    @Test
    void aLoadWithoutRoomSaysWhoWouldHaveToBeThereWhen() {
        WeekPlan plan = new WeekPlan(
                List.of(new LoadAhead(BOWLS, OUTLOOK, Optional.empty())),
                List.of(),
                List.of(),
                List.of(0),
                List.of(Optional.of(
                        new WeekPlan.Lit(at("2026-11-30T18:00"), at("2026-12-01T08:02"), at("2026-12-01T08:12")))),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
        assertThat(head(words("en-GB"), week(null), plan))
                .containsExactly(
                        "No time is found for Bowls within four weeks at which somebody is there for all of it: lit"
                                + " as soon as somebody is there, Mon 30 Nov 18:00, its top would come about Tue 1 Dec 08:00, and its"
                                + " hold be over about Tue 1 Dec 08:10. Somebody would have to be there then.");
    }

    @Test
    void aKilnTooWeakForAPlanSaysWhereItTopsOut() {
        Kiln weak = Kiln.named("Weak one");
        Outlook falls = Outlook.of(OutlookQuestion.about(
                ProfileLibrary.starters().plan("mid-range-glaze").schedule(),
                new Kiln(
                        weak.name(),
                        Optional.of(Volume.ofLitres(120)),
                        Optional.of(Power.ofKilowatts(3)),
                        Optional.of(Kiln.Wall.BRICK),
                        weak.opening(),
                        weak.isolator(),
                        weak.tariff(),
                        weak.limits(),
                        weak.thresholds(),
                        weak.sensors())));
        WeekPlan plan = new WeekPlan(
                List.of(new LoadAhead(BOWLS, falls, Optional.empty())),
                List.of(),
                List.of(0),
                List.of(),
                List.of(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
        assertThat(head(words("en-GB"), week(null), plan))
                .singleElement()
                .asString()
                .startsWith("Bowls cannot be planned: ")
                .contains("At this pace it tops out near ");
    }

    @Test
    void aFiringIsToldInTheOrderOfTheClockWithItsRanges() {
        PlannedFiring firing = firing(Optional.of("2026-11-29T09:15"), AtTop.SOMEBODY, WaitsFor.SOMEBODY_AT_TOP);
        WeekWords.Firing said = words("en-GB").firing(plan(firing, 24L), firing);
        assertThat(said.name()).isEqualTo("Bowls");
        assertThat(said.plan()).startsWith("Bisque, comes to");
        assertThat(said.lines().stream().map(WeekWordsTest::plain))
                .containsExactly(
                        "Light it Sat 28 Nov 18:00, and no later than Sun 29 Nov 09:15.",
                        "Not sooner: nobody would be there at its top, or when its hold is over.",
                        "At its top, 992 °C, about Sun 29 Nov 05:00 (04:30–05:40, nine in ten); somebody is there.",
                        "Below 120 °C, to crack the lid, about Sun 29 Nov 21:00 (Sun 16:30–Mon 03:00, nine in ten).",
                        "Below 50 °C, to unload, about Mon 30 Nov 04:00 (Sun 23:00–Mon 08:30, nine in ten): unload it"
                                + " Mon 30 Nov 08:30.");
    }

    @Test
    void aRangeIsRoundedOutwardsNeverInwards() {
        PlannedFiring firing = firing(Optional.empty(), AtTop.PROBABLY, WaitsFor.NOTHING);
        String top = plain(words("en-GB").firing(plan(firing, null), firing).top());
        // 04:30 to 05:36.
        assertThat(top).contains("(04:30–05:40,").contains("not all through its range");
    }

    @Test
    void nobodyAtTheTopIsSaid() {
        PlannedFiring firing = firing(Optional.empty(), AtTop.NOBODY, WaitsFor.NOTHING);
        assertThat(words("en-GB").firing(plan(firing, null), firing).top()).endsWith("; nobody is there.");
    }

    @Test
    void theEndOfALongHoldIsToldAsSomebodyIsToBeThereThen() {
        PlannedFiring drying = new PlannedFiring(
                0,
                at("2026-11-28T18:00"),
                Optional.empty(),
                new FiringTimes(after(1, 0.9, 1.1), after(13, 12.5, 13.5), Optional.empty(), after(15, 14, 16)),
                at("2026-11-29T10:00"),
                AtTop.SOMEBODY,
                WaitsFor.NOTHING);
        assertThat(plain(words("en-GB").firing(plan(drying, null), drying).top()))
                .isEqualTo(
                        "At its top, 992 °C, about Sat 28 Nov 19:00 (18:50–19:10, nine in ten); its hold is over about"
                                + " Sun 29 Nov 07:00 (06:30–07:30, nine in ten); somebody is there.");
    }

    @Test
    void itIsToldInDutchAndGermanAndByTheAmericanClock() {
        PlannedFiring firing = firing(Optional.of("2026-11-28T18:00"), AtTop.SOMEBODY, WaitsFor.WARE);
        WeekPlan plan = plan(firing, 24L);
        assertThat(plain(words("nl-NL").firing(plan, firing).light()))
                .isEqualTo("Steek de oven aan op za 28 nov. 18:00, en niet later.");
        assertThat(plain(words("de-DE").firing(plan, firing).light()))
                .isEqualTo("Sa. 28. Nov. 18:00 anheizen, nicht später.");
        assertThat(plain(words("en-US").firing(plan, firing).unload()))
                .startsWith(
                        "Below 122 °F, to unload, about Mon 30 Nov 4:00 AM (Sun 11:00 PM–Mon 8:30 AM, nine in ten)");
    }

    @Test
    void theFootHasEnergyCostAndEveryCautionLast() {
        PlannedFiring firing = firing(Optional.empty(), AtTop.SOMEBODY, WaitsFor.NOTHING);
        List<String> foot = words("en-GB").foot(plan(firing, null));
        assertThat(foot.get(0)).contains("kWh");
        assertThat(foot.get(1)).contains("EUR");
        assertThat(foot.subList(foot.size() - 3, foot.size()))
                .isEqualTo(words("en-GB").cautions());
        assertThat(String.join(" ", foot))
                .contains("late end of its range")
                .contains("it lights nothing")
                .contains("Damp ware bursts at 100")
                .contains("the kiln maker decides")
                .contains("common practice");
    }
}
