package org.kilnside.desktop.book;

import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.kilnside.book.CurveSketch;
import org.kilnside.book.ListedFiring;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.Words;

/**
 * One line of the list, in words.
 *
 * @param number the firing's number
 * @param sketch its curve in small; empty while that is not worked out
 * @param when its day with the year
 * @param kiln the kiln's name; empty text when not given
 * @param plan the plan's name, or that there was none
 * @param cone the nearest cone it came to, with its temperature; empty text where there is no telling
 * @param peak its highest temperature; empty text without one
 * @param duration how long it took, or that it goes on
 * @param load what was in it; empty text when nothing is written
 * @param marked whether it is to be laid over others
 */
public record FiringLine(
        long number,
        Optional<CurveSketch> sketch,
        String when,
        String kiln,
        String plan,
        String cone,
        String peak,
        String duration,
        String load,
        boolean marked) {
    static FiringLine of(ListedFiring firing, boolean marked, Words words) {
        return new FiringLine(
                firing.number(),
                firing.sketch(),
                words.date(firing.startedAt()),
                firing.kiln().orElse(""),
                firing.planName().orElse(words.text("firings.no_plan")),
                cone(firing, words),
                firing.peak().map(words::temperature).orElse(""),
                firing.ended()
                        ? words.duration(firing.duration())
                        : words.text("firings.going_on", words.duration(firing.duration())),
                firing.load().orElse("").replaceAll("\\s+", " "),
                marked);
    }

    private static String cone(ListedFiring firing, Words words) {
        if (firing.sketch().flatMap(CurveSketch::cone).isEmpty()) {
            return "";
        }
        CurveSketch.Cone cone = firing.sketch().flatMap(CurveSketch::cone).get();
        ConeWords cones = new ConeWords(words, ConeTable.of(cone.series()));
        if (cone.position().past().isEmpty()) {
            return words.text("firings.no_cone");
        }
        String nearest = cone.position().nearest().map(cones::cone).orElse("");
        boolean atLeast = cone.top().hidesMore();
        return atLeast ? words.text("cone.at_least", nearest) : nearest;
    }

    /** A cone of the filter with its temperature. */
    static String cone(String chosen, Words words) {
        String[] parts = chosen.split(" ", 2);
        ConeSeries series = parts.length < 2
                ? ConeSeries.USUAL
                : ConeSeries.ofWord(parts[1]).orElseThrow();
        return new ConeWords(words, ConeTable.of(series)).cone(Cone.parse(parts[0]));
    }

    /** The line as it is read out. */
    public String spoken(Words words) {
        return Stream.of(
                        words.text("firings.firing", number),
                        marked ? words.text("firings.marked") : "",
                        when,
                        kiln,
                        plan,
                        cone,
                        peak,
                        duration,
                        load)
                .filter(part -> !part.isBlank())
                .collect(Collectors.joining(", "));
    }
}
