package org.kilnside.firing;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * One batch as it stood in one firing. Name, clay and thickness are the batch's own, the same in every firing it goes
 * through; the rest belongs to this one.
 *
 * @param number its number in the book
 * @param batch the batch's number in the book
 * @param name what the potter calls the batch
 * @param pieces how many stood in this firing; empty when not said
 * @param clay empty when not said
 * @param thicknessMm of the thickest wall, mm; empty when not said
 * @param glaze the glaze, or the number of the mix; empty for bisque or when not said
 * @param mix what the glaze was mixed of
 * @param coats how many coats of it; empty when not said
 * @param shelf where it stood; empty when not said
 * @param outcome how it came out
 * @param remark the potter's words on that; empty when not said
 */
public record LoadedBatch(
        long number,
        long batch,
        String name,
        OptionalInt pieces,
        Optional<String> clay,
        OptionalDouble thicknessMm,
        Optional<String> glaze,
        GlazeMix mix,
        OptionalInt coats,
        Optional<String> shelf,
        Outcome outcome,
        Optional<String> remark) {
    /** A batch of which only the name is known. */
    public static LoadedBatch named(long number, long batch, String name) {
        return new LoadedBatch(
                number,
                batch,
                name,
                OptionalInt.empty(),
                Optional.empty(),
                OptionalDouble.empty(),
                Optional.empty(),
                GlazeMix.NONE,
                OptionalInt.empty(),
                Optional.empty(),
                Outcome.NOT_SAID,
                Optional.empty());
    }

    /** The same batch in a later firing: what belongs to the batch is taken along, nothing is said of the rest. */
    public LoadedBatch again(long itsNumber) {
        return new LoadedBatch(
                itsNumber,
                batch,
                name,
                pieces,
                clay,
                thicknessMm,
                Optional.empty(),
                GlazeMix.NONE,
                OptionalInt.empty(),
                Optional.empty(),
                Outcome.NOT_SAID,
                Optional.empty());
    }
}
