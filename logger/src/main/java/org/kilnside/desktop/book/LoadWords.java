package org.kilnside.desktop.book;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Outcome;
import org.kilnside.wording.Words;

/**
 * A batch in words, as a list shows it.
 *
 * @param title how many of what
 * @param lines what is known of it, a line each
 */
public record LoadWords(String title, List<String> lines) {
    public LoadWords {
        lines = List.copyOf(lines);
    }

    /**
     * A batch in words.
     *
     * @param before the firings this batch was in before, their numbers
     */
    public static LoadWords of(LoadedBatch batch, List<Long> before, Words words) {
        String title = batch.pieces().isPresent() ? batch.pieces().getAsInt() + " " + batch.name() : batch.name();
        List<String> lines = new ArrayList<>();
        List<String> clay = new ArrayList<>();
        batch.clay().ifPresent(clay::add);
        batch.thicknessMm()
                .ifPresent(mm -> clay.add(
                        words.text("load.thickness", words.number(mm, 1).replaceAll("[.,]0$", ""))));
        batch.shelf().ifPresent(shelf -> clay.add(words.text("load.shelf", shelf)));
        add(lines, clay);
        List<String> glaze = new ArrayList<>();
        String mix = batch.mix().text(words.decimalMark());
        batch.glaze().ifPresentOrElse(name -> glaze.add(mix.isEmpty() ? name : name + " (" + mix + ")"), () -> {
            if (!mix.isEmpty()) {
                glaze.add(mix);
            }
        });
        batch.coats()
                .ifPresent(coats -> glaze.add(coats == 1 ? words.text("load.coat") : words.text("load.coats", coats)));
        add(lines, glaze);
        List<String> outcome = new ArrayList<>();
        if (batch.outcome() != Outcome.NOT_SAID) {
            outcome.add(words.named("outcome", batch.outcome()));
        }
        batch.remark().ifPresent(remark -> outcome.add(remark.replaceAll("\\s+", " ")));
        if (!outcome.isEmpty()) {
            lines.add(String.join(": ", outcome));
        }
        if (!before.isEmpty()) {
            lines.add(words.text(
                    "load.before",
                    String.join(", ", before.stream().map(String::valueOf).toList())));
        }
        return new LoadWords(title, lines);
    }

    private static void add(List<String> lines, List<String> parts) {
        if (!parts.isEmpty()) {
            lines.add(String.join("  ·  ", parts));
        }
    }
}
