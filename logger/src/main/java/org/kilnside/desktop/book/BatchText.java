package org.kilnside.desktop.book;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.kilnside.firing.GlazeMix;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Outcome;
import org.kilnside.wording.Words;

/** A batch as it stands in the fields of a form: to text, and back with a sentence where a field cannot be read. */
public final class BatchText {
    /** Longer than this is no field's word. */
    public static final int LONGEST = 200;

    /** Longer than this is no remark. */
    public static final int LONGEST_REMARK = 20_000;

    private BatchText() {}

    /** The fields that are written; how it came out is chosen. */
    public enum Field {
        NAME("load.field.name"),
        PIECES("load.field.pieces"),
        CLAY("load.field.clay"),
        THICKNESS("load.field.thickness"),
        GLAZE("load.field.glaze"),
        MIX("load.field.mix"),
        COATS("load.field.coats"),
        SHELF("load.field.shelf"),
        REMARK("load.field.remark");

        private final String label;

        Field(String label) {
            this.label = label;
        }

        String label(Words words) {
            return words.text(label);
        }
    }

    /** A field that cannot be read, and why in one sentence. */
    public record Wrong(Field field, String sentence) {}

    /**
     * What the fields say.
     *
     * @param batch what is readable; a field that is not is as it was before
     * @param wrong the first field that cannot be read; empty when all can
     */
    public record Read(LoadedBatch batch, Optional<Wrong> wrong) {}

    /** What stands in each field. */
    public static Map<Field, String> of(LoadedBatch batch, Words words) {
        Map<Field, String> texts = new EnumMap<>(Field.class);
        texts.put(Field.NAME, batch.name());
        texts.put(Field.PIECES, whole(batch.pieces()));
        texts.put(Field.CLAY, batch.clay().orElse(""));
        texts.put(
                Field.THICKNESS,
                batch.thicknessMm().isEmpty()
                        ? ""
                        : words.number(batch.thicknessMm().getAsDouble(), 1).replaceAll("[.,]0$", ""));
        texts.put(Field.GLAZE, batch.glaze().orElse(""));
        texts.put(Field.MIX, batch.mix().text(words.decimalMark()));
        texts.put(Field.COATS, whole(batch.coats()));
        texts.put(Field.SHELF, batch.shelf().orElse(""));
        texts.put(Field.REMARK, batch.remark().orElse(""));
        return texts;
    }

    private static String whole(OptionalInt value) {
        return value.isEmpty() ? "" : Integer.toString(value.getAsInt());
    }

    /** Reads the fields over a batch as it was. */
    public static Read read(LoadedBatch before, Map<Field, String> texts, Outcome outcome, Words words) {
        Reader reader = new Reader(texts, words);
        LoadedBatch batch = new LoadedBatch(
                before.number(),
                before.batch(),
                reader.name(before.name()),
                reader.whole(Field.PIECES, before.pieces(), 100_000),
                reader.text(Field.CLAY, before.clay()),
                reader.thickness(before.thicknessMm()),
                reader.text(Field.GLAZE, before.glaze()),
                reader.mix(before.mix()),
                reader.whole(Field.COATS, before.coats(), 99),
                reader.text(Field.SHELF, before.shelf()),
                outcome,
                reader.text(Field.REMARK, before.remark()));
        return new Read(batch, Optional.ofNullable(reader.wrong));
    }

    private static final class Reader {
        private final Map<Field, String> texts;
        private final Words words;
        private Wrong wrong;

        Reader(Map<Field, String> texts, Words words) {
            this.texts = texts;
            this.words = words;
        }

        private String written(Field field) {
            return texts.getOrDefault(field, "").strip();
        }

        private <T> T refuse(Field field, String sentence, T before) {
            if (wrong == null) {
                wrong = new Wrong(field, sentence);
            }
            return before;
        }

        String name(String before) {
            String name = written(Field.NAME);
            return name.isEmpty()
                    ? refuse(Field.NAME, words.text("load.name_expected"), before)
                    : text(Field.NAME, Optional.of(before)).orElse(before);
        }

        Optional<String> text(Field field, Optional<String> before) {
            String text = written(field);
            int most = field == Field.REMARK ? LONGEST_REMARK : LONGEST;
            if (text.length() > most) {
                return refuse(field, words.text("load.too_long", field.label(words), text.length(), most), before);
            }
            return text.isEmpty() ? Optional.empty() : Optional.of(text);
        }

        OptionalInt whole(Field field, OptionalInt before, int most) {
            String text = written(field);
            if (text.isEmpty()) {
                return OptionalInt.empty();
            }
            if (!text.matches("\\d{1,9}") || Integer.parseInt(text) < 1 || Integer.parseInt(text) > most) {
                return refuse(field, words.text("load.whole_expected", field.label(words), shown(text), most), before);
            }
            return OptionalInt.of(Integer.parseInt(text));
        }

        OptionalDouble thickness(OptionalDouble before) {
            String text = written(Field.THICKNESS).replaceAll("\\s*mm$", "");
            if (text.isEmpty()) {
                return OptionalDouble.empty();
            }
            String plain = text.replace(',', '.');
            double mm = plain.matches("\\d{1,4}(\\.\\d{1,3})?") ? Double.parseDouble(plain) : 0;
            return mm < 0.1 || mm > 1000
                    ? refuse(Field.THICKNESS, words.text("load.thickness_expected", shown(text)), before)
                    : OptionalDouble.of(mm);
        }

        GlazeMix mix(GlazeMix before) {
            Optional<String> text = text(Field.MIX, Optional.of(""));
            if (written(Field.MIX).length() > LONGEST) {
                return before;
            }
            try {
                return GlazeMix.parse(text.orElse(""));
            } catch (IllegalArgumentException e) {
                return refuse(Field.MIX, words.text("load.mix_expected", shown(text.orElse(""))), before);
            }
        }

        private static String shown(String text) {
            return text.length() <= 40 ? text : text.substring(0, 40) + "…";
        }
    }
}
