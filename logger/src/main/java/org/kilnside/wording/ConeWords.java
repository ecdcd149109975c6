package org.kilnside.wording;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.TimeToGo;
import org.kilnside.quantity.Interval;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;

/**
 * Says cones as a potter does, never one without its temperature: "between cone 04 (1060 °C) and cone 03 (1083 °C),
 * nearer 03".
 */
public final class ConeWords {
    /** Nearer than this to a cone, it is that cone. */
    private static final double AT_CONE = 0.1;

    /** Less than this of a cone is not worth a sentence. */
    private static final double LEAST_SAID = 0.05;

    private final Words words;
    private final ConeTable table;

    public ConeWords(Words words, ConeTable table) {
        this.words = words;
        this.table = table;
    }

    /**
     * A cone with its temperature, as 06 and 6 are 220 °C apart, and with its kind where that is not the usual: {@code cone
     * 06 (998 °C)}, {@code small cone 6 (1255 °C)}.
     */
    public String cone(Cone cone) {
        return table.temperature(cone)
                .map(named -> words.text(
                        switch (table.series()) {
                            case SELF_SUPPORTING -> "cone";
                            case LARGE -> "cone.large";
                            case SMALL -> "cone.small";
                        },
                        cone.number(),
                        words.temperature(named)))
                .orElse(cone.number());
    }

    /** A place on the scale. */
    public String position(ConePosition position) {
        if (position.past().isEmpty()) {
            return words.text("cone.below", cone(position.next().orElseThrow()));
        }
        Cone past = position.past().get();
        if (position.next().isEmpty()) {
            return words.text("cone.beyond", cone(past));
        }
        Cone next = position.next().get();
        double fraction = position.fraction().orElse(0);
        if (fraction < AT_CONE) {
            return cone(past);
        }
        if (fraction > 1 - AT_CONE) {
            return words.text("cone.nearly", cone(next));
        }
        if (Math.abs(fraction - 0.5) < AT_CONE) {
            return words.text("cone.halfway", cone(past), cone(next));
        }
        return words.text("cone.between", cone(past), cone(next), fraction < 0.5 ? past.number() : next.number());
    }

    /** Where a plan ends on the scale, or that it is too cool for it. */
    public String planned(ConePosition position) {
        return position.past().isEmpty()
                ? words.text("cone.too_cool", cone(position.next().orElseThrow()))
                : position(position);
    }

    /** What a firing came to, in one phrase: a lower bound and a firing still at its top are said as such. */
    public String reached(ConeReached reached) {
        String position = position(reached.cone());
        return switch (reached.top()) {
            case SEEN -> position;
            case NOT_PASSED -> reached.isBelowScale() ? position : soFar(reached.cone());
            case HIDDEN_BY_GAP, BEFORE_FIRST_READING, AT_SENSORS_END ->
                reached.isBelowScale() ? words.text("cone.unseen") : words.text("cone.at_least", position);
        };
    }

    private String soFar(ConePosition position) {
        boolean isCone = position.next().isPresent() && position.fraction().orElse(1) < AT_CONE;
        return words.text(isCone ? "cone.so_far" : "cone.so_far_place", position(position));
    }

    /**
     * What lies behind the phrase: the interval, the top, cooling and gaps, a line each.
     *
     * @param curve the firing's
     * @param firstMs when the first reading of its recording or log was, on the recording's clock
     */
    public List<String> details(ConeReached reached, Trace curve, long firstMs) {
        List<String> lines = details(reached, "cone.peak", firstMs);
        top(reached, curve).ifPresent(lines::add);
        return lines;
    }

    /** The same of a plan, whose line begins with the lighting. */
    public List<String> planDetails(ConeReached reached) {
        List<String> lines = details(reached, "cone.plan_peak", 0);
        top(reached.top()).ifPresent(lines::add);
        return lines;
    }

    private List<String> details(ConeReached reached, String peakKey, long firstMs) {
        List<String> lines = new ArrayList<>();
        range(reached).ifPresent(lines::add);
        lines.add(words.text(
                peakKey,
                words.temperature(reached.peak()),
                words.duration(Duration.ofMillis(reached.peakMs() - firstMs))));
        if (reached.coolingAdded().orElse(0) >= LEAST_SAID) {
            lines.add(words.text(
                    "cone.cooling", words.number(reached.coolingAdded().getAsDouble(), 1)));
        }
        if (!reached.gaps().isZero()) {
            lines.add(words.text("cone.gaps", words.duration(reached.gaps())));
        }
        return lines;
    }

    /** That a log holds a firing before the one that was asked for, and what that one came to. */
    public String earlier(ConeReached reached, long firstMs) {
        return words.text(
                "cone.earlier",
                words.temperature(reached.peak()),
                words.duration(Duration.ofMillis(reached.peakMs() - firstMs)),
                reached(reached));
    }

    /**
     * That the readings begin so near the top that heat before them is missing from the figure; empty where they do not, or
     * where the top itself lies before them.
     */
    public Optional<String> beginsHot(ConeReached reached, double firstC) {
        boolean hot = firstC > reached.peak().celsius() - HeatWork.NOT_YET_K;
        return hot && !reached.isBelowScale() && reached.top() != ConeReached.Top.BEFORE_FIRST_READING
                ? Optional.of(words.text("cone.begins_hot", words.temperature(Temperature.ofCelsius(firstC))))
                : Optional.empty();
    }

