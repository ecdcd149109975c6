package org.kilnside.week;

import static org.assertj.core.api.Assertions.assertThat;
import static org.kilnside.week.Weeks.at;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.kilnside.week.PlannedFiring.AtTop;

/**
 * Weeks nobody thought of, held against a second planner written another way: it walks through the days a minute at a
 * time and knows no spans. Independent of the planner; both are ours.
 */
class PlannerPropertyTest {
    private static final Instant START = at("2026-11-28T12:00");
    private static final Instant END = START.plus(WeekPlan.HORIZON);
    private static final int MINUTES = (int) WeekPlan.HORIZON.toMinutes();

    /** One day's hours, the same every day, and a packing time, min. */
    private record Days(int fromH, int toH, int packingMin) {
        boolean isThere(int minute) {
            LocalDateTime local =
                    START.plusSeconds(60L * minute).atZone(Weeks.ZONE).toLocalDateTime();
            int ofDay = local.getHour() * 60 + local.getMinute();
            return ofDay >= fromH * 60 && ofDay < toH * 60;
        }

        boolean isThereAllFrom(long fromS, long toS) {
            // The last moment may be the very end of the hours.
            for (long s = fromS; s < toS; s += 60) {
                if (!isThere((int) Math.floorDiv(s, 60))) {
                    return false;
                }
            }
            return isThere((int) Math.floorDiv(Math.max(fromS, toS - 1), 60));
        }
    }

    private static long seconds(Duration duration) {
        return duration.toSeconds();
    }

