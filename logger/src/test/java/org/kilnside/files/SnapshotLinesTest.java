package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.alarm.Alarm;
import org.kilnside.alarm.AlarmKind;
import org.kilnside.alarm.Grade;
import org.kilnside.alarm.Measure;
import org.kilnside.firing.ConeSeries;
import org.kilnside.session.LineView;
import org.kilnside.session.LineView.Verdict;
import org.kilnside.session.Snapshot;
import org.kilnside.session.Snapshots;

class SnapshotLinesTest {
    @Test
    void whatOneEndWritesTheOtherReads() {
        Snapshot sent = Snapshots.bisque(50_000, 120);
        Snapshot got = new SnapshotLines.Reader().snapshot(new SnapshotLines.Writer().line(sent, 50_000), 50_000);
        assertThat(got).usingRecursiveComparison().ignoringFields("curve").isEqualTo(sent);
        assertThat(got.curve().size()).isEqualTo(120);
        for (int i = 0; i < 120; i++) {
            assertThat(got.curve().elapsedMs(i)).isEqualTo(sent.curve().elapsedMs(i));
            assertThat(got.curve().temperatureC(i)).isEqualTo(sent.curve().temperatureC(i));
            assertThat(got.curve().output(i)).isEqualTo(sent.curve().output(i));
            assertThat(got.curve().setpointC(i)).isEqualTo(sent.curve().setpointC(i));
        }
    }

    @Test
    void coneForecastAndDoubtsTravelToo() {
        Snapshot sent = Snapshots.withFindings(50_000);
        Snapshot got = new SnapshotLines.Reader().snapshot(new SnapshotLines.Writer().line(sent, 50_000), 50_000);
        assertThat(sent.findings().cone()).isPresent();
        assertThat(sent.findings().forecast().orElseThrow().fan()).isNotEmpty();
        assertThat(got.findings()).isEqualTo(sent.findings());
    }

    @Test
    void aConeTravelsWithItsKind() {
        Snapshot sent = Snapshots.withFindings(50_000, ConeSeries.LARGE);
        Snapshot got = new SnapshotLines.Reader().snapshot(new SnapshotLines.Writer().line(sent, 50_000), 50_000);
        assertThat(got.findings().cone().orElseThrow().series()).isEqualTo(ConeSeries.LARGE);
        assertThat(got.findings()).isEqualTo(sent.findings());
    }

    @Test
    void aForecastTravelsOnceAndIsKeptAtTheOtherEnd() {
        SnapshotLines.Writer writer = new SnapshotLines.Writer();
        SnapshotLines.Reader reader = new SnapshotLines.Reader();
        Snapshot snapshot = Snapshots.withFindings(50_000);
        String first = writer.line(snapshot, 50_000);
        String next = writer.line(snapshot, 50_000);
        assertThat(next).doesNotContain("\"fan\"");
        reader.snapshot(first, 50_000);
        assertThat(reader.snapshot(next, 50_000).findings()).isEqualTo(snapshot.findings());
        Snapshot without = snapshot.with(
                snapshot.connection(),
                snapshot.latest(),
                snapshot.curve(),
                snapshot.findings().with(Optional.empty()));
        assertThat(reader.snapshot(writer.line(without, 50_000), 50_000)
                        .findings()
                        .forecast())
                .isEmpty();
    }

    @Test
    void theAgeOfAReadingSurvivesAnotherClock() {
        Snapshot sent = Snapshots.bisque(50_000, 3);
        Snapshot got = new SnapshotLines.Reader().snapshot(new SnapshotLines.Writer().line(sent, 60_000), 1_000_000);
        long ageThere = 60_000 - sent.latest().orElseThrow().hostMs();
        assertThat(1_000_000 - got.latest().orElseThrow().hostMs()).isEqualTo(ageThere);
    }

    @Test
    void alarmsTravelWithTheirQuantities() {
        Alarm alarm = new Alarm(
                "stuck-relay-2",
                AlarmKind.STUCK_RELAY,
                Grade.COME_NOW,
                Alarm.State.RAISED_AGAIN,
                60_000,
                90_000,
                2,
                Optional.of(Measure.ofCelsius(1012.5)),
                Optional.of(Measure.ofKelvinPerHour(80)),
                OptionalLong.of(70_000),
                OptionalLong.empty());
        Snapshot sent = Snapshots.bisque(50_000, 3).withAlarms(List.of(alarm));
        Snapshot got = new SnapshotLines.Reader().snapshot(new SnapshotLines.Writer().line(sent, 60_000), 1_000_000);
        assertThat(got.alarms()).containsExactly(alarm);
    }

