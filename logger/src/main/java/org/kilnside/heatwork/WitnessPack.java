package org.kilnside.heatwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The witness cones of one shelf, as the potter noted them.
 *
 * @param shelf the potter's word for the place
 * @param cones softest first
 */
public record WitnessPack(String shelf, List<WitnessCone> cones) {
    private static final Pattern BENT = Pattern.compile("(0?\\d{1,2}(?:[.,]5|½)?):(\\d{1,3}(?:[.,]\\d+)?)°?");
    private static final Pattern SEEN_DOWN =
            Pattern.compile("(0?\\d{1,2}(?:[.,]5|½)?)@(\\d{1,2}):(\\d{2})(?::(\\d{2}))?");
    private static final double FLAT = 180;

    public WitnessPack {
        cones = cones.stream()
                .sorted((one, other) -> one.cone().compareTo(other.cone()))
                .toList();
        if (cones.isEmpty()) {
            throw new IllegalArgumentException("a witness pack holds at least one cone");
        }
    }

    /** Turns a time of day into a moment of the recording; empty when the log does not tell the time of day. */
    @FunctionalInterface
    public interface DayClock {
        /** ms on the recording's clock at which it last was this time of day before the recording's end. */
        OptionalLong elapsedMs(int hour, int minute, int second);
    }

    /**
     * A pack as a person writes it: {@code middle 5:90 6:35 7:0}, {@code top 6@21:10 7:20}.
     *
     * @throws IllegalArgumentException with a sentence that says what is wrong
     */
    public static WitnessPack parse(String text, DayClock clock) {
        String shelf = "";
        List<WitnessCone> cones = new ArrayList<>();
        for (String word : text.strip().split("[\\s;]+")) {
            Optional<WitnessCone> seen = seen(word.replaceFirst(",$", ""), text, clock);
            if (seen.isPresent()) {
                if (cones.stream()
                        .anyMatch(other -> other.cone().equals(seen.get().cone()))) {
                    throw new IllegalArgumentException("in \"" + text + "\" "
                            + seen.get().cone() + " stands twice, expected each cone once; leave one of them out");
                }
                cones.add(seen.get());
            } else if (cones.isEmpty()) {
                shelf = shelf.isEmpty() ? word : shelf + " " + word;
            } else {
                throw wrong(word, text);
            }
        }
        if (cones.isEmpty()) {
            throw new IllegalArgumentException("in \"" + text
                    + "\" there is no cone, expected a shelf and its cones such as \"middle 5:90 6:35 7:0\"");
        }
        return new WitnessPack(shelf, cones);
    }

    private static Optional<WitnessCone> seen(String word, String text, DayClock clock) {
        Matcher bent = BENT.matcher(word);
        if (bent.matches()) {
            double degrees = Double.parseDouble(bent.group(2).replace(',', '.'));
            if (degrees > FLAT) {
                throw new IllegalArgumentException("in \"" + text + "\" cone " + bent.group(1) + " bent by "
                        + bent.group(2) + "°, expected 0 (upright) to 180; 90 is the tip level with the base");
            }
            return Optional.of(
                    new WitnessCone(cone(bent.group(1), text), OptionalDouble.of(degrees), OptionalLong.empty()));
        }
        Matcher down = SEEN_DOWN.matcher(word);
        if (down.matches()) {
            int hour = Integer.parseInt(down.group(2));
            int minute = Integer.parseInt(down.group(3));
            int second = down.group(4) == null ? 0 : Integer.parseInt(down.group(4));
            if (hour > 23 || minute > 59 || second > 59) {
                throw new IllegalArgumentException("in \"" + text + "\" " + word.substring(word.indexOf('@') + 1)
                        + " is no time of day, expected one such as 21:10");
            }
            OptionalLong at = clock.elapsedMs(hour, minute, second);
            if (at.isEmpty()) {
                throw new IllegalArgumentException("in \"" + text + "\" a cone was seen down at " + hour + ":"
                        + String.format(Locale.ROOT, "%02d", minute)
                        + ", but the log does not tell the time of day, or was not running then; write its bend instead, such as "
                        + down.group(1) + ":90");
            }
            return Optional.of(new WitnessCone(cone(down.group(1), text), OptionalDouble.empty(), at));
        }
        if (word.matches(".*\\d[:@].*") || word.matches("\\d+([.,]\\d+)?")) {
            throw wrong(word, text);
        }
        return Optional.empty();
    }

    private static IllegalArgumentException wrong(String word, String text) {
        return new IllegalArgumentException("in \"" + text + "\" found \"" + word
                + "\", expected a cone and its bend in degrees such as 6:35, or when it was seen down such as 6@21:10");
    }

    private static Cone cone(String number, String text) {
        return Cone.find(number)
                .orElseThrow(() -> new IllegalArgumentException("in \"" + text + "\" there is no cone \"" + number
                        + "\": cones run 022 … 01, then 1 … 14 (06 is not 6)"));
    }
}
