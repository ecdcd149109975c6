package org.kilnside.desktop.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.ZoneId;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.desktop.book.BatchText.Field;
import org.kilnside.firing.GlazeMix;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Outcome;
import org.kilnside.wording.ClockStyle;
import org.kilnside.wording.Language;
import org.kilnside.wording.Opening;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

class BatchTextTest {
    private static final LoadedBatch BOWLS = new LoadedBatch(
            7,
            3,
            "soup bowls",
            OptionalInt.of(24),
            Optional.of("Saltmarsh"),
            OptionalDouble.of(6.5),
            Optional.of("Mix 14"),
            GlazeMix.parse("Oatmeal 3 + Rainwater 1.5"),
            OptionalInt.of(2),
            Optional.of("middle"),
            Outcome.SECOND,
            Optional.of("pinholes"));

    private static Words words(Language language) {
        return Words.of(
                language,
                new Preferences(TemperatureUnit.CELSIUS, ClockStyle.TWENTY_FOUR_HOURS, ZoneId.of("UTC"), Opening.LID));
    }

    @ParameterizedTest
    @EnumSource(Language.class)
    void whatStandsInTheFieldsIsReadAgainInEveryLanguage(Language language) {
        Words words = words(language);
        BatchText.Read read = BatchText.read(BOWLS, BatchText.of(BOWLS, words), BOWLS.outcome(), words);
        assertThat(read.wrong()).isEmpty();
        assertThat(read.batch()).isEqualTo(BOWLS);
    }

    @Test
    void anEmptyFieldSaysNothing() {
        BatchText.Read read = BatchText.read(BOWLS, Map.of(Field.NAME, "tiles"), Outcome.WELL, words(Language.ENGLISH));
        assertThat(read.wrong()).isEmpty();
        LoadedBatch tiles = LoadedBatch.named(7, 3, "tiles");
        assertThat(read.batch().pieces()).isEqualTo(tiles.pieces());
        assertThat(read.batch().mix()).isEqualTo(GlazeMix.NONE);
        assertThat(read.batch().outcome()).isEqualTo(Outcome.WELL);
    }

    @ParameterizedTest
    @CsvSource({
        "PIECES, many, no number from 1 to 100000",
        "PIECES, 0, no number from 1",
        "PIECES, -4, no number from 1",
        "PIECES, 9999999999999, no number from 1",
        "COATS, 2.5, no number from 1 to 99",
        "THICKNESS, thick, is no thickness",
        "THICKNESS, 0, is no thickness",
        "MIX, Oatmeal, is no mix",
        "NAME, ' ', needs a name"
    })
    void aFieldThatCannotBeReadSaysWhyAndTheOthersAreRead(Field field, String text, String words) {
        Map<Field, String> texts = BatchText.of(BOWLS, words(Language.ENGLISH));
        texts.put(field, text);
        texts.put(Field.CLAY, "Grey Ash");
        BatchText.Read read = BatchText.read(BOWLS, texts, BOWLS.outcome(), words(Language.ENGLISH));
        assertThat(read.wrong()).isPresent();
        assertThat(read.wrong().orElseThrow().field()).isEqualTo(field);
        assertThat(read.wrong().orElseThrow().sentence()).contains(words);
        assertThat(read.batch().clay()).contains("Grey Ash");
        assertThat(read.batch().pieces()).isEqualTo(BOWLS.pieces());
        assertThat(read.batch().name()).isEqualTo(BOWLS.name());
    }

    @Test
    void decimalCommaAndPointAreReadInEveryLanguage() {
        for (String text : new String[] {"6,5", "6.5", "6.5 mm"}) {
            Map<Field, String> texts = BatchText.of(BOWLS, words(Language.GERMAN));
            texts.put(Field.THICKNESS, text);
            assertThat(BatchText.read(BOWLS, texts, Outcome.WELL, words(Language.GERMAN))
                            .batch()
                            .thicknessMm())
                    .hasValue(6.5);
        }
    }

    /** Any text in any field gives a batch and at most one sentence. */
    @Test
    void anyTextInAnyFieldIsReadOrSaid() {
        Random random = new Random(5);
        for (int i = 0; i < 3000; i++) {
            Map<Field, String> texts = BatchText.of(BOWLS, words(Language.ENGLISH));
            Field field = Field.values()[random.nextInt(Field.values().length)];
            StringBuilder text = new StringBuilder();
            int length = random.nextInt(i % 50 == 0 ? 30_000 : 40);
            for (int k = 0; k < length; k++) {
                text.appendCodePoint(
                        random.nextInt(3) == 0
                                ? "0123456789.,+ %<>\"\n\t".charAt(random.nextInt(19))
                                : random.nextInt(0xD7FF));
            }
            texts.put(field, text.toString());
            BatchText.Read read = BatchText.read(BOWLS, texts, Outcome.WELL, words(Language.ENGLISH));
            assertThat(read.batch().name()).isNotBlank();
            read.wrong().ifPresent(wrong -> assertThat(wrong.field()).isEqualTo(field));
            // What was read is written and read the same again.
            assertThat(BatchText.read(
                                    read.batch(),
                                    BatchText.of(read.batch(), words(Language.ENGLISH)),
                                    Outcome.WELL,
                                    words(Language.ENGLISH))
                            .wrong())
                    .isEmpty();
        }
    }
}
