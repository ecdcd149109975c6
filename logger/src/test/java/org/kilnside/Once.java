package org.kilnside;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import java.util.function.Supplier;

/** What takes its time and never changes, worked out at its first use and once in a run, however many ask for it. */
public final class Once {
    private Once() {}

    public static <T> Supplier<T> of(Supplier<? extends T> work) {
        Function<Boolean, T> each = each(any -> work.get());
        return () -> each.apply(true);
    }

    /** The same for each of several. */
    public static <K, V> Function<K, V> each(Function<? super K, ? extends V> work) {
        Map<K, V> done = new ConcurrentHashMap<>();
        return key -> done.computeIfAbsent(key, work);
    }
}
