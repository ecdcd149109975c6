package org.kilnside.book;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.LoadedBatch;

/**
 * What a person has written into a firing's record, beside what the kiln did.
 *
 * @param notes on the firing as a whole; empty when there are none
 * @param loadText what was in the kiln in the words of a log that was imported; empty when there are none
 * @param load its batches, in the order they were put in
 * @param cones its witness cones, in the order they were noted
 * @param photos in the order they were added
 * @param edits how often the record was changed
 */
public record WrittenRecord(
        Optional<String> notes,
        Optional<String> loadText,
        List<LoadedBatch> load,
        List<NotedCone> cones,
        List<StoredPhoto> photos,
        long edits) {
    public static final WrittenRecord EMPTY =
            new WrittenRecord(Optional.empty(), Optional.empty(), List.of(), List.of(), List.of(), 0);

    public WrittenRecord {
        load = List.copyOf(load);
        cones = List.copyOf(cones);
        photos = List.copyOf(photos);
    }
}
