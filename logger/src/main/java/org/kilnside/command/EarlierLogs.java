package org.kilnside.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.files.CsvLogs;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.thermal.WallKind;
import org.kilnside.tracking.FiringsApart;

/**
 * The earlier firings' logs that a kiln is to be known by.
 *
 * @param logs how many files were given
 * @param firings what they hold, in their order: a file may hold several firings
 */
record EarlierLogs(int logs, List<Trace> firings) {
    /** What a log without a firing is worth. */
    static final String KNOWN_BY_NOTHING = "the earlier logs hold no heating or cooling to know the kiln by";

    static EarlierLogs read(List<Path> paths, SensorOptions sensor) {
        return new EarlierLogs(
                paths.size(),
                paths.stream()
                        .flatMap(path ->
                                FiringsApart.of(
                                        LogReadings.good(sensor.truth(CsvLogs.read(path), path.toString()), path)
                                                .curve())
                                        .stream())
                        .toList());
    }

    /**
     * What these and the firings in the book taught of a kiln, told on the way where logs do not count.
     *
     * @param room its temperature, °C, where somebody said it
     */
    KilnMemory memory(Kiln kiln, Optional<FromBook.Past> past, OptionalDouble room, Surroundings around) {
        KilnMemory ofLogs = memory(kiln, firings, room);
        thatDoNotCount(ofLogs).ifPresent(sentence -> around.err().println("kilnside: " + sentence));
        List<Trace> inBook = past.map(FromBook.Past::earlier).orElse(List.of());
        if (inBook.isEmpty()) {
            return ofLogs;
        }
        List<Trace> all = new ArrayList<>(inBook);
        all.addAll(firings);
        return memory(kiln, all, room);
    }

    private static KilnMemory memory(Kiln kiln, List<Trace> firings, OptionalDouble room) {
        return KilnMemory.of(firings, kiln.wall().map(wall -> WallKind.valueOf(wall.name())), room);
    }

    /**
     * Which of them do not count, in one sentence; empty where all do.
     *
     * @param memory what was learned of these alone
     */
    Optional<String> thatDoNotCount(KilnMemory memory) {
        if (logs == 0) {
            return Optional.empty();
        }
        if (memory.isEmpty()) {
            return Optional.of(KNOWN_BY_NOTHING + ", and do not count; name logs of whole firings");
        }
        if (memory.firings() < firings.size()) {
            return Optional.of("of " + firings.size()
                    + (firings.size() == logs ? " earlier logs " : " firings in the earlier logs ")
                    + memory.firings() + " tell how the kiln cools; name logs that go on until it is cold");
        }
        return Optional.empty();
    }
}
