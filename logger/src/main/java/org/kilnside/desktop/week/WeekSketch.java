package org.kilnside.desktop.week;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.kilnside.outlook.Estimate;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.week.Load;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Span;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;

/**
 * What the drawing of the days ahead shows: the kiln's firings as hills one behind the other, what dries meanwhile, when
 * somebody is there, and the dates.
 *
 * @param whole all there is to show
 * @param now when it was planned
 * @param there when somebody is
 * @param lanes drying, such as do not overlap in each lane
 * @param taken until when the kiln is taken by the firing that goes on; empty where it is free
 */
record WeekSketch(
        Span whole,
        Instant now,
        List<Span> there,
        List<Hill> hills,
        List<List<Drying>> lanes,
        List<Due> dues,
        Optional<Instant> taken) {
    /** How far behind the last unloading a date is still drawn where it lies; later ones stand at the edge. */
    private static final Duration FURTHEST = Duration.ofDays(2);

    /** What is left free before the first and behind the last, as a part of all: there stand times in words. */
    private static final int BEFORE = 60;

    private static final int BEHIND = 12;

    /** Where nothing is planned, the drawing still shows the days. */
    private static final Duration USUAL = Duration.ofDays(7);

    /**
     * A firing.
     *
     * @param number in the order of lighting, from 1
     * @param top of its plan
     * @param fan how hot the kiln is, from the lighting
     */
    record Hill(int number, String load, Temperature top, PlannedFiring firing, List<ForecastFan.Point> fan) {
        /** How hot the kiln probably is; empty outside what is known. */
        Optional<Double> celsius(Instant at) {
            long ms = Duration.between(firing.light(), at).toMillis();
            for (int i = 1; i < fan.size(); i++) {
                ForecastFan.Point from = fan.get(i - 1);
                ForecastFan.Point to = fan.get(i);
                if (ms >= from.elapsedMs() && ms <= to.elapsedMs()) {
                    double share = to.elapsedMs() == from.elapsedMs()
                            ? 0
                            : (double) (ms - from.elapsedMs()) / (to.elapsedMs() - from.elapsedMs());
                    return Optional.of(from.medianC() + share * (to.medianC() - from.medianC()));
                }
            }
            return Optional.empty();
        }
    }

    /** Ware that dries before its firing. */
    record Drying(String load, Span span) {}

    /**
     * When something has to be out.
     *
     * @param load whose date it is; empty for the week's
     */
    record Due(Optional<String> load, Instant at) {}

    static WeekSketch of(LiveWeek.Answer answer) {
        Week week = answer.planned();
        WeekPlan plan = answer.plan();
        List<Hill> hills = new ArrayList<>();
        for (PlannedFiring firing : plan.firings()) {
            Load load = week.loads().get(firing.load());
            hills.add(new Hill(
                    hills.size() + 1,
                    load.name(),
                    load.plan().top(),
                    firing,
                    plan.loads().get(firing.load()).outlook().fan()));
        }
        List<Due> dues = dues(week);
        Instant last = plan.out().orElse(answer.at().plus(USUAL));
        Instant end = dues.stream()
                .map(Due::at)
                .filter(at -> at.isBefore(last.plus(FURTHEST)))
                .max(Comparator.naturalOrder())
                .filter(at -> at.isAfter(last))
                .orElse(last);
        Duration length = Duration.between(answer.at(), end);
        Span whole = new Span(answer.at().minus(length.dividedBy(BEFORE)), end.plus(length.dividedBy(BEHIND)));
        return new WeekSketch(
                whole,
                answer.at(),
                week.there().spans(whole, week.zone()),
                hills,
                lanes(dryings(week, hills, answer.at())),
                dues,
                answer.taken().until());
    }

    private static List<Due> dues(Week week) {
        return Stream.concat(
                        week.due().map(at -> new Due(Optional.empty(), at)).stream(),
                        week.loads().stream()
                                .flatMap(load -> load.due().map(at -> new Due(Optional.of(load.name()), at)).stream()))
                .toList();
    }

    private static List<Drying> dryings(Week week, List<Hill> hills, Instant now) {
        List<Drying> all = new ArrayList<>();
        for (Hill hill : hills) {
            Load load = week.loads().get(hill.firing().load());
            Optional<Instant> from = load.after()
                    .flatMap(after -> hills.stream()
                            .filter(each -> each.load().equals(after.load()))
                            .findFirst())
                    .map(before -> before.firing().out());
            Optional<Instant> glazed =
                    from.map(out -> out.plus(load.after().orElseThrow().drying()));
            Optional<Instant> dry =
                    Stream.concat(glazed.stream(), load.ready().stream()).max(Comparator.naturalOrder());
            Instant begin = from.orElse(now);
            dry.filter(its -> its.isAfter(begin))
                    .ifPresent(its -> all.add(new Drying(hill.load(), new Span(begin, its))));
        }
        return all;
    }

    private static List<List<Drying>> lanes(List<Drying> dryings) {
        List<List<Drying>> lanes = new ArrayList<>();
        for (Drying each : dryings) {
            List<Drying> free = lanes.stream()
                    .filter(lane -> !lane.get(lane.size() - 1)
                            .span()
                            .to()
                            .isAfter(each.span().from()))
                    .findFirst()
                    .orElseGet(() -> {
                        List<Drying> lane = new ArrayList<>();
                        lanes.add(lane);
                        return lane;
                    });
            free.add(each);
        }
        return lanes;
    }

    /** When nobody is there, within all there is to show. */
    List<Span> nobody() {
        List<Span> gaps = new ArrayList<>();
        Instant at = whole.from();
        for (Span each : there) {
            if (each.from().isAfter(at)) {
                gaps.add(new Span(at, each.from()));
            }
            at = each.to();
        }
        if (whole.to().isAfter(at)) {
            gaps.add(new Span(at, whole.to()));
        }
        return gaps;
    }

    boolean isSomebodyThere(Instant at) {
        return there.stream().anyMatch(span -> !at.isBefore(span.from()) && at.isBefore(span.to()));
    }

    /** The firing that has the kiln at a moment, its cooling included. */
    Optional<Hill> at(Instant moment) {
        return hills.stream()
                .filter(hill -> !moment.isBefore(hill.firing().light())
                        && moment.isBefore(hill.firing().out()))
                .findFirst();
    }

    /** The hottest of it, °C. */
    double hottestC() {
        return hills.stream()
                .flatMap(hill -> hill.fan().stream())
                .mapToDouble(ForecastFan.Point::medianC)
                .max()
                .orElse(1000);
    }

    static Estimate<Instant> cool(Hill hill) {
        return hill.firing().unload();
    }
}