    /**
     * The interval in the whole cones that hold it, as nobody reads two places between cones at once; without an upper end
     * where the top was not seen; empty where no cone is down.
     */
    public Optional<String> range(ConeReached reached) {
        if (reached.isBelowScale()) {
            return Optional.empty();
        }
        Optional<Cone> softest = softest(reached.between());
        if (reached.isAtLeast()) {
            return Optional.of(softest.map(soft -> words.text("cone.interval_upwards", cone(soft)))
                    .orElseGet(() -> words.text("cone.interval_any")));
        }
        if (reached.between().from().next().isEmpty()) {
            return Optional.of(words.text("cone.interval_beyond"));
        }
        if (isPastScale(reached.between().to())) {
            return Optional.of(softest.map(soft -> words.text("cone.interval_upwards", cone(soft)))
                    .orElseGet(() -> words.text("cone.interval_any")));
        }
        String hardest = cone(hardest(reached.between()));
        return Optional.of(softest.map(soft -> words.text("cone.interval", cone(soft), hardest))
                .orElseGet(() -> words.text("cone.interval_from_none", hardest)));
    }

    /** The same of a plan in a kiln, which is not exact either; empty where no cone will be down. */
    Optional<String> rangeAhead(Interval<ConePosition> between) {
        return rangeAhead(between, "outlook.between", "outlook.between_upwards", "outlook.between_from_none");
    }

    /** The same for where there is little room. */
    Optional<String> briefRangeAhead(Interval<ConePosition> between) {
        return rangeAhead(between, "plans.cone_between", "plans.cone_upwards", "plans.cone_from_none");
    }

    private Optional<String> rangeAhead(Interval<ConePosition> between, String key, String upwards, String fromNone) {
        if (between.to().past().isEmpty()) {
            return Optional.empty();
        }
        if (isPastScale(between.to())) {
            return softest(between).map(soft -> words.text(upwards, cone(soft)));
        }
        String hardest = cone(hardest(between));
        return Optional.of(softest(between)
                .map(soft -> words.text(key, cone(soft), hardest))
                .orElseGet(() -> words.text(fromNone, hardest)));
    }

    /** The nearest cone with those its interval lies between, for where there is little room: of a firing not below the scale. */
    public String nearest(ConeReached reached) {
        String named = reached.cone().nearest().map(this::cone).orElseGet(() -> position(reached.cone()));
        if (reached.isAtLeast()) {
            String least = words.text("cone.at_least", named);
            return softest(reached.between())
                    .map(soft -> words.text("cone.within_upwards", least, soft.number()))
                    .orElse(least);
        }
        String phrase = reached.top() == ConeReached.Top.NOT_PASSED ? words.text("cone.so_far", named) : named;
        return within("cone.within", phrase, reached.between());
    }

    /** What a firing is to come to, as short: the nearest cone with those its interval lies between. */
    public String nearest(ConePosition expected, Interval<ConePosition> between) {
        return within("cone.to", expected.nearest().map(this::cone).orElseGet(() -> position(expected)), between);
    }

    private String within(String key, String phrase, Interval<ConePosition> between) {
        return softest(between)
                .map(soft ->
                        words.text(key, phrase, soft.number(), hardest(between).number()))
                .orElse(phrase);
    }

    /** Whether no cone is hard enough to name it. */
    private static boolean isPastScale(ConePosition position) {
        return position.past().isPresent() && position.next().isEmpty();
    }

    private static Optional<Cone> softest(Interval<ConePosition> between) {
        ConePosition from = between.from();
        return from.fraction().orElse(0) > 1 - AT_CONE ? from.next() : from.past();
    }

    private static Cone hardest(Interval<ConePosition> between) {
        ConePosition to = between.to();
        Optional<Cone> hard =
                to.fraction().orElse(1) < AT_CONE ? to.past() : to.next().or(to::past);
        return hard.orElseThrow();
    }

    /**
     * A lasting jump in the curve, and what it means.
     *
     * @param firstMs when the first reading was, on the recording's clock
     */
    public String jump(GoodReadings.Jump jump, long firstMs) {
        return words.text(
                "cone.jump",
                words.temperature(Temperature.ofCelsius(jump.fromC())),
                words.temperature(Temperature.ofCelsius(jump.toC())),
                words.duration(Duration.ofMillis(jump.elapsedMs() - firstMs)));
    }

    /** What cannot be known about the top; empty when it was seen. A kiln that was never heated had none. */
    public Optional<String> top(ConeReached reached, Trace curve) {
        return reached.isHardlyWarmed(Temperature.ofCelsius(curve.temperatureC(0)))
                ? Optional.of(words.text("cone.top.hardly_warmed"))
                : top(reached.top());
    }

    private Optional<String> top(ConeReached.Top top) {
        return switch (top) {
            case SEEN -> Optional.empty();
            case NOT_PASSED -> Optional.of(words.text("cone.top.not_passed"));
            case HIDDEN_BY_GAP -> Optional.of(words.text("cone.top.hidden_by_gap"));
            case BEFORE_FIRST_READING -> Optional.of(words.text("cone.top.before_first_reading"));
            case AT_SENSORS_END -> Optional.of(words.text("cone.top.at_sensors_end"));
        };
    }

    /** The time until a cone is down. */
    public String timeToGo(Cone cone, TimeToGo time) {
        String named = cone(cone);
        return switch (time.state()) {
            case AHEAD ->
                words.text("cone.togo.ahead", named, words.duration(time.left().orElseThrow()));
            case DOWN -> words.text("cone.togo.down", named);
            case NOT_YET ->
                words.text("cone.togo.not_yet", named, words.span(TemperatureDifference.ofKelvin(HeatWork.NOT_YET_K)));
            case NOT_ON_THIS_PATH -> words.text("cone.togo.not_on_this_path", named);
        };
    }
}
