package org.kilnside.book;

import java.util.List;
import org.kilnside.firing.LoadedBatch;

/**
 * A batch that has been in a firing, to be followed or to be put into another.
 *
 * @param newest how it stood in the newest firing it was in
 * @param firings the numbers of all firings it was in, oldest first
 */
public record KnownBatch(LoadedBatch newest, List<Long> firings) {
    public KnownBatch {
        firings = List.copyOf(firings);
    }
}
