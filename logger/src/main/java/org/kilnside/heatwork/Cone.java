package org.kilnside.heatwork;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * A pyrometric cone by its number, softest first: 022 … 01, 1 … 14. The zero in front counts: 06 and 6 are 220 °C
 * apart. The half cones 05½ and 5½ are rows of the chart, not steps of the scale.
 */
public final class Cone implements Comparable<Cone> {
    private static final List<Cone> ALL = all();
    private static final List<Cone> WHOLE = ALL.stream().filter(Cone::isWhole).toList();

    private final String number;
    private final int place;

    private Cone(String number, int place) {
        this.number = number;
        this.place = place;
    }

    private static List<Cone> all() {
        List<Cone> all = new ArrayList<>();
        for (int soft = 22; soft >= 1; soft--) {
            all.add(new Cone(String.format(Locale.ROOT, "0%d", soft), all.size()));
            if (soft == 6) {
                all.add(new Cone("05.5", all.size()));
            }
        }
        for (int hard = 1; hard <= 14; hard++) {
            all.add(new Cone(String.valueOf(hard), all.size()));
            if (hard == 5) {
                all.add(new Cone("5.5", all.size()));
            }
        }
        return List.copyOf(all);
    }

    /** Every cone, the two half ones included, softest first. */
    public static List<Cone> values() {
        return ALL;
    }

    /** The whole cones, the steps of the scale, softest first. */
    public static List<Cone> whole() {
        return WHOLE;
    }

    /**
     * The cone a person wrote, such as {@code 06}, {@code 6}, {@code cone 5½} or {@code 05.5}.
     *
     * @throws IllegalArgumentException when there is no such cone
     */
    public static Cone parse(String text) {
        return find(text)
                .orElseThrow(() -> new IllegalArgumentException("there is no cone \"" + text.strip()
                        + "\": cones run 022 … 01, then 1 … 14, softest first (06 is not 6)"));
    }

    /** The cone a person wrote; empty when there is no such cone. */
    public static Optional<Cone> find(String text) {
        String plain = text.strip()
                .toLowerCase(Locale.ROOT)
                .replaceFirst("^(cone|kegel)\\s*", "")
                .replace("½", ".5")
                .replace(" ", "")
                .replace(',', '.');
        return ALL.stream().filter(cone -> cone.number.equals(plain)).findFirst();
    }

    /** Its number as text, the zero in front kept: {@code "06"}, {@code "6"}, {@code "5.5"}. */
    public String number() {
        return number;
    }

    /** Whether it is a step of the scale; the two half cones are not. */
    public boolean isWhole() {
        return !number.endsWith(".5");
    }

    /** Its place among {@link #values()}, counted from 0. */
    int place() {
        return place;
    }

    @Override
    public int compareTo(Cone other) {
        return Integer.compare(place, other.place);
    }

    @Override
    public String toString() {
        return "cone " + number;
    }
}
