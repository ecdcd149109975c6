package org.kilnside.session;

import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Who wants to hear of each new snapshot. One that fails is left out from then on; the others go on. */
public final class Listeners {
    private static final Logger LOG = LoggerFactory.getLogger(Listeners.class);

    private final CopyOnWriteArrayList<Consumer<Snapshot>> listeners = new CopyOnWriteArrayList<>();

    public LiveFeed.Subscription add(Consumer<Snapshot> listener) {
        listeners.add(listener);
        return () -> listeners.remove(listener);
    }

    public void tell(Snapshot snapshot) {
        for (Consumer<Snapshot> listener : listeners) {
            try {
                listener.accept(snapshot);
            } catch (RuntimeException e) {
                LOG.error("a listener failed and is left out from now on", e);
                listeners.remove(listener);
            }
        }
    }
}
