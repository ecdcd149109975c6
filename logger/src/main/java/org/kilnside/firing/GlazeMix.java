package org.kilnside.firing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * What a glaze was mixed of, by parts of one measure: {@code Oatmeal 3 + Rainwater 1}.
 *
 * @param parts in the order written; empty for a glaze used as it is
 */
public record GlazeMix(List<Part> parts) {
    public static final GlazeMix NONE = new GlazeMix(List.of());

    /** A name, and behind it a number with a decimal point or comma, a percent sign allowed. */
    private static final Pattern PART = Pattern.compile("(.*\\S)\\s+(\\d{1,9}(?:[.,]\\d{1,6})?)\\s*%?");

    public GlazeMix {
        parts = List.copyOf(parts);
    }

    /**
     * One thing in the mix.
     *
     * @param parts above 0
     */
    public record Part(String name, double parts) {
        public Part {
            if (name.isBlank() || !(parts > 0) || Double.isInfinite(parts)) {
                throw new IllegalArgumentException("\"" + name + " " + parts
                        + "\" is no part of a mix: a name and behind it a number above 0, such as \"Oatmeal 3\"");
            }
        }
    }

    /**
     * Reads a mix as a person writes it: parts joined by plus signs, semicolons or commas.
     *
     * @throws IllegalArgumentException with what was found and expected, when a part lacks its name or number
     */
    public static GlazeMix parse(String text) {
        List<Part> parts = new ArrayList<>();
        for (String piece : text.split("[+;\\n]|,\\s", -1)) {
            String part = piece.strip();
            if (part.isEmpty()) {
                continue;
            }
            Matcher found = PART.matcher(part);
            if (!found.matches()) {
                throw new IllegalArgumentException("\"" + part
                        + "\" is no part of a mix: a name and behind it a number above 0, such as \"Oatmeal 3\"");
            }
            parts.add(new Part(
                    found.group(1).strip(), Double.parseDouble(found.group(2).replace(',', '.'))));
        }
        return new GlazeMix(parts);
    }

    public boolean isNone() {
        return parts.isEmpty();
    }

    /**
     * As a person writes it, so that {@link #parse} reads the same.
     *
     * @param decimalMark the language's: a point or a comma
     */
    public String text(char decimalMark) {
        return parts.stream()
                .map(part -> part.name() + " " + number(part.parts()).replace('.', decimalMark))
                .collect(Collectors.joining(" + "));
    }

    private static String number(double value) {
        return value == Math.rint(value)
                ? String.format(Locale.ROOT, "%.0f", value)
                : new java.math.BigDecimal(Double.toString(value))
                        .stripTrailingZeros()
                        .toPlainString();
    }
}
