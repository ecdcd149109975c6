package org.kilnside.week;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kilnside.quantity.Temperature;

/**
 * What a potter wants of the next days.
 *
 * @param name what it is for
 * @param kiln the kiln, as its file is called
 * @param room the studio's temperature, where said
 * @param due when everything has to be out of the kiln; empty for as soon as may be
 * @param kilnFree when the kiln is empty; empty for at once
 * @param there when somebody is
 * @param topAlone whether a top may be reached while nobody is there
 * @param packing how long it takes somebody to unload the kiln and to pack it
 * @param zone the clock of the studio
 * @param loads in the order in which they were written; their names differ
 */
public record Week(
        String name,
        String kiln,
        Optional<Temperature> room,
        Optional<Instant> due,
        Optional<Instant> kilnFree,
        Attendance there,
        boolean topAlone,
        Duration packing,
        ZoneId zone,
        List<Load> loads) {
    /** Above it every order can no longer be tried in no time, and it is more than one kiln fires in two weeks. */
    public static final int MOST_LOADS = 8;

    /** Where nobody says how long unloading and packing take (common practice). */
    public static final Duration USUAL_PACKING = Duration.ofHours(1);

    public Week {
        loads = List.copyOf(loads);
        if (loads.isEmpty() || loads.size() > MOST_LOADS) {
            throw new IllegalArgumentException("a week has 1 to " + MOST_LOADS + " loads, found " + loads.size());
        }
        Set<String> names = new HashSet<>();
        for (Load each : loads) {
            if (!names.add(each.name())) {
                throw new IllegalArgumentException("two loads are called " + each.name());
            }
        }
        for (Load each : loads) {
            checkWaiting(each, loads);
        }
    }

    /** A load waits for one that is there, and no chain of them comes round. */
    private static void checkWaiting(Load load, List<Load> loads) {
        Load at = load;
        for (int steps = 0; at.after().isPresent(); steps++) {
            String name = at.after().get().load();
            at = loads.stream()
                    .filter(each -> each.name().equals(name))
                    .findFirst()
                    .orElseThrow(() -> new IllegalArgumentException("no load is called " + name));
            if (steps > loads.size()) {
                throw new IllegalArgumentException(load.name() + " waits for itself");
            }
        }
    }
}
