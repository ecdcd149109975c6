package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Lighting;

/** What a person says before the first reading: it waits for the record to begin. Confined to the session's thread. */
final class SaidBefore {
    private final List<String> notes = new ArrayList<>();
    private Optional<Lighting> lighting = Optional.empty();

    void note(String text) {
        notes.add(text);
    }

    /** The list before lighting; a later one takes the place of an earlier. */
    void lighting(Lighting list) {
        lighting = Optional.of(list);
    }

    /** All of it as events of the record's first moment; given once. */
    List<FiringEvent> take() {
        List<FiringEvent> said = new ArrayList<>();
        lighting.ifPresent(list -> said.add(FiringEvent.of(0, Kind.LIGHTING, list.text())));
        notes.forEach(text -> said.add(FiringEvent.of(0, Kind.NOTE, text)));
        lighting = Optional.empty();
        notes.clear();
        return said;
    }
}
