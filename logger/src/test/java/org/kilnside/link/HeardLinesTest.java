package org.kilnside.link;

import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalInt;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.kilnside.files.LinePatternFiles;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.protocol.ChannelCodes;
import org.kilnside.protocol.KeptEnd;
import org.kilnside.protocol.KeptLine;
import org.kilnside.protocol.LineEncoder;
import org.kilnside.protocol.Message;
import org.kilnside.session.LineView;
import org.kilnside.session.LineView.Sort;
import org.kilnside.session.LineView.Verdict;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

class HeardLinesTest {
    private static final Path BAD = Path.of("..", "firmware-protocol", "vectors", "bad");

    private final HandMovedClock clock = new HandMovedClock();
    private final ScriptedPort port = new ScriptedPort(clock);
    private final Lines lines = new Lines();

    private LineView read() {
        return read(ProtocolLines.saying(Words.of(Locale.ENGLISH, Preferences.of(Locale.ENGLISH))));
    }

    private LineView read(LineReader.Maker maker) {
        LinkSurroundings around = new LinkSurroundings(clock, clock, ProfileLibrary.starters(), false);
        LinkReader link = new LinkReader("serial:/dev/ttyTEST", port, around, maker);
        port.afterTheLastStep = link::close;
        link.run(new Heard());
        return link.lines();
    }

    private static List<Verdict> verdicts(LineView view) {
        return view.lines().stream().map(LineView.Line::verdict).toList();
    }

    @Test
    void eachLineStandsAsItCameWithWhatBecameOfIt() {
        Message reading = lines.reading(1_010, 600);
        port.says("41 u=500 ~0000\n")
                .says(lines.hello(10))
                .silentFor(1_000)
                .says(reading)
                .says(reading)
                .says(new KeptLine(
                        2,
                        1_020,
                        3,
                        1,
                        List.of(new ChannelCodes(1, OptionalInt.of(600 * 128), OptionalInt.empty(), OptionalInt.of(0))),
                        OptionalInt.empty(),
                        OptionalInt.empty(),
                        OptionalInt.empty()))
                .says(new KeptEnd(3, 1_030, 3, 1));
        LineView view = read();

        assertThat(verdicts(view))
                .containsExactly(
                        Verdict.HALF,
                        Verdict.HELLO,
                        Verdict.READING,
                        Verdict.REPEATED,
                        Verdict.KEPT_READING,
                        Verdict.END_OF_KEPT);
        LineView.Line shown = view.lines().get(2);
        assertThat(shown.text() + "\n").isEqualTo(new String(LineEncoder.encode(reading), StandardCharsets.US_ASCII));
        assertThat(shown.cut()).isFalse();
        assertThat(shown.number()).isEqualTo(3);
        assertThat(shown.hostMs() - view.lines().get(0).hostMs()).isEqualTo(1_000);
        assertThat(view.count(Sort.READING)).isEqualTo(2);
        assertThat(view.count(Sort.SPOILT)).isZero();
    }

    /** Source of the expectation: the folders of vectors/bad, which PROTOCOL.md binds every reader to. */
    @Test
    void everyBadVectorIsSpoiltForTheReasonItsFolderNames() throws IOException {
        Map<String, Verdict> named = Map.ofEntries(
                entry("too-long", Verdict.TOO_LONG),
                entry("not-ascii", Verdict.STRANGE_BYTE),
                entry("crc-missing", Verdict.CHECKSUM_MISSING),
                entry("crc-wrong", Verdict.CHECKSUM_WRONG),
                entry("bad-kind", Verdict.BAD_KIND),
                entry("bad-sequence", Verdict.BAD_SEQUENCE),
                entry("bad-uptime", Verdict.BAD_UPTIME),
                entry("bad-field", Verdict.BAD_FIELD),
                entry("doubled-key", Verdict.DOUBLED_FIELD),
                entry("out-of-range", Verdict.OUT_OF_RANGE),
                entry("missing-field", Verdict.MISSING_FIELD));
        List<Path> vectors;
        try (Stream<Path> walk = Files.walk(BAD)) {
            vectors = walk.filter(file -> file.toString().endsWith(".line"))
                    .sorted()
                    .toList();
        }
        port.says(lines.hello(10));
        for (Path vector : vectors) {
            port.says(Files.readAllBytes(vector));
        }
        LineView view = read();

        assertThat(vectors).hasSizeGreaterThan(60).hasSizeLessThan(LineView.MOST_LINES);
        assertThat(verdicts(view).subList(1, view.lines().size()))
                .containsExactlyElementsOf(vectors.stream()
                        .map(vector ->
                                named.get(vector.getParent().getFileName().toString()))
                        .toList());
        assertThat(view.count(Sort.SPOILT)).isEqualTo(vectors.size());
    }

    @Test
    void onlyTheLastLinesAreKeptButAllAreCounted() {
        port.says(lines.hello(10));
        for (int i = 1; i <= 1_000; i++) {
            port.says(lines.reading(10 + i * 1_000L, 600)).says("noise " + i + "\n");
        }
        LineView view = read();

        assertThat(view.lines()).hasSize(LineView.MOST_LINES);
        assertThat(view.lines().get(LineView.MOST_LINES - 1).text()).isEqualTo("noise 1000");
        assertThat(view.lines().get(LineView.MOST_LINES - 1).number()).isEqualTo(2_001);
        assertThat(view.count(Verdict.READING)).isEqualTo(1_000);
        assertThat(view.count(Verdict.CHECKSUM_MISSING)).isEqualTo(1_000);
    }

    @Test
    void whatIsNoTextStandsAsItsBytesAndALongLineIsCut() {
        port.says(lines.hello(10))
                .says(new byte[] {0, 'R', (byte) 0xB0, 0x1B, '\n'})
                .says("U".repeat(5_000) + "\n");
        LineView view = read();

        assertThat(view.lines().get(1).text()).isEqualTo("\\x00R\\xB0\\x1B");
        assertThat(view.lines().get(2).text()).isEqualTo("U".repeat(120));
        assertThat(view.lines().get(2).cut()).isTrue();
    }

    @Test
    void aNumberItsAmplifierCannotGiveAndAFieldNobodyKnowsAreSaid() {
        port.says(lines.hello(10))
                .says(sealed("R 1 1010 t1=76800 j1=27000"))
                .says(sealed("R 2 2010 t1=76800 zz=4"))
                .says(sealed("Z 3 3010 t1=76800"));
        assertThat(verdicts(read()))
                .containsExactly(
                        Verdict.HELLO,
                        Verdict.READING_WITH_IMPOSSIBLE_CODE,
                        Verdict.READING_WITH_UNKNOWN_FIELDS,
                        Verdict.UNKNOWN_KIND);
    }

    @Test
    void aControllersOwnLinesAreShownTooAndThoseNotOfThePattern() {
        port.says("0,20,20\n")
                .says("5234,1043.2,1050,87\n")
                .says("door open: 25 °C\n".getBytes(StandardCharsets.UTF_8));
        LineView view = read((ears, heard) -> new PatternLines(
                LinePatternFiles.read(Path.of("..", "profiles", "line-patterns", "columns.toml")), ears, heard));

        assertThat(verdicts(view)).containsExactly(Verdict.HALF, Verdict.READING, Verdict.NOT_THE_PATTERN);
        assertThat(view.lines().get(2).text()).isEqualTo("door open: 25 °C");
    }

    private static String sealed(String body) {
        byte[] bytes = body.getBytes(StandardCharsets.US_ASCII);
        return String.format("%s ~%04X\n", body, org.kilnside.protocol.Crc16.of(bytes, 0, bytes.length));
    }
}
