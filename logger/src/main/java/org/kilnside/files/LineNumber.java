package org.kilnside.files;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A number as a controller prints it: with a point or a comma, perhaps a unit behind it. */
public final class LineNumber {
    // Both sides are bounded and nothing nests, so that java.util.regex cannot run away here.
    private static final Pattern NUMBER =
            Pattern.compile("\\s{0,9}([+-]?\\d{0,12}(?:[.,]\\d{0,18})?)\\s{0,3}(°?[A-Za-z]{0,4}|°|%)\\s{0,9}");

    private static final Pattern CLOCK = Pattern.compile("(?:(\\d{1,4}):)?(\\d{1,2}):(\\d{2})(?:\\.\\d{1,3})?");

    private LineNumber() {}

    /** The number; empty when the text is none. */
    public static OptionalDouble of(String text) {
        Matcher matcher = NUMBER.matcher(text);
        if (!matcher.matches()) {
            return OptionalDouble.empty();
        }
        String digits = matcher.group(1).replace(',', '.');
        if (digits.chars().noneMatch(Character::isDigit)) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(Double.parseDouble(digits));
    }

    /** What is written behind the number; empty when nothing is. */
    public static Optional<String> unit(String text) {
        Matcher matcher = NUMBER.matcher(text);
        return matcher.matches() && !matcher.group(2).isEmpty() ? Optional.of(matcher.group(2)) : Optional.empty();
    }

    /** A time such as 1:02:03 or 02:03 in seconds; empty when the text is none. */
    public static OptionalDouble clockSeconds(String text) {
        Matcher matcher = CLOCK.matcher(text.strip());
        if (!matcher.matches()) {
            return OptionalDouble.empty();
        }
        int hours = matcher.group(1) == null ? 0 : Integer.parseInt(matcher.group(1));
        return OptionalDouble.of(
                hours * 3600.0 + Integer.parseInt(matcher.group(2)) * 60.0 + Integer.parseInt(matcher.group(3)));
    }
}
