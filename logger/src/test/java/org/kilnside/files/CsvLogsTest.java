package org.kilnside.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.files.Log.Reason;

class CsvLogsTest {
    private static final ZoneId AMSTERDAM = ZoneId.of("Europe/Amsterdam");

    @TempDir
    Path folder;

    @Test
    void readsEveryColumnItKnows() {
        Log log = log("""
                elapsed_s,temp_c,output_pct,setpoint_c,cold_junction_c
                0,21.25,0,20,8.5
                1.5,22,33.3,21.5,
                3,-0.25,,,9
                """);
        assertThat(times(log)).containsExactly(0L, 1500L, 3000L);
        assertThat(temperatures(log)).containsExactly(21.25, 22.0, -0.25);
        assertThat(log.trace().output(1)).hasValue(0.333);
        assertThat(log.trace().output(2)).isEmpty();
        assertThat(log.trace().setpointC(1)).hasValue(21.5);
        assertThat(log.coldJunction().celsius(0)).hasValue(8.5);
        assertThat(log.coldJunction().celsius(1)).isEmpty();
        assertThat(log.startedAt()).isEmpty();
        assertThat(log.report().sentence()).isEmpty();
    }

    @Test
    void readsFahrenheit() {
        Log log = log("elapsed_s,temp_f,setpoint_f\n0,212,32\n1,2232,2192\n");
        assertThat(temperatures(log).get(0)).isEqualTo(100);
        assertThat(log.trace().setpointC(1).orElseThrow()).isCloseTo(1200, within(1e-9));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "2026-11-25T06:30:00Z | 2026-11-25T06:30:01.250Z",
                "2026-11-25 06:30:00Z | 2026-11-25 06:30:01.25Z",
                "2026-11-25T07:30:00+01:00 | 2026-11-25T07:30:01,250+01:00",
                "2026-11-25T01:00:00-05:30 | 2026-11-25T06:30:01.25Z",
                "2026-11-25T07:30:00 | 2026-11-25T07:30:01.250",
                "2026-11-25 07:30 | 2026-11-25 07:30:01.25",
            })
    void readsInstantsAndCountsFromTheFirst(String first, String second) {
        Log log = log("time,temp_c\n\"" + first + "\",20\n\"" + second + "\",21\n");
        assertThat(times(log)).containsExactly(0L, 1250L);
        assertThat(log.startedAt()).contains(Instant.parse("2026-11-25T06:30:00Z"));
    }

    @Test
    void theInstantOfElapsedZeroIsKnownFromAnyRowThatHasBoth() {
        Log log = log("elapsed_s,time,temp_c\n10,,20\n20,2026-11-25T06:30:20Z,21\n");
        assertThat(log.startedAt()).contains(Instant.parse("2026-11-25T06:30:00Z"));
        assertThat(times(log)).containsExactly(10_000L, 20_000L);
    }

    /** Clocks in Amsterdam went back from 3:00 to 2:00 on 25 October 2026 (tz database). */
    @Test
    void theHourThatAnAutumnNightHasTwiceGoesOn() {
        Log log = log("time,temp_c\n2026-10-25T02:40:00,800\n2026-10-25T02:20:00,790\n2026-10-25T03:00:00,780\n");
        assertThat(times(log)).containsExactly(0L, 40 * 60_000L, 80 * 60_000L);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "elapsed_s;temp_c;output_pct\n0;20,5;12,5\n1,5;21,25;100\n",
                "sep=;\nelapsed_s;temp_c;output_pct\n0;20,5;12,5\n1,5;21,25;100\n",
                "\ufeffelapsed_s,temp_c,output_pct\r\n0,20.5,12.5\r\n1.5,21.25,100\r\n",
                "elapsed_s\ttemp_c\toutput_pct\n0\t20.5\t12.5\n1.5\t21,25\t100",
                "\"elapsed_s\",\"Temp_C\",\" output_pct \"\n\"0\",\"20,5\",12.5\n1.5,\" 21.25 \",\"100\"\n",
                "# Rook Lane Pottery\n\n  elapsed_s , temp_c , output_pct\n\n 0 , 20.5 ,12.5\n# a note\n1.5,21.25,100,,\n\n",
                "elapsed_s,temp_c,output_pct\r0,20.5,12.5\r1.5,21.25,100\r",
                "elapsed_s,temp_c,output_pct\n0,2.05e1,1.25E+1\n1.50000000000000000000000,+21.25,100\n",
            })
    void isPatientWithWhatSpreadsheetsMakeOfIt(String text) {
        Log log = log(text);
        assertThat(times(log)).containsExactly(0L, 1500L);
        assertThat(temperatures(log)).containsExactly(20.5, 21.25);
        assertThat(log.trace().output(0)).hasValue(0.125);
        assertThat(log.trace().output(1)).hasValue(1);
        assertThat(log.report().leftOut()).isZero();
    }

    @Test
    void aSpreadsheetsUnicodeTextIsReadToo() throws IOException {
        for (Charset wide : List.of(StandardCharsets.UTF_16, Charset.forName("x-UTF-16LE-BOM"))) {
            Path path = Files.write(folder.resolve("wide.csv"), "elapsed_s\ttemp_c\n0\t20\n1\t21\n".getBytes(wide));
            assertThat(temperatures(CsvLogs.read(path))).containsExactly(20.0, 21.0);
        }
    }

    @Test
    void badRowsAreLeftOutCountedAndSaid() {
        Log log = log("""
                elapsed_s,temp_c,output_pct,colour
                0,20,0,red
                1,,0,red
                2,n/a,0,red
                3,NaN,0,red
                4,24,oops,red
                5,-400,0,red
                ,26,0,red
                7,27,0,red,extra
                7.0,28,0,red
                8,28,250,red
                8,29,,red
                3,29,,red
                9
                10,30
                """);
        assertThat(temperatures(log)).containsExactly(20.0, 24.0, 28.0, 28.0, 30.0);
        assertThat(log.withoutTemperature())
                .as("a time, and no temperature")
                .containsExactly(1000L, 2000L, 3000L, 5000L, 9000L);
        assertThat(log.report().rows()).isEqualTo(14);
        assertThat(log.report().counts())
                .isEqualTo(Map.of(
                        Reason.HOLE, 3,
                        Reason.TEXT, 1,
                        Reason.NOT_A_NUMBER, 1,
                        Reason.IMPOSSIBLE, 1,
                        Reason.TOO_MANY_FIELDS, 1,
                        Reason.SAME_TIME, 1,
                        Reason.OUT_OF_ORDER, 1));
        assertThat(log.report().examples()).extracting(Log.LeftOut::line).containsExactly(3, 4, 5, 7, 8, 9, 12, 13, 14);
        assertThat(log.report().ignoredCells()).isEqualTo(2);
        assertThat(log.report().sentence())
                .contains(
                        "9 of 14 rows were left out: 3 with a hole (lines 3, 8, 14), 1 with text where a number or a time"
                                + " should be (line 4), 1 with NaN or infinity (line 5), 1 with an impossible number (line 7),"
                                + " 1 with more fields than the header (line 9), 1 with the time of the row before (line 12),"
                                + " 1 out of order in time (line 13); 2 cells count as not given: the first is output_pct in"
                                + " line 6, found \"oops\", expected a number from 0 to 100; the column colour was not used");
    }

    @Test
    void aCellOutsideItsRangeIsSaidWithItsColumnItsLineAndWhatWasExpected() {
        assertThat(log("elapsed_s,temp_c,output_pct\n0,20,0\n60,21,250\n120,22,0\n")
                        .report()
                        .sentence())
                .contains(
                        "1 cell counts as not given: output_pct in line 3, found \"250\", expected a number from 0 to 100");
        assertThat(log("elapsed_s,temp_f,setpoint_f\n0,70,70\n60,71,9999\n120,72,70\n")
                        .report()
                        .sentence()
                        .orElseThrow())
                .contains("setpoint_f in line 3, found \"9999\", expected a number from -459.67 to 5432");
        assertThat(log("elapsed_s,time,temp_c\n0,noon,20\n60,,21\n")
                        .report()
                        .sentence()
                        .orElseThrow())
                .contains("time in line 2, found \"noon\", expected a time such as 2026-11-25T06:30:00Z");
    }

    @Test
    void secondsThatRunOverMonthsAreSaidToBeMilliseconds() {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        StringBuilder iso = new StringBuilder("time,temp_c\n");
        for (int i = 0; i < 5000; i++) {
            text.append(i * 1000L).append(",20\n");
            iso.append(Instant.parse("2026-01-01T00:00:00Z").plusSeconds(i * 1000L))
                    .append(",20\n");
        }
        assertThatThrownBy(() -> log(text.toString()))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageContaining("elapsed_s runs over 57 days")
                .hasMessageContaining("divide them by 1000");
        // A logger that runs all year by the calendar is what it says.
        assertThat(log(iso.toString()).trace().size()).isEqualTo(5000);
    }

    @Test
    void oneFalseTimeCostsOneRowAndNotAllAfterIt() {
        StringBuilder text = new StringBuilder("elapsed_s,temp_c\n");
        for (int i = 0; i < 100; i++) {
            text.append(i == 10 ? 999_999 : i == 50 ? 2 : i)
                    .append(',')
                    .append(20 + i)
                    .append('\n');
        }
        Log log = log(text.toString());
        assertThat(log.trace().size()).isEqualTo(98);
        assertThat(log.report().examples()).extracting(Log.LeftOut::line).containsExactly(12, 52);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            quoteCharacter = '`',
            value = {
                "elapsed_s,temp_c\\n3,20\\n2,21\\n1,22\\n0,23\\n0.5,24 | log:3: time runs backwards from line to line, expected the oldest reading first; sort the file by time",
                "elapsed_s,temp_c\\n0,20\\n1,21\\n2,22\\n3,23\\n4,24\\n5,25\\n0,20\\n1,21\\n2,22\\n3,23\\n4,24 | log:8: time runs backwards here and stays behind",
                "0,20\\n1,21\\n | log:1: the log has no header: found \"0,20\"",
                "temp_c,output_pct\\n20,0\\n | log:1: the header does not name a time, elapsed_s (seconds) or time (ISO 8601)",
                "elapsed_s,temp\\n0,20\\n | did you mean \"temp_c\" by \"temp\"?",
                "time,temperature\\n0,20\\n | such as elapsed_s,temp_c; did you mean \"temp_c\" by \"temperature\"?",
                "elapsed_s,temp_k\\n0,293\\n | \"temp_k\" looks like kelvin: take 273.15 from each number and name the column temp_c",
                "elapsed,temp_c\\n0,20\\n | did you mean \"elapsed_s\" by \"elapsed\"?",
                "time_s,temp_c\\n0,20\\n | did you mean \"elapsed_s\" by \"time_s\"?",
                "elapsed_s,temp_c,temp_c\\n0,20,20\\n | log:1: the header names \"temp_c\" twice",
                "hello world\\nthis is a letter\\n | log:1: this is no log: found \"hello world\", expected a header",
                "elapsed_s,temp_c\\n | log: found 0 good readings in 0 rows, expected at least 2",
                "elapsed_s,temp_c\\n0,20\\n | log: found 1 good reading in 1 row, expected at least 2",
                "elapsed_s,temp_c\\n0,20,5\\n1,20,6\\n | log:2: found 0 good readings in 2 rows, expected at least 2; this is the first row with more fields than the header; separate the columns with \";\"",
                "time,temp_c\\n25.11.2026 06:30,20\\n25.11.2026 06:31,21\\n | the first row with text where a number or a time should be, \"25.11.2026 06:30\"; numbers stand alone in their cells, times are ISO 8601",
                "elapsed_s,temp_c\\n0,\"1,222\"\\n1,\"1,223\"\\n | text where a number or a time should be, \"1,222\"",
                "  | log: this file is empty, expected a log",
                "# only a comment | log: this file is empty, expected a log",
            })
    void refusesWithOneSentence(String text, String expected) {
        String content = text == null ? "" : text.replace("\\n", "\n");
        assertThatThrownBy(() -> log(content))
                .isInstanceOf(FileRefusedException.class)
                .satisfies(refusal ->
                        assertThat(refusal.getMessage()).contains(expected).doesNotContain("\n"));
    }

    @Test
    void refusesFilesThatAreNoText() throws IOException {
        assertRefused(folder.resolve("gone.csv"), "there is no such file");
        assertRefused(folder, "this is a folder");
        assertRefused(Files.write(folder.resolve("binary.csv"), new byte[] {127, 69, 0, 1}), "this is a binary file");
        ByteArrayOutputStream packed = new ByteArrayOutputStream();
        try (GZIPOutputStream packing = new GZIPOutputStream(packed)) {
            packing.write("elapsed_s,temp_c\n0,20\n60,21\n".getBytes(StandardCharsets.UTF_8));
        }
        assertRefused(Files.write(folder.resolve("log.csv.gz"), packed.toByteArray()), "unpack it first");
        assertRefused(Files.write(folder.resolve("endless.csv"), new byte[200_000]), "this is a binary file");
        assertRefused(
                Files.writeString(folder.resolve("line.csv"), "x".repeat(200_000)), "longer than 65536 characters");
    }

    @Test
    void zeroBytesThatAPowerCutLeftCostTheirOwnLineAndNotTheLog() {
        String zeros = "\u0000".repeat(200_000);
        Log log = log("elapsed_s,temp_c\n0,20\n1,21\n2,2" + zeros + "\n4,24\n5,25\n" + zeros);
        assertThat(temperatures(log)).containsExactly(20.0, 21.0, 24.0, 25.0);
        assertThat(log.report().counts()).isEqualTo(Map.of(Reason.TEXT, 2));
        assertThat(log.report().examples()).extracting(Log.LeftOut::line).containsExactly(4, 7);
        assertThatThrownBy(() -> log("elapsed_s,temp\u0000_c\n0,20\n1,21\n"))
                .hasMessageContaining("this is a binary file");
    }

    @Test
    void anOutputFromNoughtToOneIsNotTakenForPerCent() {
        StringBuilder climbs = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        StringBuilder cools = new StringBuilder("elapsed_s,temp_c,output_pct\n");
        for (int i = 0; i < 100; i++) {
            climbs.append(i * 60).append(',').append(20 + 5 * i).append(i < 50 ? ",1\n" : ",0.35\n");
            cools.append(i * 60).append(',').append(900 - 5 * i).append(i < 50 ? ",1\n" : ",0\n");
        }
        Log log = log(climbs.toString());
        assertThat(log.trace().size()).isEqualTo(100);
        assertThat(log.trace().output(0)).isEmpty();
        assertThat(log.report().sentence())
                .contains(
                        "the column output_pct (never above 1 while the kiln climbs to 505 °C; expected per cent from 0"
                                + " to 100; write it in per cent, or, if it is, check the sensor) was not used");
        // A kiln on its way down may well be told one per cent.
        assertThat(log(cools.toString()).trace().output(0)).hasValue(0.01);
    }

    @Test
    void thousandsAreTakenWhereTheOtherMarkStandsBeforeTheDecimals() {
        assertThat(temperatures(log("elapsed_s,temp_c\n0,\"1,222.50\"\n1,\"-1.25\"\n\"1,002.5\",\"1,223.\"\n")))
                .containsExactly(1222.5, -1.25, 1223.0);
        assertThat(temperatures(log("elapsed_s;temp_c\n0;1.222,50\n1;1.223,75\n")))
                .containsExactly(1222.5, 1223.75);
        // Two marks that do not stand like that are still no number.
        assertThat(log("elapsed_s,temp_c\n0,20\n1,21\n2,\"12,22.50\"\n3,\"1,222,50\"\n")
                        .report()
                        .counts())
                .isEqualTo(Map.of(Reason.TEXT, 2));
    }

    @Test
    void noTextWhateverItIsEscapesAsAnythingButARefusal() {
        Random random = new Random(5);
        String letters = "0123456789.,;\t\"\n\r #-+eENa°\u0000T:Z";
        for (int round = 0; round < 5000; round++) {
            StringBuilder text = new StringBuilder("elapsed_s,time,temp_c,output_pct\n");
            for (int i = 0; i < 10; i++) {
                text.append(i)
                        .append(",2026-11-25T06:30:0")
                        .append(i)
                        .append("Z,")
                        .append(20 + i)
                        .append(",0\n");
            }
            for (int edit = 0; edit < 1 + random.nextInt(8); edit++) {
                text.setCharAt(random.nextInt(text.length()), letters.charAt(random.nextInt(letters.length())));
            }
            try {
                Log log = log(text.toString());
                assertThat(log.trace().size() + log.report().leftOut())
                        .isEqualTo(log.report().rows());
            } catch (FileRefusedException refusal) {
                assertThat(refusal.getMessage()).startsWith("log").doesNotContain("\n");
            }
        }
    }

    private static Log log(String text) {
        try {
            return CsvLogs.read(new StringReader(text), "log", AMSTERDAM);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private static void assertRefused(Path path, String expected) {
        assertThatThrownBy(() -> CsvLogs.read(path))
                .isInstanceOf(FileRefusedException.class)
                .hasMessageStartingWith(path.toString())
                .hasMessageContaining(expected);
    }

    private static List<Long> times(Log log) {
        return IntStream.range(0, log.trace().size())
                .mapToObj(log.trace()::elapsedMs)
                .toList();
    }

    private static List<Double> temperatures(Log log) {
        return IntStream.range(0, log.trace().size())
                .mapToObj(log.trace()::temperatureC)
                .toList();
    }
}
