package org.kilnside.desktop.book;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.kilnside.book.CurveSketch;
import org.kilnside.book.ListedFiring;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.DayText;
import org.kilnside.wording.Words;

/**
 * The list of firings as a person has searched and sorted it. Immutable: each wish gives another list.
 *
 * @param all every firing of the book
 * @param filter what is looked for
 * @param order by what they are sorted
 * @param falling whether the largest or newest comes first
 */
public record FiringList(List<ListedFiring> all, Filter filter, Order order, boolean falling) {
    public static final FiringList EMPTY = new FiringList(List.of(), Filter.NONE, Order.WHEN, true);

    public FiringList {
        all = List.copyOf(all);
    }

    /** By what firings are sorted. */
    public enum Order {
        WHEN,
        KILN,
        PLAN,
        CONE,
        PEAK,
        DURATION
    }

    /**
     * What is looked for; what is empty counts for all.
     *
     * @param words all of them must be found somewhere in the firing's record; a date as 2026-11-25 or a part of it
     * @param kiln the kiln's name
     * @param plan the plan's name
     * @param cone the cone it came to, the nearest whole one: {@code 06}, or {@code 6 small} where its kind is not the usual
     * @param when the days it began on
     */
    public record Filter(
            String words,
            Optional<String> kiln,
            Optional<String> plan,
            Optional<String> cone,
            Optional<DayText.Days> when) {
        public static final Filter NONE =
                new Filter("", Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());

        public boolean isNone() {
            return equals(NONE);
        }
    }

    /** The firings that are found, in order. */
    public List<ListedFiring> visible(Words words) {
        ZoneId zone = words.preferences().zone();
        List<String> wanted = new ArrayList<>();
        for (String word : filter.words().toLowerCase(Locale.ROOT).split("\\s+", -1)) {
            if (!word.isEmpty()) {
                wanted.add(word);
            }
        }
        Comparator<ListedFiring> sorting = falling ? comparator().reversed() : comparator();
        return all.stream()
                .filter(firing -> is(filter.kiln(), firing.kiln()))
                .filter(firing -> is(filter.plan(), firing.planName()))
                .filter(firing -> is(filter.cone(), cameTo(firing)))
                .filter(firing -> filter.when()
                        .map(days -> days.has(firing.startedAt().atZone(zone).toLocalDate()))
                        .orElse(true))
                .filter(firing -> wanted.stream().allMatch(word -> finds(word, firing, words)))
                .sorted(sorting.thenComparing(
                        Comparator.comparingLong(ListedFiring::number).reversed()))
                .toList();
    }

    private static boolean is(Optional<String> wanted, Optional<String> found) {
        return wanted.isEmpty() || wanted.equals(found);
    }

    private static boolean finds(String word, ListedFiring firing, Words words) {
        return firing.searched().contains(word)
                || Long.toString(firing.number()).equals(word)
                || firing.startedAt()
                        .atZone(words.preferences().zone())
                        .toLocalDate()
                        .toString()
                        .contains(word)
                || words.date(firing.startedAt()).toLowerCase(Locale.ROOT).contains(word);
    }

    /** The whole cone nearest to what a firing came to; empty where there is no telling, or below the scale. */
    public static Optional<Cone> nearest(ListedFiring firing) {
        return firing.sketch()
                .flatMap(CurveSketch::cone)
                .map(CurveSketch.Cone::position)
                .filter(position -> position.past().isPresent())
                .flatMap(ConePosition::nearest);
    }

    private static Optional<String> cameTo(ListedFiring firing) {
        return nearest(firing)
                .map(cone -> series(firing) == ConeSeries.USUAL
                        ? cone.number()
                        : cone.number() + " " + series(firing).word());
    }

    private static ConeSeries series(ListedFiring firing) {
        return firing.sketch()
                .flatMap(CurveSketch::cone)
                .map(CurveSketch.Cone::series)
                .orElse(ConeSeries.USUAL);
    }

    private Comparator<ListedFiring> comparator() {
        return switch (order) {
            case WHEN -> Comparator.comparing(ListedFiring::startedAt);
            case KILN -> Comparator.comparing(firing -> firing.kiln().orElse("").toLowerCase(Locale.ROOT));
            case PLAN ->
                Comparator.comparing(firing -> firing.planName().orElse("").toLowerCase(Locale.ROOT));
            case CONE ->
                Comparator.comparingDouble(firing -> firing.sketch()
                        .flatMap(CurveSketch::cone)
                        .map(cone -> cone.position().steps().orElse(-1))
                        .orElse(-2.0));
            case PEAK ->
                Comparator.comparingDouble(
                        firing -> firing.peak().map(Temperature::celsius).orElse(-273.15));
            case DURATION -> Comparator.comparing(ListedFiring::duration);
        };
    }

    /** The kilns there are, in order of their names. */
    public Set<String> kilns() {
        Set<String> kilns = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
        all.forEach(firing -> firing.kiln().ifPresent(kilns::add));
        return kilns;
    }

    /** The plans there are, in order of their names. */
    public Set<String> plans() {
        Set<String> plans = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
        all.forEach(firing -> firing.planName().ifPresent(plans::add));
        return plans;
    }

    /** The cones firings came to, each kind's softest first, as the filter has them. */
    public Set<String> cones() {
        return all.stream()
                .filter(firing -> nearest(firing).isPresent())
                .sorted(Comparator.comparing(FiringList::series)
                        .thenComparing(firing -> nearest(firing).orElseThrow()))
                .flatMap(firing -> cameTo(firing).stream())
                .collect(Collectors.toCollection(LinkedHashSet::new));
    }

    /** The newest of those whose small curve is not worked out, or not of all their readings. */
    public List<Long> toSketch() {
        return all.stream()
                .filter(firing -> !firing.upToDate())
                .map(ListedFiring::number)
                .toList();
    }

    public FiringList with(List<ListedFiring> others) {
        return new FiringList(others, filter, order, falling);
    }

    public FiringList with(Filter other) {
        return new FiringList(all, other, order, falling);
    }

    /** What one would sort by next, going through all there is to sort by. */
    public Order nextOrder() {
        return Order.values()[(order.ordinal() + 1) % Order.values().length];
    }

    /** Sorted by something; asked for again, the other way round. */
    public FiringList by(Order other) {
        boolean usual = other == Order.WHEN || other == Order.PEAK || other == Order.CONE || other == Order.DURATION;
        return new FiringList(all, filter, other, other == order ? !falling : usual);
    }

    /** The same with one firing's curve in small. */
    public FiringList with(long number, CurveSketch sketch) {
        return with(all.stream()
                .map(firing -> firing.number() == number ? firing.with(sketch) : firing)
                .toList());
    }
}
