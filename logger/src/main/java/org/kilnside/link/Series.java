package org.kilnside.link;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.files.LineNumber;

/**
 * The values that stood at one place of successive lines, and what they look like.
 *
 * @param at the place: a column, a word, a path
 * @param hint what is written about it: the word itself, or the heading of its column
 * @param texts as they stood on the lines
 */
record Series(String at, String hint, List<String> texts) {
    private static final double MOSTLY = 0.7;

    /** The numbers among them; not-a-number where a line had none. */
    double[] numbers() {
        return texts.stream()
                .mapToDouble(text -> LineNumber.of(text).orElse(Double.NaN))
                .toArray();
    }

    boolean isNumeric() {
        long numbers =
                texts.stream().filter(text -> LineNumber.of(text).isPresent()).count();
        return numbers >= Math.max(2, texts.size() * MOSTLY);
    }

    boolean isClock() {
        return texts.stream().allMatch(text -> LineNumber.clockSeconds(text).isPresent());
    }

    boolean isOnOff() {
        return texts.stream()
                .allMatch(text -> text.matches("(?i)on|off|heat(ing)?|idle|an|ein|aus|aan|uit|high|low|true|false"));
    }

    /** The unit written behind the numbers; empty when none is. */
    Optional<String> unit() {
        return texts.stream().flatMap(text -> LineNumber.unit(text).stream()).findFirst();
    }

    boolean hasDecimals() {
        return texts.stream().anyMatch(text -> text.matches(".*\\d[.,]\\d.*"));
    }

    double lowest() {
        return Arrays.stream(numbers()).filter(Double::isFinite).min().orElse(Double.NaN);
    }

    double highest() {
        return Arrays.stream(numbers()).filter(Double::isFinite).max().orElse(Double.NaN);
    }

    /** Whether all are whole numbers, printed with a point or not. */
    boolean isWhole() {
        return Arrays.stream(numbers()).allMatch(number -> number == Math.rint(number));
    }

    boolean isConstant() {
        return lowest() == highest();
    }

    /** The one step by which it always rises, as a clock or counter does; within a tenth. Empty when it does not. */
    OptionalDouble steadyStep() {
        double[] numbers = numbers();
        if (numbers.length < 3) {
            return OptionalDouble.empty();
        }
        double mean = (numbers[numbers.length - 1] - numbers[0]) / (numbers.length - 1);
        for (int i = 1; i < numbers.length; i++) {
            double step = numbers[i] - numbers[i - 1];
            if (!(step > 0) || Math.abs(step - mean) > Math.max(0.1 * mean, 1e-9)) {
                return OptionalDouble.empty();
            }
        }
        return OptionalDouble.of(mean);
    }

    /** The largest jump between two lines. */
    double largestStep() {
        double[] numbers = numbers();
        double largest = 0;
        for (int i = 1; i < numbers.length; i++) {
            double step = Math.abs(numbers[i] - numbers[i - 1]);
            largest = step > largest ? step : largest;
        }
        return largest;
    }

    /** How much it jitters: the mean size of the second differences. A sensor always does. */
    double jitter() {
        double[] numbers = numbers();
        double sum = 0;
        int count = 0;
        for (int i = 2; i < numbers.length; i++) {
            double second = Math.abs(numbers[i] - 2 * numbers[i - 1] + numbers[i - 2]);
            if (Double.isFinite(second)) {
                sum += second;
                count++;
            }
        }
        return count == 0 ? 0 : sum / count;
    }

    /** Whether the hint is, or contains as a word, one of these. */
    boolean called(String words) {
        String plain = hint.replaceAll("([a-z])([A-Z])", "$1 $2")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^a-z]+", " ");
        return (" " + plain + " ").matches(".* (" + words + ") .*")
                || plain.replace(" ", "").matches(words);
    }
}
