package org.kilnside.wording;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.thermal.ElementStrength;
import org.kilnside.thermal.ElementStrength.Strength;

/** Says how strong a kiln's elements were, firing by firing, with how sure that is. */
public final class ElementWords {
    /** Elements are replaced from here on: resistance up by 6 to 18 % (common practice, sources disagree). */
    private static final double WORN = 0.94;

    private final Words words;

    public ElementWords(Words words) {
        this.words = words;
    }

    /**
     * Everything worth saying.
     *
     * @param numbers the numbers of the firings looked at, in the order in which they were
     */
    public List<String> lines(ElementStrength elements, List<Long> numbers) {
        List<Strength> firings = elements.firings();
        if (firings.isEmpty()) {
            return List.of(words.text("elements.no_output"));
        }
        long first = numbers.get(firings.get(0).number());
        if (firings.size() == 1) {
            return List.of(words.text("elements.one", first));
        }
        List<String> lines = new ArrayList<>();
        Strength newest = firings.get(firings.size() - 1);
        lines.add(strength(newest, numbers.get(newest.number()), first));
        elements.step().ifPresent(step -> lines.add(words.text("elements.step", numbers.get(step.number()), first)));
        if (elements.step().isEmpty()) {
            elements.ageing().flatMap(this::ageing).ifPresent(lines::add);
            if (newest.ofFirst() <= WORN && newest.to() < 1) {
                lines.add(words.text("elements.worn"));
            }
        }
        return lines;
    }

    /** One firing's strength against the first's. */
    public String strength(Strength each, long number, long first) {
        String key = each.from() <= 1 && each.to() >= 1 ? "elements.as_strong" : "elements.strength";
        return words.text(key, number, percent(each.ofFirst()), first, percent(each.from()), percent(each.to()));
    }

    private String percent(double share) {
        return words.number(100 * share, 0) + " %";
    }

    private Optional<String> ageing(ElementStrength.Ageing ageing) {
        if (ageing.from() <= 0 && ageing.to() >= 0 || ageing.to() < 0) {
            return Optional.empty();
        }
        return Optional.of(words.text(
                "elements.ageing", percent(ageing.lostPerTen()), percent(ageing.from()), percent(ageing.to())));
    }
}
