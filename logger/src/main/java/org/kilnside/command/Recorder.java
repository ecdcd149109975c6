package org.kilnside.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.kilnside.book.BookRecorder;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.link.LinkSurroundings;
import org.kilnside.link.Links;
import org.kilnside.link.RecorderAddress;
import org.kilnside.page.LanDoor;
import org.kilnside.page.SnapshotStream;
import org.kilnside.session.FiringSettings;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.LiveFiring;
import org.kilnside.session.ModelForecaster;
import org.kilnside.session.ReadingSource;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The recorder's role: a link, the live firing, the book, and the stream others attach to, opened and closed in order. */
final class Recorder implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Recorder.class);

    private final BookRecorder book;
    private final LiveFiring firing;
    private final Optional<SnapshotStream> stream;
    private Optional<LanDoor> door = Optional.empty();
    private boolean closed;

    private Recorder(BookRecorder book, LiveFiring firing, Optional<SnapshotStream> stream) {
        this.book = book;
        this.firing = firing;
        this.stream = stream;
    }

    /**
     * Takes the recorder's role for a book and begins to record.
     *
     * @param bookPath the book; made when there is none
     * @param link where the readings come from
     */
    static Recorder start(
            Path bookPath, String link, FiringSettings settings, HostClock clock, ProfileLibrary library) {
        ReadingSource source = Links.open(link, LinkSurroundings.of(clock, library));
        BookRecorder book = BookRecorder.open(inItsFolder(bookPath));
        try {
            LiveFiring firing = new LiveFiring(book, clock, settings, source, new ModelForecaster());
            Optional<SnapshotStream> stream = openStream(bookPath, firing, clock);
            firing.start();
            return new Recorder(book, firing, stream);
        } catch (RuntimeException e) {
            book.close();
            throw e;
        }
    }

    /** The book's path, its folder made when it was missing. */
    static Path inItsFolder(Path bookPath) {
        Path folder = bookPath.toAbsolutePath().getParent();
        try {
            Files.createDirectories(folder);
            return bookPath;
        } catch (IOException e) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT,
                    "the folder " + folder + " for the book cannot be made (" + e.getMessage()
                            + "): choose another place with --book FILE.");
        }
    }

    private static Optional<SnapshotStream> openStream(Path bookPath, LiveFiring firing, HostClock clock) {
        try {
            return Optional.of(SnapshotStream.open(firing, clock, RecorderAddress.announce(bookPath)));
        } catch (IOException e) {
            // Recording comes first: without the stream other copies cannot follow, and the log says why.
            LOG.warn("no other copy can follow this recording", e);
            return Optional.empty();
        }
    }

    /** Lets other computers follow that know the token. */
    void share(Sharing.Opened opened, HostClock clock) {
        try {
            SnapshotStream open = stream.orElseThrow(() -> new IOException("no copy can follow this recording"));
            door = Optional.of(LanDoor.open(open, clock, opened.key(), opened.takesNotes(), opened.port()));
        } catch (IOException e) {
            throw new Complaint(Complaint.ExitCode.INPUT, "this recording cannot be shared: " + Sharing.sentence(e));
        }
    }

    LiveFeed feed() {
        return firing;
    }

    /** Whether other copies of the program can follow. */
    boolean canBeFollowed() {
        return stream.isPresent();
    }

    @Override
    public void close() {
        finish();
    }

    /** Stops reading, writes out what has come, and gives the role back. The firing itself may be gone on with later. */
    synchronized void finish() {
        if (closed) {
            return;
        }
        closed = true;
        firing.close();
        door.ifPresent(LanDoor::close);
        stream.ifPresent(SnapshotStream::close);
        book.close();
    }
}
