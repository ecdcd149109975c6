package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.sensor.Probe;

/** A firing book that keeps everything in memory and writes at once. */
public class BookInMemory implements FiringBook {
    public final List<FiringStart> starts = new ArrayList<>();
    public final List<List<Reading>> readings = new ArrayList<>();
    public final List<List<FiringEvent>> events = new ArrayList<>();
    public final List<OptionalLong> ends = new ArrayList<>();
    public final List<ClockTie> ties = new ArrayList<>();
    public final List<List<Probe>> probes = new ArrayList<>();
    public Optional<OpenFiring> open = Optional.empty();
    public Optional<String> trouble = Optional.empty();

    @Override
    public long begin(FiringStart start) {
        starts.add(start);
        readings.add(new ArrayList<>());
        events.add(new ArrayList<>());
        ends.add(OptionalLong.empty());
        return starts.size();
    }

    /** A firing of an earlier run of the program, to be found by the next. */
    public long beginEarlier(FiringStart start, List<Reading> its, List<ClockTie> before) {
        long number = begin(start);
        readings.get(index(number)).addAll(its);
        open = Optional.of(new OpenFiring(number, start, its, List.of(), List.of(), before));
        return number;
    }

    @Override
    public void append(long firing, Reading reading) {
        readings.get(index(firing)).add(reading);
    }

    @Override
    public void append(long firing, FiringEvent event) {
        events.get(index(firing)).add(event);
    }

    @Override
    public void sensors(long firing, long fromElapsedMs, List<Probe> its) {
        probes.add(its);
    }

    @Override
    public void clockTie(long firing, ClockTie tie) {
        ties.add(tie);
    }

    @Override
    public void end(long firing, long elapsedMs) {
        ends.set(index(firing), OptionalLong.of(elapsedMs));
    }

    @Override
    public DiskState state() {
        List<Reading> last = readings.isEmpty() ? List.of() : readings.get(readings.size() - 1);
        return new DiskState(
                last.isEmpty()
                        ? OptionalLong.empty()
                        : OptionalLong.of(last.get(last.size() - 1).elapsedMs()),
                0,
                trouble);
    }

    @Override
    public Optional<OpenFiring> unfinished() {
        return open;
    }

    @Override
    public Optional<List<Reading>> readings(long firing) {
        List<Reading> sorted = new ArrayList<>(readings.get(index(firing)));
        sorted.sort(java.util.Comparator.comparingLong(Reading::elapsedMs));
        return Optional.of(sorted);
    }

    private static int index(long firing) {
        return Math.toIntExact(firing - 1);
    }
}
