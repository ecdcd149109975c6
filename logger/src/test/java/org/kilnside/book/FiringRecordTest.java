package org.kilnside.book;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.GlazeMix;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Outcome;

/** What people write into a firing's record: changed, undone, and changed by two at once. */
class FiringRecordTest {
    @TempDir
    Path folder;

    private Path path;

    @BeforeEach
    void recordTwoFirings() {
        path = folder.resolve("firing.book");
        try (BookRecorder recorder = BookRecorder.open(path)) {
            for (int i = 0; i < 2; i++) {
                long number = recorder.begin(SomeReadings.start());
                SomeReadings.firing(300).forEach(reading -> recorder.append(number, reading));
                recorder.end(number, 300_000);
            }
        }
    }

    private static LoadedBatch described(LoadedBatch bare) {
        return new LoadedBatch(
                bare.number(),
                bare.batch(),
                bare.name(),
                OptionalInt.of(24),
                Optional.of("Saltmarsh"),
                OptionalDouble.of(6.5),
                Optional.of("Mix 14"),
                GlazeMix.parse("Oatmeal 3 + Rainwater 1.25"),
                OptionalInt.of(2),
                Optional.of("middle"),
                Outcome.SECOND,
                Optional.of("pinholes'; DROP TABLE batch; -- 💥\n\u0000 and more"));
    }

    @Test
    void aBatchIsKeptAsItWasDescribedAndTheChangeIsUndoneAndDoneAgain() {
        try (Book book = Book.open(path)) {
            BookEdit.Loaded added = book.addBatch(1, "soup bowls");
            LoadedBatch bare = added.after().orElseThrow();
            BookEdit described = new BookEdit.Loaded(1, Optional.of(bare), Optional.of(described(bare)));
            book.apply(described);
            assertThat(book.record(1).load()).containsExactly(described(bare));
            book.apply(described.inverse());
            assertThat(book.record(1).load()).containsExactly(bare);
            book.apply(added.inverse());
            assertThat(book.record(1).load()).isEmpty();
            book.apply(added);
            book.apply(described);
            assertThat(book.record(1).load()).containsExactly(described(bare));
        }
        assertThat(BookCheck.of(path).isSound()).isTrue();
    }

    @Test
    void aBatchGoesThroughSeveralFiringsUnderOneName() {
        try (Book book = Book.open(path)) {
            LoadedBatch bare = book.addBatch(1, "planters").after().orElseThrow();
            book.apply(new BookEdit.Loaded(1, Optional.of(bare), Optional.of(described(bare))));
            LoadedBatch again =
                    book.addAgain(2, book.batches().get(0).newest()).after().orElseThrow();
            assertThat(again.clay()).contains("Saltmarsh");
            assertThat(again.glaze()).as("the next firing's own").isEmpty();
            assertThat(book.batches())
                    .singleElement()
                    .satisfies(known -> assertThat(known.firings()).containsExactly(1L, 2L));
            LoadedBatch renamed = new LoadedBatch(
                    again.number(),
                    again.batch(),
                    "six planters",
                    again.pieces(),
                    again.clay(),
                    again.thicknessMm(),
                    again.glaze(),
                    again.mix(),
                    again.coats(),
                    again.shelf(),
                    again.outcome(),
                    again.remark());
            long before = book.record(1).edits();
            book.apply(new BookEdit.Loaded(2, Optional.of(again), Optional.of(renamed)));
            assertThat(book.record(1).load().get(0).name()).isEqualTo("six planters");
            assertThat(book.record(1).edits()).as("another window sees it").isGreaterThan(before);
        }
    }

    @Test
    void notesAreChangedAndUndone() {
        try (Book book = Book.open(path)) {
            BookEdit edit = new BookEdit.Notes(1, Optional.empty(), Optional.of("bung out until 600 °C"));
            book.apply(edit);
            assertThat(book.record(1).notes()).contains("bung out until 600 °C");
            book.apply(edit.inverse());
            assertThat(book.record(1).notes()).isEmpty();
        }
    }

