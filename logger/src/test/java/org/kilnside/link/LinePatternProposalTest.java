package org.kilnside.link;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.kilnside.files.LinePattern;
import org.kilnside.files.LinePatternFiles;
import org.kilnside.files.LinePatternReader;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.link.MadeUpControllers.Controller;
import org.kilnside.link.MadeUpControllers.Truth;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class LinePatternProposalTest {
    private static final int ENOUGH = 18;

    /** Some print whole degrees. */
    private static final double HALF_A_DEGREE = 0.51;

    @Test
    void atLeastEighteenOfTwentyMadeUpControllersAreReadRightByTheProposal() {
        List<String> wrong = new ArrayList<>();
        for (Controller controller : MadeUpControllers.all()) {
            wrongness(controller).ifPresent(why -> wrong.add(controller.name() + ": " + why));
        }
        assertThat(MadeUpControllers.all()).hasSize(20);
        assertThat(wrong).as("%s", wrong).hasSizeLessThanOrEqualTo(20 - ENOUGH);
    }

    @Test
    void ofTenMoreThatItWasNotMadeForAtMostOneIsReadWrong() {
        List<String> wrong = new ArrayList<>();
        for (Controller controller : UnseenControllers.all()) {
            wrongness(controller).ifPresent(why -> wrong.add(controller.name() + ": " + why));
        }
        assertThat(wrong).as("%s", wrong).hasSizeLessThanOrEqualTo(1);
    }

    @Test
    void whatIsProposedIsWrittenToAFileAndReadBackAsItIs() {
        for (Controller controller : MadeUpControllers.all()) {
            proposal(controller)
                    .pattern()
                    .ifPresent(pattern -> assertThat(
                                    LinePatternFiles.parse(LinePatternFiles.text(pattern), "proposed.toml"))
                            .as("%s", controller)
                            .isEqualTo(pattern));
        }
    }

    @Test
    void itSaysWhatItSees() {
        Controller controller = MadeUpControllers.all().get(3);
        assertThat(proposal(controller).sentence())
                .isEqualTo("2 values a line, every 2 s; number 2 looks like the kiln's temperature in °C,"
                        + " near room temperature; number 1 looks like the controller's clock in ms.");
    }

    @Test
    void aPortFromWhichForeignLinesComeProposesHowToReadThem() {
        HandMovedClock clock = new HandMovedClock();
        ScriptedPort port = new ScriptedPort(clock);
        Heard heard = new Heard();
        LinkReader link = new LinkReader(
                "serial:/dev/ttyTEST",
                port,
                new LinkSurroundings(clock, clock, ProfileLibrary.starters(), false),
                ProtocolLines.saying(Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH))));
        port.afterTheLastStep = link::close;
        port.says("43.2 SP=1050\n");
        for (String line : MadeUpControllers.all().get(1).lines()) {
            port.silentFor(1_000).says(line + "\r\n");
        }
        link.run(heard);

        assertThat(link.proposal())
                .hasValueSatisfying(proposal -> assertThat(proposal.sentence())
                        .isEqualTo("2 values a line, once a second, each behind its word; \"T\" looks like the kiln's"
                                + " temperature in °C; \"SP\" looks like the set-point in °C."
                                + " The lines name no unit: change °C to °F if that is what your controller shows."));
        assertThat(heard.connections)
                .anySatisfy(connection -> assertThat(connection.detail())
                        .hasValueSatisfying(text -> assertThat(text).contains("proposes a line pattern")));
    }

    @Test
    void textWithoutATemperatureGetsNoProposal() {
        LinePatternProposal proposal = LinePatternProposal.of(
                List.of("ready", "waiting for the door", "ready", "waiting for the door", "ready"),
                OptionalDouble.empty());
        assertThat(proposal.pattern()).isEmpty();
        assertThat(proposal.sentence()).contains("no number in them looks like a kiln's temperature");
    }

    @Test
    void aWordThatSaysFahrenheitCountsForAllTemperaturesOfTheLine() {
        LinePattern pattern = pattern(
                i -> f("{\"sensor\":{\"hot\":%.1f,\"cold\":84.2},\"set\":1220,\"unit\":\"F\"}", 1211 + jitter(i)));
        assertThat(said(pattern, LinePattern.Quantity.TEMPERATURE)).isEqualTo("sensor.hot °F 1.0");
        assertThat(said(pattern, LinePattern.Quantity.SETPOINT)).isEqualTo("set °F 1.0");
        assertThat(said(pattern, LinePattern.Quantity.COLD_JUNCTION)).isEqualTo("sensor.cold °F 1.0");
    }

    @Test
    void aCheckSumBehindAStarIsNoPartOfTheLastNumber() {
        LinePattern pattern =
                pattern(i -> f("$KLN,%d,%.0f,6600,%d*5A", i, 6550 + 10 * jitter(i), i % 2 == 0 ? 181 : 255));
        assertThat(said(pattern, LinePattern.Quantity.TEMPERATURE)).isEqualTo("3 °C 0.1");
        assertThat(said(pattern, LinePattern.Quantity.SETPOINT)).isEqualTo("4 °C 0.1");
        assertThat(said(pattern, LinePattern.Quantity.OUTPUT)).isEqualTo("5 of 255 1.0");
    }

    @Test
    void datesInAnyOrderAndWordsBetweenTheNumbersAreLetPass() {
        for (String date : List.of("20261125T2210%02d", "2026/11/25 22:10:%02d", "25.11.2026 22:10:%02d")) {
            LinePattern pattern = pattern(i -> f(date, i) + f(";%.1f;21.0;20.0;0.00;IDLE;K", 23.4 + jitter(i)));
            assertThat(said(pattern, LinePattern.Quantity.TEMPERATURE)).as(date).isEqualTo("2 °C 1.0");
        }
    }

    @Test
    void aShareOfOneIsTheOutputAndNotTheBoard() {
        LinePattern pattern = pattern(i -> f("K|%07.2f|0660.00|%.3f|2|", 655 + jitter(i), 0.45 + jitter(i) / 50));
        assertThat(said(pattern, LinePattern.Quantity.TEMPERATURE)).isEqualTo("2 °C 1.0");
        assertThat(said(pattern, LinePattern.Quantity.OUTPUT)).isEqualTo("4 share 1.0");
        assertThat(pattern.places()).doesNotContainKey(LinePattern.Quantity.COLD_JUNCTION);
    }

    @Test
    void aReferenceOfARoomsTemperatureIsTheBoardsAndAWholeOneTheSetPoint() {
        assertThat(said(
                        pattern(i -> f("{\"tc\":%.2f,\"ref\":21.9}", 23 + jitter(i))),
                        LinePattern.Quantity.COLD_JUNCTION))
                .isEqualTo("ref °C 1.0");
        assertThat(said(pattern(i -> f("{\"tc\":%.2f,\"ref\":1050}", 1043 + jitter(i))), LinePattern.Quantity.SETPOINT))
                .isEqualTo("ref °C 1.0");
    }

    private static String f(String format, Object... values) {
        return String.format(java.util.Locale.ROOT, format, values);
    }

    /** Half a degree to and fro, never the same way twice running. */
    private static double jitter(int i) {
        return Math.sin(i * 2.7) / 2;
    }

    private static LinePattern pattern(java.util.function.IntFunction<String> line) {
        List<String> lines =
                java.util.stream.IntStream.range(0, 20).mapToObj(line).toList();
        LinePatternProposal proposal = LinePatternProposal.of(lines, OptionalDouble.of(1000));
        return proposal.pattern().orElseThrow(() -> new AssertionError(proposal.sentence()));
    }

    private static String said(LinePattern pattern, LinePattern.Quantity quantity) {
        LinePattern.Place place = pattern.places().get(quantity);
        return place == null ? "nothing" : place.at() + " " + place.unit() + " " + place.scale();
    }

    @Test
    void aCounterAloneIsNoTemperature() {
        List<String> lines = new ArrayList<>();
        for (int i = 0; i < 20; i++) {
            lines.add("alive " + i);
        }
        assertThat(LinePatternProposal.of(lines, OptionalDouble.of(1000)).pattern())
                .isEmpty();
    }

    @Test
    void tooFewLinesAreSaidToBeTooFew() {
        assertThat(LinePatternProposal.of(List.of("20.5", "20.6"), OptionalDouble.empty())
                        .sentence())
                .contains("2 lines came; at least 4 are needed");
    }

    private static LinePatternProposal proposal(Controller controller) {
        return LinePatternProposal.of(controller.lines(), controller.betweenLinesMs());
    }

    /** Why the proposal reads this controller wrongly; empty when every number that it prints is read right. */
    private static Optional<String> wrongness(Controller controller) {
        LinePatternProposal proposal = proposal(controller);
        if (proposal.pattern().isEmpty()) {
            return Optional.of(proposal.sentence());
        }
        LinePattern pattern = proposal.pattern().get();
        LinePatternReader reader = new LinePatternReader(pattern);
        List<String> lines = controller.lines();
        List<Truth> truths = controller.truths();
        int before = lines.size() - truths.size();
        for (int i = 0; i < truths.size(); i++) {
            Truth truth = truths.get(i);
            Optional<LinePatternReader.Said> read = reader.read(lines.get(before + i));
            if (read.isEmpty()) {
                return Optional.of("cannot read \"" + lines.get(before + i) + "\" by " + pattern);
            }
            LinePatternReader.Said said = read.get();
            String says = controller.says();
            boolean right = near(said.temperatureC(), truth.kilnC(), HALF_A_DEGREE)
                    && (says.contains("s")
                            ? near(said.setpointC(), truth.setpointC(), 0.6)
                            : said.setpointC().isEmpty())
                    && (!says.contains("o") || near(said.output(), truth.output(), 0.006))
                    && (!says.contains("b") || near(said.coldJunctionC(), truth.boardC(), 0.06))
                    && (!says.contains("g") || said.segment().equals(java.util.OptionalInt.of(truth.segment())))
                    && (!says.contains("r") || near(said.output(), truth.output() > 0.7 ? 1 : 0, 0))
                    && (!says.contains("5")
                            || near(said.output(), (100 + Math.round(truth.output() * 155)) / 255.0, 0.001));
            if (!right) {
                return Optional.of("\"" + lines.get(before + i) + "\" read as " + said + " by " + pattern);
            }
        }
        return Optional.empty();
    }

    private static boolean near(OptionalDouble found, double expected, double tolerance) {
        return found.isPresent() && Math.abs(found.getAsDouble() - expected) <= tolerance + 1e-9;
    }
}
