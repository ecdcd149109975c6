package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.Lighting;

/**
 * What a person says, and what happens, before the first reading: it waits for the record to begin. Confined to the
 * session's thread.
 */
final class SaidBefore {
    private final List<String> notes = new ArrayList<>();
    private final List<FiringEvent> happened = new ArrayList<>();
    private OptionalLong awaitedFromHostMs = OptionalLong.empty();
    private Optional<Lighting> lighting = Optional.empty();

    void note(String text) {
        notes.add(text);
    }

    /** The list before lighting; a later one takes the place of an earlier. */
    void lighting(Lighting list) {
        lighting = Optional.of(list);
    }

    /** Something that a record would hold, if there were one. */
    void happened(FiringEvent event) {
        happened.add(event);
    }

    /** Somebody counts on readings from now on, ms on the host's clock. */
    void awaitFrom(long hostMs) {
        awaitedFromHostMs = OptionalLong.of(hostMs);
    }

    /** How long readings have been counted on, ms; empty where nobody does. */
    OptionalLong awaitedForMs(long hostMs) {
        return awaitedFromHostMs.isPresent()
                ? OptionalLong.of(hostMs - awaitedFromHostMs.getAsLong())
                : OptionalLong.empty();
    }

    /** All of it as events of the record's first moment; given once. */
    List<FiringEvent> take() {
        List<FiringEvent> said = new ArrayList<>();
        lighting.ifPresent(list -> said.add(FiringEvent.of(0, Kind.LIGHTING, list.text())));
        notes.forEach(text -> said.add(FiringEvent.of(0, Kind.NOTE, text)));
        happened.forEach(event -> said.add(new FiringEvent(0, event.kind(), event.text())));
        lighting = Optional.empty();
        notes.clear();
        happened.clear();
        return said;
    }
}