    @Test
    void theCurveTravelsOnceAndThenByWhatIsNew() {
        SnapshotLines.Writer writer = new SnapshotLines.Writer();
        SnapshotLines.Reader reader = new SnapshotLines.Reader();
        String first = writer.line(Snapshots.bisque(0, 3_000), 0);
        String next = writer.line(Snapshots.bisque(0, 3_003), 0);
        assertThat(next.length()).isLessThan(first.length() / 10);
        reader.snapshot(first, 0);
        assertThat(reader.snapshot(next, 0).curve().size()).isEqualTo(3_003);
    }

    @Test
    void aLongCurveTravelsInPartsThatAreEachShort() {
        SnapshotLines.Writer writer = new SnapshotLines.Writer();
        SnapshotLines.Reader reader = new SnapshotLines.Reader();
        Snapshot sent = Snapshots.bisque(0, 20_000);
        int lines = 0;
        do {
            String line = writer.line(sent, 0);
            assertThat(line.length()).isLessThan(300_000);
            reader.snapshot(line, 0);
            lines++;
            assertThat(reader.isWhole()).isEqualTo(writer.isWhole(sent));
        } while (!reader.isWhole());
        assertThat(lines).isEqualTo(5);
        Snapshot got = reader.snapshot(writer.line(sent, 0), 0);
        assertThat(got.curve().size()).isEqualTo(20_000);
        assertThat(got.curve().temperatureC(19_999)).isEqualTo(sent.curve().temperatureC(19_999));
    }

    @Test
    void aCurveMadeAnewTravelsWhole() {
        SnapshotLines.Writer writer = new SnapshotLines.Writer();
        SnapshotLines.Reader reader = new SnapshotLines.Reader();
        reader.snapshot(writer.line(Snapshots.bisque(0, 100), 0), 0);
        assertThat(reader.snapshot(writer.line(Snapshots.bisque(0, 40), 0), 0)
                        .curve()
                        .size())
                .isEqualTo(40);
    }

    @Test
    void anotherVersionIsRefusedInWords() {
        String line = new SnapshotLines.Writer()
                .line(Snapshots.bisque(0, 1), 0)
                .replace("\"version\":" + SnapshotLines.VERSION, "\"version\":1");
        assertThatThrownBy(() -> new SnapshotLines.Reader().snapshot(line, 0))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("version 1")
                .hasMessageContaining("use the same version");
    }

    @Test
    void aRequestTravelsAsALine() {
        SaidByCopy said = new SaidByCopy(
                SaidByCopy.What.NOTE, Optional.of("bung out \"now\"\n"), OptionalInt.empty(), "bedroom", 3, 1_500);
        assertThat(said.line()).doesNotContain("\n");
        assertThat(SaidByCopy.of(said.line())).isEqualTo(said);
        assertThatThrownBy(() -> SaidByCopy.of("{")).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void theLinesHeardTravelOnceEachAndArePutTogetherAgain() {
        SnapshotLines.Writer writer = new SnapshotLines.Writer();
        SnapshotLines.Reader reader = new SnapshotLines.Reader();
        Snapshot snapshot = Snapshots.bisque(50_000, 3);
        LineView first = heard(1, 150);
        LineView next = heard(101, 300);
        reader.snapshot(writer.line(snapshot, first, 50_000), 50_000);
        assertThat(reader.heard()).isEqualTo(first);
        String second = writer.line(snapshot, next, 50_000);
        assertThat(second).contains("line 151").doesNotContain("line 150");
        reader.snapshot(second, 50_000);
        assertThat(reader.heard()).isEqualTo(next);
        String nothingNew = writer.line(snapshot, next, 51_000);
        assertThat(nothingNew).doesNotContain("heard");
        reader.snapshot(nothingNew, 51_000);
        assertThat(reader.heard()).isEqualTo(next);
    }

    private static LineView heard(int from, int to) {
        List<LineView.Line> lines = IntStream.rangeClosed(from, to)
                .mapToObj(number -> new LineView.Line(
                        number, 40_000 + number, "line " + number + " °\\x00", number % 7 == 0, Verdict.CHECKSUM_WRONG))
                .toList();
        return new LineView(lines, Map.of(Verdict.CHECKSUM_WRONG, (long) to, Verdict.READING, 5L));
    }
}
