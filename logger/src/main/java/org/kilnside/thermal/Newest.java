package org.kilnside.thermal;

import java.util.LinkedHashMap;
import java.util.Map;

/** What has been worked out last, by what was asked: the oldest goes as a new one comes. */
final class Newest<K, V> extends LinkedHashMap<K, V> {
    private static final long serialVersionUID = 1;

    private final int most;

    Newest(int most) {
        this.most = most;
    }

    @Override
    protected boolean removeEldestEntry(Map.Entry<K, V> eldest) {
        return size() > most;
    }
}
