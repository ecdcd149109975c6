package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.files.UnitText;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Volume;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

class OutlookWordsTest {
    private static final Kiln UNKNOWN = Kiln.named("a kiln");

    /** The chart has 06 at 998 °C, 60 °C/h (published): this plan falls between its neighbours. */
    private static final Schedule BISQUE = plan(ramp("100 °C/h", "890 °C", ""), ramp("60 °C/h", "992 °C", "10 min"));

    private static Segment ramp(String rate, String to, String hold) {
        return new Segment.Ramp(
                UnitText.rate(rate),
                UnitText.temperature(to),
                hold.isEmpty() ? Duration.ZERO : UnitText.duration(hold));
    }

    private static Schedule plan(Segment... segments) {
        return new Schedule("a plan", List.of(segments));
    }

    private static List<String> said(Schedule plan, Language language) {
        Words words = Words.of(language, Preferences.of(Locale.GERMANY));
        return new OutlookWords(words, ConeTable.of(ConeSeries.SELF_SUPPORTING), UNKNOWN)
                .lines(plan, Outlook.of(OutlookQuestion.about(plan, UNKNOWN)));
    }

    @Test
    void theRangeOfTheConeIsSaidInWholeConesAsThatOfAPlanIs() {
        String cones = "\\d+ \\(\\d+ °C\\)";
        assertThat(said(BISQUE, Language.ENGLISH))
                .anyMatch(line ->
                        line.matches("Sensor, chart and kiln are not exact: it may really be anywhere from cone "
                                + cones + " to cone " + cones + " \\(nine in ten\\)\\."));
        assertThat(said(BISQUE, Language.DUTCH))
                .anyMatch(line -> line.matches(".* alles zijn van kegel " + cones + " tot kegel " + cones + " .*"));
        assertThat(said(BISQUE, Language.GERMAN))
                .anyMatch(line -> line.matches(".* alles von Kegel " + cones + " bis Kegel " + cones + " sein .*"));
    }

    @Test
    void itSaysInWhoseOpinionTheLidMayBeCracked() {
        assertThat(said(BISQUE, Language.ENGLISH)).last().asString().endsWith("120 °C and 50 °C: common practice.");
    }

    @Test
    void aPlanThatMayEndPastTheHardestConeHasNoUpperEnd() {
        Schedule hottest = plan(ramp("100 °C/h", "1390 °C", ""));
        assertThat(said(hottest, Language.ENGLISH))
                .anyMatch(line -> line.matches(".* it may really be anything from cone 1[34] .* upwards .*"))
                .noneMatch(line -> line.contains("anywhere"));
        assertThat(said(hottest, Language.DUTCH)).anyMatch(line -> line.contains("alles zijn vanaf kegel 1"));
        assertThat(said(hottest, Language.GERMAN)).anyMatch(line -> line.contains("alles ab Kegel 1"));
    }

    @Test
    void aKilnThatProbablyFallsShortHasTheTopItComesToWithItsRange() {
        Kiln weak = new Kiln(
                "a weak kiln",
                Optional.of(Volume.ofLitres(68)),
                Optional.of(Power.ofKilowatts(3)),
                Optional.of(Kiln.Wall.BRICK),
                Kiln.Opening.LID,
                Optional.empty(),
                Optional.empty(),
                Kiln.Limits.UNKNOWN,
                Kiln.Thresholds.COMMON_PRACTICE,
                List.of());
        Outlook outlook = Outlook.of(OutlookQuestion.about(BISQUE, weak));
        assertThat(new OutlookWords(
                                Words.of(Language.ENGLISH, Preferences.of(Locale.GERMANY)),
                                ConeTable.of(ConeSeries.SELF_SUPPORTING),
                                weak)
                        .lines(BISQUE, outlook))
                .anyMatch(line -> line.matches(
                        "At this pace it tops out near \\d+ °C \\(\\d+ °C to \\d+ °C\\), below the planned 992 °C\\."));
        assertThat(said(BISQUE, Language.ENGLISH)).noneMatch(line -> line.contains("tops out"));
    }

    @Test
    void aPlanTooCoolForAnyConeSaysSoOnceAndWaitsForNoTemperatureItNeverPasses() {
        Schedule candling = plan(ramp("40 °C/h", "80 °C", "8 h"));
        assertThat(said(candling, Language.ENGLISH))
                .contains("No cone: too cool even for cone 022 (586 °C).", "Never above 120 °C.")
                .noneMatch(line -> line.contains("no cone is down"));
        assertThat(said(candling, Language.DUTCH))
                .contains("Geen kegel: te koel, zelfs voor kegel 022 (586 °C).", "Nooit boven 120 °C.");
        assertThat(said(candling, Language.GERMAN))
                .contains("Kein Kegel: zu kühl selbst für Kegel 022 (586 °C).", "Nie über 120 °C.");
    }

    @Test
    void aTopThatMayBeOutOfReachHasItsDoubtAndItsTimeInOneBreath() {
        assertThat(said(BISQUE, Language.ENGLISH))
                .anyMatch(line ->
                        line.startsWith("Whether it reaches 992 °C cannot be said yet; if it does, then after 1"))
                .noneMatch(line -> line.startsWith("The top, "));
        assertThat(said(BISQUE, Language.DUTCH)).anyMatch(line -> line.contains("zo ja, dan na 1"));
        assertThat(said(BISQUE, Language.GERMAN)).anyMatch(line -> line.contains("wenn ja, dann nach 1"));
        assertThat(said(plan(ramp("40 °C/h", "80 °C", "8 h")), Language.ENGLISH))
                .anyMatch(line -> line.startsWith("The top, 80 °C, after "));
    }
}
