package org.kilnside.desktop.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.book.BookEdit;

class EditLogTest {
    private final EditLog log = new EditLog();

    private static BookEdit note(String before, String after) {
        return new BookEdit.Notes(1, Optional.of(before), Optional.of(after));
    }

    @Test
    void theNewestStepIsUndoneFirst() {
        log.did(List.of(note("a", "b")));
        log.did(List.of(note("b", "c")));
        assertThat(log.toUndo()).contains(List.of(note("c", "b")));
        log.undid();
        assertThat(log.toUndo()).contains(List.of(note("b", "a")));
        assertThat(log.toRedo()).contains(List.of(note("b", "c")));
    }

    @Test
    void aStepOfSeveralChangesIsUndoneBackwards() {
        log.did(List.of(note("a", "b"), note("b", "c")));
        assertThat(log.toUndo()).contains(List.of(note("c", "b"), note("b", "a")));
    }

    @Test
    void somethingNewEndsWhatCouldBeDoneAgain() {
        log.did(List.of(note("a", "b")));
        log.undid();
        assertThat(log.toRedo()).isPresent();
        log.did(List.of(note("a", "x")));
        assertThat(log.toRedo()).isEmpty();
    }

    @Test
    void whatSomebodyElseOvertookIsLetGo() {
        log.did(List.of(note("a", "b")));
        log.letGo();
        assertThat(log.toUndo()).isEmpty();
        log.did(List.of(note("a", "b")));
        log.undid();
        log.letGoOfUndone();
        assertThat(log.toRedo()).isEmpty();
    }

    @Test
    void aStepThatChangedNothingIsNone() {
        log.did(List.of());
        assertThat(log.toUndo()).isEmpty();
    }

    @Test
    void theLogDoesNotGrowForEver() {
        for (int i = 0; i < 2000; i++) {
            log.did(List.of(note("v" + i, "v" + (i + 1))));
        }
        int steps = 0;
        while (log.toUndo().isPresent()) {
            log.undid();
            steps++;
        }
        assertThat(steps).isEqualTo(500);
    }
}
