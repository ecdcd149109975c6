package org.kilnside.desktop.kiln;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.session.Connection;
import org.kilnside.session.LineView;
import org.kilnside.session.LineView.Sort;
import org.kilnside.session.LineView.Verdict;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.SampleSnapshots;
import org.kilnside.wording.Words;

/** What the live line view says; all by the issue's own words, without a display. */
class LinesModelTest {
    private static final Words WORDS = Words.of(Locale.UK, Preferences.of(Locale.UK));
    private static final long NOW = SampleSnapshots.HOST_MS;

    @Test
    void aGoodWireIsOneSentenceWithItsRateAndTheAgeOfTheNewestLine() {
        LinesModel model = LinesModel.of(SampleLines.good(), SampleSnapshots.heating(), NOW + 2_000, WORDS);

        assertThat(model.sentence()).isEqualTo("Lines come from /dev/ttyUSB0, one each second.");
        assertThat(model.newest()).isEqualTo("The newest came 2 s ago.");
        assertThat(model.trouble()).isFalse();
        assertThat(model.advice()).isEmpty();
    }

    @Test
    void eachLineHasItsAgeItsVerdictInWordsAndASignBesideTheColour() {
        LinesModel model = LinesModel.of(SampleLines.disturbed(), SampleSnapshots.heating(), NOW, WORDS);

        assertThat(model.rows()).hasSize(90);
        assertThat(model.rows())
                .filteredOn(row -> row.sort() == Sort.READING)
                .allMatch(row -> row.mark().equals("✓"));
        LinesModel.Row spoilt = model.rows().stream()
                .filter(row -> row.verdict().equals("wrong checksum"))
                .reduce((first, second) -> second)
                .orElseThrow();
        assertThat(spoilt.mark()).isEqualTo("!");
        assertThat(spoilt.when()).isEqualTo("2 s");
        assertThat(spoilt.why()).contains("changed on its way").contains("left out");
    }

    @Test
    void theCountsAreOfAllLinesAndNameEachDefectTheMostFrequentFirst() {
        LinesModel model = LinesModel.of(SampleLines.disturbed(), SampleSnapshots.heating(), NOW, WORDS);

        LinesModel.Tally good = model.tallies().get(0);
        assertThat(good.title()).isEqualTo("gave a reading");
        assertThat(good.count()).isEqualTo("4132");
        assertThat(good.parts()).containsExactly(new LinesModel.Part("reading, and more", "12"));
        LinesModel.Tally spoilt = model.tallies().get(2);
        assertThat(spoilt.count()).isEqualTo("317");
        assertThat(spoilt.parts())
                .extracting(LinesModel.Part::title)
                .containsExactly("wrong checksum", "strange character", "field missing");
    }

    @Test
    void whenMoreThanAFewOfTheLastLinesAreSpoiltItSaysWhatThatMostLikelyMeans() {
        LinesModel model = LinesModel.of(SampleLines.disturbed(), SampleSnapshots.heating(), NOW, WORDS);

        assertThat(model.advice().orElseThrow())
                .startsWith("11 of the last 60 lines are spoilt, most of them: wrong checksum.")
                .contains("cable")
                .doesNotContain("First steps");
    }

    @Test
    void linesOfWhichNoneIsReadLeadToTheFirstStepsWhichProposeAPattern() {
        LinesModel model = LinesModel.of(SampleLines.foreign(), SampleSnapshots.heating(), NOW, WORDS);

        assertThat(model.advice().orElseThrow()).endsWith("First steps (Ctrl+G) proposes how to read them.");
    }

    @Test
    void twoSpoiltLinesAmongManyAreNoReasonToLookAtTheWire() {
        SampleLines sample = new SampleLines();
        for (int i = 0; i < 60; i++) {
            sample.add(i % 30 == 3 ? Verdict.CHECKSUM_WRONG : Verdict.READING, "R", 60 - i);
        }
        assertThat(LinesModel.of(sample.view(), SampleSnapshots.heating(), NOW, WORDS)
                        .advice())
                .isEmpty();
    }

    @Test
    void silenceIsSaidWithItsLengthAndTheLastLineGrowsOld() {
        Snapshot silent = with(SampleSnapshots.heating(), Connection.State.SILENT, NOW - 242_000);
        LinesModel model = LinesModel.of(SampleLines.silent(), silent, NOW, WORDS);

        assertThat(model.sentence()).startsWith("The cable is in, but no reading has come for 4 min.");
        assertThat(model.newest()).isEqualTo("The newest came 4 min ago.");
        assertThat(model.rows().get(model.rows().size() - 1).when()).isEqualTo("4 min");
        assertThat(model.trouble()).isTrue();
    }

    @Test
    void beforeAnythingIsRecordedItSaysSoAndClaimsNoConnection() {
        Snapshot nothing = nobody();
        LinesModel model = LinesModel.of(LineView.NONE, nothing, NOW, WORDS);

        assertThat(model.sentence()).isEqualTo("Nothing is recorded here yet, so no line is heard.");
        assertThat(model.newest()).isEmpty();
        assertThat(model.trouble()).isFalse();
        assertThat(model.tallies()).extracting(LinesModel.Tally::count).containsOnly("0");
    }

    @Test
    void theRateIsSaidAsAPersonWouldAndNotFromTwoLines() {
        assertThat(LinesModel.rate(every(0.1, 30), WORDS)).contains("10 a second");
        assertThat(LinesModel.rate(every(60, 5), WORDS)).contains("one every 1 min");
        assertThat(LinesModel.rate(every(0.0001, 100), WORDS)).contains("more than a thousand a second");
        assertThat(LinesModel.rate(every(1, 2), WORDS)).isEmpty();
    }

    @Test
    void aLineThatWasCutSaysSo() {
        LineView view = new LineView(
                List.of(new LineView.Line(7, NOW, "A".repeat(240), true, Verdict.TOO_LONG)),
                java.util.Map.of(Verdict.TOO_LONG, 1L));
        assertThat(LinesModel.of(view, SampleSnapshots.heating(), NOW, WORDS)
                        .rows()
                        .get(0)
                        .text())
                .endsWith("A …");
    }

    private static LineView every(double seconds, int lines) {
        SampleLines sample = new SampleLines();
        for (int i = lines - 1; i >= 0; i--) {
            sample.add(Verdict.READING, "R", i * seconds);
        }
        return sample.view();
    }

    static Snapshot with(Snapshot snapshot, Connection.State state, long since) {
        return snapshot.with(
                new Connection(
                        state, since, Optional.empty(), snapshot.connection().counts()),
                snapshot.latest(),
                snapshot.curve());
    }

    /** Nobody records into the book. */
    static Snapshot nobody() {
        return Snapshot.before(
                Optional.empty(), new Connection(Connection.State.LOST, NOW, Optional.empty(), Connection.Counts.NONE));
    }
}
