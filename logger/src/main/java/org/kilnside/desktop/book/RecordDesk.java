package org.kilnside.desktop.book;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import javax.imageio.ImageIO;
import org.kilnside.book.BookEdit;
import org.kilnside.book.KnownBatch;
import org.kilnside.book.NotedCone;
import org.kilnside.book.StoredPhoto;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.wording.Words;

/** What a person does with the record of the firing that is open: each deed is saved at once. */
final class RecordDesk {
    private final BookAccess book;
    private final Errands errands;
    private final RecordKeeper keeper;
    private final Supplier<Optional<OpenedModel>> model;
    private final Windows windows;

    /** What a deed needs of the window around it. Called on the Swing thread. */
    interface Windows {
        Words words();

        /** Lets the person choose one of the batches of earlier firings. */
        Optional<KnownBatch> choose(List<KnownBatch> batches);

        /** Opens a batch in the form. */
        void edit(LoadedBatch batch);

        /** Shows a photo as large as there is room. */
        void look(String name, BufferedImage picture);

        /** Says what a person has to know. */
        void say(String sentence);

        void failed(Exception failure);

        /** The notes were not saved, as somebody else was there meanwhile. */
        void notesOvertaken();

        /** The notes were not saved, as the book could not be written. */
        void notesRefused(Optional<String> before);
    }

    RecordDesk(
            BookAccess book,
            Errands errands,
            RecordKeeper keeper,
            Supplier<Optional<OpenedModel>> model,
            Windows windows) {
        this.book = book;
        this.errands = errands;
        this.keeper = keeper;
        this.model = model;
        this.windows = windows;
    }

    private void withFiring(Consumer<OpenedFiring> deed) {
        model.get().map(OpenedModel::first).ifPresent(deed);
    }

    LoadPane.Wishes loadWishes() {
        return new LoadPane.Wishes() {
            @Override
            public void add() {
                withFiring(firing ->
                        keeper.addBatch(firing.number(), windows.words().text("load.new_batch"), windows::edit));
            }

            @Override
            public void addAgain() {
                withFiring(firing -> errands.run(
                        book::batches,
                        found -> choose(
                                firing,
                                found.stream()
                                        .filter(batch -> !batch.firings().contains(firing.number()))
                                        .toList()),
                        windows::failed));
            }

            private void choose(OpenedFiring firing, List<KnownBatch> others) {
                if (others.isEmpty()) {
                    windows.say(windows.words().text("load.no_other"));
                    return;
                }
                windows.choose(others)
                        .ifPresent(batch -> keeper.addAgain(firing.number(), batch.newest(), windows::edit));
            }

            @Override
            public void change(LoadedBatch before, LoadedBatch after) {
                withFiring(firing ->
                        keeper.change(new BookEdit.Loaded(firing.number(), Optional.of(before), Optional.of(after))));
            }

            @Override
            public void takeOut(LoadedBatch batch) {
                withFiring(firing ->
                        keeper.change(new BookEdit.Loaded(firing.number(), Optional.of(batch), Optional.empty())));
            }
        };
    }

    PhotoStrip.Wishes photoWishes() {
        return new PhotoStrip.Wishes() {
            @Override
            public void add(String file) {
                withFiring(firing -> {
                    windows.say(windows.words().text("photo.reading"));
                    keeper.addPhoto(firing.number(), file);
                });
            }

            @Override
            public void takeOut(StoredPhoto photo) {
                withFiring(firing -> keeper.change(new BookEdit.PhotoInRecord(firing.number(), photo.number(), false)));
            }

            @Override
            public void look(StoredPhoto photo) {
                errands.run(
                        () -> book.picture(photo.number()).map(RecordDesk::decoded),
                        found -> found.flatMap(picture -> picture)
                                .ifPresent(picture -> windows.look(photo.name(), picture)),
                        windows::failed);
            }
        };
    }

    /** Makes a thumbnail's picture off the Swing thread and brings it back. */
    void thumbnail(StoredPhoto photo, Consumer<BufferedImage> show) {
        errands.run(() -> decoded(photo.thumbnail()), found -> found.ifPresent(show), windows::failed);
    }

    /** Empty for bytes that are no picture: a place in the strip stays grey then. */
    private static Optional<BufferedImage> decoded(byte[] jpeg) {
        try {
            return Optional.ofNullable(ImageIO.read(new ByteArrayInputStream(jpeg)));
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    void notes(Optional<String> before, Optional<String> after) {
        withFiring(firing -> keeper.change(
                new BookEdit.Notes(firing.number(), before, after),
                windows::notesOvertaken,
                () -> windows.notesRefused(before)));
    }

    void addCones(List<NotedCone> cones) {
        withFiring(firing -> keeper.addCones(firing.number(), cones));
    }

    void strikeOut(NotedCone cone) {
        withFiring(firing -> keeper.change(new BookEdit.Witness(firing.number(), Optional.of(cone), Optional.empty())));
    }
}
