package org.kilnside.wording;

import java.util.List;
import org.kilnside.quantity.Temperature;

/**
 * What a person must know beside everything this program shows. Shown whole, one key from everywhere, and in every
 * report; the program never calls anything safe.
 *
 * @param title the page's heading
 * @param introduction who decides: the kiln's maker, local code, a licensed electrician
 * @param cautions what to mind, the first ones first
 */
public record Cautions(String title, String introduction, List<Caution> cautions) {
    /** In the order they are read. */
    static final List<String> TOPICS = List.of(
            "runaway",
            "cutout",
            "presence",
            "opening",
            "mains",
            "cable",
            "fumes",
            "clearance",
            "people",
            "eyes",
            "ware");

    /** One caution: what it is about, and what to do. */
    public record Caution(String heading, String text) {}

    public static Cautions of(Words words) {
        return new Cautions(
                words.text("cautions.title"),
                words.text("cautions.introduction"),
                TOPICS.stream().map(topic -> caution(topic, words)).toList());
    }

    private static Caution caution(String topic, Words words) {
        String heading = words.text("caution." + topic + ".heading");
        String key = "caution." + topic + ".text";
        return new Caution(
                heading,
                switch (topic) {
                    case "opening" -> words.text(key, celsius(200, words), celsius(120, words), celsius(50, words));
                    case "ware" -> words.text(key, celsius(100, words));
                    default -> words.text(key);
                });
    }

    private static String celsius(double celsius, Words words) {
        return words.temperature(Temperature.ofCelsius(celsius));
    }
}
