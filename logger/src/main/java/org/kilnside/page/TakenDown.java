package org.kilnside.page;

import java.util.LinkedHashMap;
import java.util.Map;

/** What each copy has said so far: what is sent once more after a wire broke is not taken down twice. From any thread. */
final class TakenDown {
    /** More than a house has copies; the longest silent one is forgotten. */
    private static final int MOST_COPIES = 1_000;

    private final Map<String, Long> upTo = new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Long> eldest) {
            return size() > MOST_COPIES;
        }
    };

    /** Whether this is news; from now on it is not. */
    synchronized boolean isNews(String copy, long number) {
        if (number <= upTo.getOrDefault(copy, 0L)) {
            return false;
        }
        upTo.put(copy, number);
        return true;
    }
}
