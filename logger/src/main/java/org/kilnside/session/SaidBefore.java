package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;

/**
 * What a person says, and what happens, before the first reading: it waits for the record to begin. Confined to the
 * session's thread.
 */
final class SaidBefore {
    private final List<FiringEvent> said = new ArrayList<>();

    /** Something that a record would hold, if there were one. A later list before lighting takes the place of an earlier. */
    void keep(FiringEvent event) {
        if (event.kind() == Kind.LIGHTING) {
            said.removeIf(earlier -> earlier.kind() == Kind.LIGHTING);
        }
        said.add(event);
    }

    /** All of it as events of the record's first moment; given once. */
    List<FiringEvent> take() {
        List<FiringEvent> taken = said.stream()
                .map(event -> new FiringEvent(0, event.kind(), event.text()))
                .toList();
        said.clear();
        return taken;
    }
}