    private static List<Timed> loads(Random random) {
        int count = 1 + random.nextInt(4);
        List<Timed> loads = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            double topH = 7 + random.nextInt(9);
            double unloadH = topH + 12 + random.nextInt(12);
            FiringTimes times =
                    Weeks.times(topH, 0.25 * (1 + random.nextInt(3)), unloadH, unloadH + 2 + random.nextInt(8));
            boolean waits = i > 0 && random.nextInt(3) == 0;
            loads.add(new Timed(
                    times,
                    random.nextInt(3) == 0
                            ? Optional.of(START.plus(Duration.ofHours(random.nextInt(72))))
                            : Optional.empty(),
                    waits ? OptionalInt.of(random.nextInt(i)) : OptionalInt.empty(),
                    waits ? Duration.ofHours(random.nextInt(40)) : Duration.ZERO,
                    random.nextInt(2) == 0
                            ? Optional.of(START.plus(Duration.ofHours(40 + random.nextInt(200))))
                            : Optional.empty(),
                    false));
        }
        return loads;
    }

    /** When a load is unloaded, minutes from the start, by the second planner; empty when there is no time for it. */
    private static Optional<int[]> place(Timed load, int beginMin, Days days) {
        int left = days.packingMin();
        int minute = beginMin;
        while (minute < MINUTES && left > 0) {
            left -= days.isThere(minute) ? 1 : 0;
            minute++;
        }
        for (int light = (minute + 14) / 15 * 15; light < MINUTES; light += 15) {
            long s = 60L * light;
            boolean attended = days.isThere(light)
                    && days.isThereAllFrom(
                            s + seconds(load.times().top().from()),
                            s + seconds(load.times().top().to()))
                    && days.isThereAllFrom(
                            s + seconds(load.times().topOver().from()),
                            s + seconds(load.times().topOver().to()));
            if (attended) {
                long cool = s + seconds(load.times().unload().to());
                for (int out = (int) ((cool + 899) / 900 * 15); out < MINUTES; out += 15) {
                    if (days.isThere(out)) {
                        return Optional.of(new int[] {light, out});
                    }
                }
                return Optional.empty();
            }
        }
        return Optional.empty();
    }

    /** Dates missed and by how many minutes, what is in hand below 0 up to a day, and the last unloading, of the best order. */
    private static long[] best(List<Timed> loads, Days days, List<Integer> order, int[] outs, int free) {
        if (order.size() == loads.size()) {
            long missed = 0;
            long late = 0;
            long hand = 24 * 60;
            for (int i = 0; i < loads.size(); i++) {
                Optional<Instant> due = loads.get(i).due();
                long over = due.map(each -> Duration.between(START, each).toMinutes())
                        .orElse(Long.MAX_VALUE);
                missed += outs[i] > over ? 1 : 0;
                late += outs[i] > over ? outs[i] - over : 0;
                hand = outs[i] > over ? hand : Math.min(hand, over - outs[i]);
            }
            return new long[] {missed, late, -hand, free};
        }
        long[] least = {Long.MAX_VALUE, 0, 0, 0};
        for (int i = 0; i < loads.size(); i++) {
            Timed load = loads.get(i);
            boolean turn = !order.contains(i)
                    && (load.after().isEmpty() || order.contains(load.after().getAsInt()));
            if (turn) {
                int begin = free;
                if (load.after().isPresent()) {
                    begin = Math.max(
                            begin,
                            outs[load.after().getAsInt()] + (int) load.drying().toMinutes());
                }
                if (load.ready().isPresent()) {
                    begin = Math.max(begin, (int)
                            Duration.between(START, load.ready().get()).toMinutes());
                }
                Optional<int[]> placed = place(load, begin, days);
                if (placed.isPresent()) {
                    List<Integer> longer = new ArrayList<>(order);
                    longer.add(i);
                    int[] more = outs.clone();
                    more[i] = placed.get()[1];
                    long[] found = best(loads, days, longer, more, placed.get()[1]);
                    least = Arrays.compare(found, least) < 0 ? found : least;
                }
            }
        }
        return least;
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6})
    void noOtherOrderMissesFewerDatesOrIsDoneSooner(int seed) {
        Random random = new Random(seed);
        for (int week = 0; week < 10; week++) {
            List<Timed> loads = loads(random);
            Days days = new Days(5 + random.nextInt(4), 20 + random.nextInt(4), 30 * (1 + random.nextInt(4)));
            List<PlannedFiring> plan = plan(loads, days);
            long[] expected = best(loads, days, List.of(), new int[loads.size()], 0);
            assertThat(expected[0])
                    .as("the second planner finds a time for each")
                    .isLessThan(Long.MAX_VALUE);
            assertThat(cost(loads, plan)).as("week %d of seed %d", week, seed).isEqualTo(expected);
            holdsWhatItSays(loads, days, plan);
        }
    }

    private static List<PlannedFiring> plan(List<Timed> loads, Days days) {
        Attendance attendance =
                Weeks.daily(String.format("%02d:00", days.fromH()), String.format("%02d:00", days.toH()));
        return new Planner(
                        loads,
                        attendance.within(new Span(START, END), Weeks.ZONE),
                        START,
                        END,
                        Duration.ofMinutes(days.packingMin()),
                        AtTop.SOMEBODY)
                .plan();
    }

    private static long[] cost(List<Timed> loads, List<PlannedFiring> plan) {
        long missed = 0;
        long late = 0;
        long hand = 24 * 60;
        for (PlannedFiring firing : plan) {
            Optional<Instant> due = loads.get(firing.load()).due();
            if (due.isPresent() && firing.out().isAfter(due.get())) {
                missed++;
                late += Duration.between(due.get(), firing.out()).toMinutes();
            } else if (due.isPresent()) {
                hand = Math.min(hand, Duration.between(firing.out(), due.get()).toMinutes());
            }
        }
        return new long[] {
            missed,
            late,
            -hand,
            Duration.between(START, plan.get(plan.size() - 1).out()).toMinutes()
        };
    }

    /** Every load once, in turn, attended where it says so; lit at its last moment all is in time still, later it is not. */
    private static void holdsWhatItSays(List<Timed> loads, Days days, List<PlannedFiring> plan) {
        Set<Integer> fired = new HashSet<>();
        int free = 0;
        for (PlannedFiring firing : plan) {
            int light = minute(firing.light());
            assertThat(fired.add(firing.load())).isTrue();
            assertThat(light).isGreaterThanOrEqualTo(free + days.packingMin());
            assertThat(days.isThere(light)).isTrue();
            assertThat(days.isThere(minute(firing.out()))).isTrue();
            assertThat(firing.out()).isAfterOrEqualTo(firing.unload().to());
            firing.lightBy().ifPresent(by -> assertThat(by).isAfterOrEqualTo(firing.light()));
            free = minute(firing.out());
        }
        assertThat(fired).hasSameSizeAs(loads);
        for (int i = 0; i < plan.size(); i++) {
            Optional<Instant> by = plan.get(i).lightBy();
            if (by.isPresent()) {
                assertThat(misses(loads, days, plan, i, minute(by.get()))).isFalse();
                assertThat(misses(loads, days, plan, i, minute(by.get()) + 15)).isTrue();
            }
        }
    }

    private static int minute(Instant instant) {
        return (int) Duration.between(START, instant).toMinutes();
    }

    /** Whether a date of this firing's or a later one's is missed when this one is lit no sooner than a minute. */
    private static boolean misses(List<Timed> loads, Days days, List<PlannedFiring> plan, int place, int lightMin) {
        int[] outs = new int[loads.size()];
        for (int i = 0; i < place; i++) {
            outs[plan.get(i).load()] = minute(plan.get(i).out());
        }
        int free = -1;
        for (int i = place; i < plan.size(); i++) {
            Timed load = loads.get(plan.get(i).load());
            Optional<int[]> placed;
            if (i == place) {
                placed = place(load, lightMin, new Days(days.fromH(), days.toH(), 0));
            } else {
                int begin = free;
                if (load.after().isPresent()) {
                    begin = Math.max(
                            begin,
                            outs[load.after().getAsInt()] + (int) load.drying().toMinutes());
                }
                if (load.ready().isPresent()) {
                    begin = Math.max(begin, minute(load.ready().get()));
                }
                placed = place(load, begin, days);
            }
            if (placed.isEmpty()) {
                return true;
            }
            free = placed.get()[1];
            outs[plan.get(i).load()] = free;
            Instant out = START.plusSeconds(60L * free);
            if (load.due().filter(out::isAfter).isPresent()) {
                return true;
            }
        }
        return false;
    }
}