    @Test
    void aChangeThatAnotherWindowOvertookIsRefusedAndChangesNothing() {
        try (Book mine = Book.open(path);
                Book theirs = Book.open(path)) {
            LoadedBatch bare = mine.addBatch(1, "soup bowls").after().orElseThrow();
            theirs.apply(new BookEdit.Loaded(1, Optional.of(bare), Optional.of(described(bare))));
            WrittenRecord before = theirs.record(1);
            assertThatThrownBy(() -> mine.apply(new BookEdit.Loaded(1, Optional.of(bare), Optional.empty())))
                    .isInstanceOfSatisfying(
                            BookException.class,
                            refused -> assertThat(refused.reason()).isEqualTo(BookException.Reason.CHANGED))
                    .hasMessageContaining("soup bowls");
            theirs.apply(new BookEdit.Notes(1, Optional.empty(), Optional.of("theirs")));
            assertThatThrownBy(() -> mine.apply(new BookEdit.Notes(1, Optional.empty(), Optional.of("mine"))))
                    .hasMessageContaining("the notes");
            assertThat(mine.record(1).load()).isEqualTo(before.load());
            assertThat(mine.record(1).notes()).contains("theirs");
            assertThatThrownBy(() -> mine.apply(new BookEdit.Notes(99, Optional.empty(), Optional.of("x"))))
                    .hasMessageContaining("no longer in the firing book");
        }
    }

    @Test
    void aRecorderAndAnEditorGetOnWithEachOther() {
        try (BookRecorder recorder = BookRecorder.open(path);
                Book book = Book.open(path)) {
            long number = recorder.begin(SomeReadings.start());
            List<BookEdit> done = new ArrayList<>();
            for (int i = 0; i < 40; i++) {
                for (int k = 0; k < 50; k++) {
                    recorder.append(number, SomeReadings.celsius((i * 50L + k) * 1000, 20 + i));
                }
                done.add(book.addBatch(1, "batch " + i));
            }
            recorder.append(number, FiringEvent.of(2_000_000, FiringEvent.Kind.NOTE, "and a note"));
            assertThat(recorder.flush(Duration.ofSeconds(20))).isTrue();
            assertThat(recorder.state().trouble()).isEmpty();
            assertThat(book.record(1).load()).hasSize(40);
            done.forEach(edit -> book.apply(edit.inverse()));
            assertThat(book.record(1).load()).isEmpty();
            assertThat(book.firing(number).curve().size()).isEqualTo(2000);
        }
    }

    @Test
    void aPhotoIsKeptTakenOutAndPutBack() {
        byte[] picture = new byte[300_000];
        new Random(7).nextBytes(picture);
        try (Book book = Book.open(path)) {
            BookEdit.PhotoInRecord added = book.addPhoto(1, "bowls.jpg", picture, new byte[] {1, 2, 3});
            assertThat(book.record(1).photos())
                    .containsExactly(new StoredPhoto(added.photo(), "bowls.jpg", new byte[] {1, 2, 3}));
            assertThat(book.picture(added.photo())).contains(picture);
            book.apply(added.inverse());
            assertThat(book.record(1).photos()).isEmpty();
            assertThat(book.picture(added.photo())).isEmpty();
            book.apply(added);
            assertThat(book.picture(added.photo())).contains(picture);
        }
    }

    /** Any run of changes, undone in the opposite order, gives the record as it was. */
    @Test
    void anyRunOfChangesIsUndoneToTheLast() {
        Random random = new Random(20261125);
        try (Book book = Book.open(path)) {
            book.addBatch(1, "there before");
            WrittenRecord before = book.record(1);
            List<BookEdit> done = new ArrayList<>();
            for (int i = 0; i < 120; i++) {
                done.add(anyChange(book, random));
            }
            for (int i = done.size() - 1; i >= 0; i--) {
                book.apply(done.get(i).inverse());
            }
            WrittenRecord after = book.record(1);
            assertThat(after.load()).isEqualTo(before.load());
            assertThat(after.notes()).isEqualTo(before.notes());
            assertThat(after.photos()).isEqualTo(before.photos());
        }
    }

    private static BookEdit anyChange(Book book, Random random) {
        WrittenRecord now = book.record(1);
        switch (random.nextInt(5)) {
            case 0:
                return book.addBatch(1, "batch " + random.nextInt(100));
            case 1:
                return book.addPhoto(1, "p" + random.nextInt(9), new byte[random.nextInt(50)], new byte[2]);
            case 2:
                return applied(
                        book,
                        new BookEdit.Notes(
                                1,
                                now.notes(),
                                random.nextBoolean() ? Optional.of("n" + random.nextInt()) : Optional.empty()));
            case 3:
                if (now.photos().size() > 0) {
                    return applied(
                            book,
                            new BookEdit.PhotoInRecord(1, now.photos().get(0).number(), false));
                }
                return book.addBatch(1, "in place of a photo");
            default:
                if (now.load().isEmpty()) {
                    return book.addBatch(1, "first");
                }
                LoadedBatch one = now.load().get(random.nextInt(now.load().size()));
                return applied(
                        book,
                        new BookEdit.Loaded(
                                1,
                                Optional.of(one),
                                random.nextBoolean() ? Optional.of(described(one)) : Optional.empty()));
        }
    }

    private static BookEdit applied(Book book, BookEdit edit) {
        book.apply(edit);
        return edit;
    }
}
