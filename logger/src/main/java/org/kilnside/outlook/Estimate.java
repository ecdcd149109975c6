package org.kilnside.outlook;

import java.util.function.Function;
import org.kilnside.quantity.Interval;

/**
 * What is not known exactly.
 *
 * @param <T> what is estimated
 * @param probable as likely above as below the truth
 * @param between holds the truth nine times in ten
 */
public record Estimate<T extends Comparable<T>>(T probable, Interval<T> between) {
    /** An estimate from its three values. */
    public static <T extends Comparable<T>> Estimate<T> of(T probable, T from, T to) {
        return new Estimate<>(probable, Interval.ofNineInTen(from, to));
    }

    public T from() {
        return between.from();
    }

    public T to() {
        return between.to();
    }

    /** The same estimate of something that rises with this. */
    public <R extends Comparable<R>> Estimate<R> map(Function<T, R> rising) {
        return of(rising.apply(probable), rising.apply(from()), rising.apply(to()));
    }
}
