package org.kilnside.week;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** The spans at which somebody is there, apart from each other and in their order. */
final class Presence {
    private final List<Span> spans;

    private Presence(List<Span> spans) {
        this.spans = spans;
    }

    /**
     * Joins what overlaps or touches, and takes out what is not.
     *
     * @param there in any order
     * @param away in any order; goes before {@code there}
     * @param within nothing outside is kept
     */
    static Presence of(List<Span> there, List<Span> away, Span within) {
        List<Span> sorted = new ArrayList<>(there);
        sorted.sort(Comparator.comparing(Span::from));
        List<Span> joined = new ArrayList<>();
        for (Span each : sorted) {
            int last = joined.size() - 1;
            if (last >= 0 && !each.from().isAfter(joined.get(last).to())) {
                Instant to = later(joined.get(last).to(), each.to());
                joined.set(last, new Span(joined.get(last).from(), to));
            } else {
                joined.add(each);
            }
        }
        List<Span> left = joined;
        for (Span absent : away) {
            left = without(left, absent);
        }
        List<Span> cut = new ArrayList<>();
        for (Span each : left) {
            Instant from = later(each.from(), within.from());
            Instant to = each.to().isBefore(within.to()) ? each.to() : within.to();
            if (to.isAfter(from)) {
                cut.add(new Span(from, to));
            }
        }
        return new Presence(List.copyOf(cut));
    }

    private static List<Span> without(List<Span> spans, Span absent) {
        List<Span> left = new ArrayList<>();
        for (Span each : spans) {
            if (each.from().isBefore(absent.from())) {
                Instant to = each.to().isBefore(absent.from()) ? each.to() : absent.from();
                left.add(new Span(each.from(), to));
            }
            if (each.to().isAfter(absent.to())) {
                left.add(new Span(later(each.from(), absent.to()), each.to()));
            }
        }
        return left;
    }

    List<Span> spans() {
        return spans;
    }

    /** Whether somebody is there from one moment to another, all the time; a moment has its own end. */
    boolean holds(Instant from, Instant to) {
        int at = endingAfter(from);
        return at < spans.size()
                && !spans.get(at).from().isAfter(from)
                && !to.isAfter(spans.get(at).to());
    }

    /** The first moment from one on at which somebody is there. */
    Optional<Instant> from(Instant moment) {
        int at = endingAfter(moment);
        return at < spans.size() ? Optional.of(later(spans.get(at).from(), moment)) : Optional.empty();
    }

    /** When some work is done that is begun as soon as somebody is there, and rests while nobody is. */
    Optional<Instant> done(Instant from, Duration work) {
        Duration left = work;
        for (int at = endingAfter(from); at < spans.size(); at++) {
            Instant begin = later(spans.get(at).from(), from);
            Duration here = Duration.between(begin, spans.get(at).to());
            if (left.compareTo(here) <= 0) {
                return Optional.of(begin.plus(left));
            }
            left = left.minus(here);
        }
        return Optional.empty();
    }

    /** The first span that ends after a moment; the number of spans when none does. */
    private int endingAfter(Instant moment) {
        int low = 0;
        int high = spans.size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (spans.get(middle).to().isAfter(moment)) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low;
    }

    static Instant later(Instant one, Instant other) {
        return one.isAfter(other) ? one : other;
    }
}
