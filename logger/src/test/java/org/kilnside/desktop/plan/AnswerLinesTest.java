package org.kilnside.desktop.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.kilnside.files.UnitText;
import org.kilnside.firing.Kiln;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.Language;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class AnswerLinesTest {
    private static AnswerLines of(String rate, String to, String hold) {
        Schedule plan = new Schedule(
                "a plan",
                List.of(new Segment.Ramp(UnitText.rate(rate), UnitText.temperature(to), UnitText.duration(hold))));
        OutlookQuestion question = OutlookQuestion.about(plan, Kiln.named("a kiln"));
        return AnswerLines.of(
                new LiveOutlook.Answer(question, Outlook.of(question)),
                Words.of(Language.ENGLISH, Preferences.of(Locale.GERMANY)));
    }

    private static AnswerLines.Figure figure(AnswerLines lines, String label) {
        return lines.figures().stream()
                .filter(each -> each.label().startsWith(label))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void aTemperatureThePlanNeverPassesIsNotWaitedForInTheWindowEither() {
        AnswerLines candling = of("40 °C/h", "80 °C", "8 h");
        assertThat(candling.sentence()).isEqualTo("No cone: too cool even for cone 022 (586 °C).");
        assertThat(figure(candling, "Lid < 120 °C").value()).isEqualTo("never that hot");
        assertThat(figure(candling, "Top 80 °C").label()).isEqualTo("Top 80 °C");
    }

    @Test
    void aTopThatMayBeOutOfReachIsMarkedBesideItsTime() {
        assertThat(figure(of("100 °C/h", "1222 °C", "10 min"), "Top").label()).isEqualTo("Top 1222 °C, if reached");
    }

    @Test
    void theConeHasItsRangeBesideIt() {
        AnswerLines bisque = of("100 °C/h", "992 °C", "10 min");
        assertThat(bisque.coneRange().orElseThrow()).matches("Cone 0\\d \\(\\d+ °C\\) to cone 0\\d \\(\\d+ °C\\)");
        assertThat(of("40 °C/h", "80 °C", "8 h").coneRange()).isEmpty();
    }
}
