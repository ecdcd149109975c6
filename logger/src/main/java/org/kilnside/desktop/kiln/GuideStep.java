package org.kilnside.desktop.kiln;

import java.util.List;
import java.util.Optional;

/**
 * One step of the first steps, as it is drawn.
 *
 * @param place which of the steps in the margin this is, from 0
 * @param title the question or the finding, in few words
 * @param text what it means, in plain words
 * @param caution what to mind here
 * @param trouble what went wrong, in one sentence with what to do
 * @param field a text to type
 * @param facts what was found
 * @param lines the last lines as they came
 * @param options what can be done, the likeliest first
 */
record GuideStep(
        int place,
        String title,
        String text,
        Optional<String> caution,
        Optional<String> trouble,
        Optional<Field> field,
        List<Fact> facts,
        List<String> lines,
        List<Option> options) {
    GuideStep {
        facts = List.copyOf(facts);
        lines = List.copyOf(lines);
        options = List.copyOf(options);
    }

    /** A text to type. */
    record Field(String label, String value, String hint) {}

    /** Something found, and what it is taken for. */
    record Fact(String name, String value) {}

    /** Something to do, and what comes of it. */
    record Option(String label, String detail) {}
}
