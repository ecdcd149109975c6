package org.kilnside.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.kilnside.firing.Lighting;
import org.kilnside.firing.Lighting.Item;

/** Says the list before lighting: what to see to, and what became of it. */
public final class LightingWords {
    private final Words words;

    public LightingWords(Words words) {
        this.words = words;
    }

    /** What to see to, one sentence. */
    public String item(Item item) {
        return words.named("lighting", item);
    }

    /** The whole list in one line, for the book: what was passed over stands by name. */
    public String summary(Lighting lighting) {
        List<String> open = new ArrayList<>();
        for (Item item : Item.values()) {
            if (!lighting.ticked().contains(item)) {
                open.add(words.named("lighting.short", item));
            }
        }
        StringBuilder text = new StringBuilder();
        if (open.isEmpty()) {
            text.append(words.text("lighting.all"));
        } else if (lighting.ticked().isEmpty()) {
            text.append(words.text(lighting.skipped() ? "lighting.skipped" : "lighting.none"));
        } else {
            text.append(words.text(
                    lighting.skipped() ? "lighting.skipped_part" : "lighting.open",
                    open.stream().collect(Collectors.joining(", "))));
        }
        lighting.cutOut()
                .ifPresent(at -> text.append(' ').append(words.text("lighting.cut_out", words.temperature(at))));
        lighting.attends().ifPresent(who -> text.append(' ').append(words.text("lighting.attends", who)));
        return text.toString();
    }

    /** The summary of an event's text; the text itself where a later version wrote it. */
    public String summary(String eventText) {
        return Optional.of(eventText)
                .flatMap(Lighting::parse)
                .map(this::summary)
                .orElse(eventText);
    }
}
