package org.kilnside.command;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.kilnside.book.BookException;
import org.kilnside.book.BookRecorder;
import org.kilnside.book.PastOfKiln;
import org.kilnside.files.NightSettings;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.Kiln;
import org.kilnside.host.HostWatch;
import org.kilnside.host.Places;
import org.kilnside.host.StayAwake;
import org.kilnside.host.TestedAlarm;
import org.kilnside.link.LinkSurroundings;
import org.kilnside.link.Links;
import org.kilnside.link.RecorderAddress;
import org.kilnside.page.LanDoor;
import org.kilnside.page.SnapshotStream;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.session.FiringSettings;
import org.kilnside.session.HostClock;
import org.kilnside.session.KilnPast;
import org.kilnside.session.LearnedForecaster;
import org.kilnside.session.LiveFeed;
import org.kilnside.session.LiveFiring;
import org.kilnside.session.ReadingSource;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The recorder's role: a link, the live firing, the book, and the stream others attach to, opened and closed in order. */
final class Recorder implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(Recorder.class);

    private static final long TRY_DOOR_AGAIN_MS = 30_000;

    private final BookRecorder book;
    private final LiveFiring firing;
    private final Optional<SnapshotStream> stream;
    private final Optional<NightWatch> night;
    private final HostWatch host;
    private final KilnFileWatch kilnFile;
    private final boolean knowsSensor;
    private Optional<LanDoor> door = Optional.empty();
    private boolean closed;

    private Recorder(
            BookRecorder book,
            LiveFiring firing,
            Optional<SnapshotStream> stream,
            Optional<NightWatch> night,
            HostWatch host,
            KilnFileWatch kilnFile,
            boolean knowsSensor) {
        this.kilnFile = kilnFile;
        this.knowsSensor = knowsSensor;
        this.book = book;
        this.firing = firing;
        this.stream = stream;
        this.night = night;
        this.host = host;
    }

    /** How the night is kept: what makes alarms heard, and in which words. */
    record Night(NightSettings settings, Words words) {}

    /**
     * Takes the recorder's role for a book and begins to record.
     *
     * @param bookPath the book; made when there is none
     * @param link where the readings come from
     * @param fired what is fired, in which kiln: its file is read now and looked at while the recording goes on
     * @param words in which it says what goes wrong
     * @param kept how alarms are made heard here; empty where nothing is to ring, as in a demo
     */
    static Recorder start(
            Path bookPath,
            String link,
            FiredIn fired,
            HostClock clock,
            ProfileLibrary library,
            Words words,
            Optional<NightSettings> kept) {
        Optional<Kiln> kiln = fired.file().get();
        FiringSettings settings = fired.settings(kiln);
        ReadingSource source =
                Links.open(link, LinkSurroundings.of(clock, library).saying(words));
        BookRecorder book = BookRecorder.open(inItsFolder(bookPath), words);
        try {
            StayAwake awake = StayAwake.ofThisComputer(words);
            HostWatch host = new HostWatch(bookPath, awake);
            KilnPast past = settings.kiln()
                    .<KilnPast>map(name -> new PastOfKiln(bookPath, name, clock))
                    .orElse(KilnPast.NONE);
            FiringSettings known = knowing(past, settings);
            LiveFiring firing = new LiveFiring(book, clock, known, source, new LearnedForecaster(past), host, past);
            AtomicReference<Optional<SnapshotStream>> open = new AtomicReference<>(Optional.empty());
            Optional<NightWatch> night = kept.map(its -> NightWatch.overRecording(
                    firing,
                    clock,
                    () -> open.get().map(SnapshotStream::followers).orElse(0),
                    host,
                    its,
                    awake,
                    new TestedAlarm(Places.settings()),
                    words));
            open.set(openStream(bookPath, night.isPresent() ? night.get() : firing, clock));
            firing.start();
            KilnFileWatch kilnFile =
                    new KilnFileWatch(fired, kiln, firing::kilnIs, text -> noteIfUnderWay(firing, text), words);
            kilnFile.start();
            return new Recorder(
                    book,
                    firing,
                    open.get(),
                    night,
                    host,
                    kilnFile,
                    known.sensor().isPresent());
        } catch (RuntimeException e) {
            book.close();
            throw e;
        }
    }

    /** What a kiln is set to before or after a firing is nothing that happened in it. */
    private static void noteIfUnderWay(LiveFiring firing, String text) {
        Snapshot snapshot = firing.latest();
        if (snapshot.firing().isPresent() && snapshot.stage() != Snapshot.Stage.ENDED) {
            firing.note(text);
        }
    }

    /** With what the book knows of the sensor; recording begins all the same when that cannot be read. */
    private static FiringSettings knowing(KilnPast past, FiringSettings settings) {
        try {
            Optional<SensorInPlace> guide = past.guide();
            return guide.map(settings::withSensor).orElse(settings);
        } catch (BookException e) {
            LOG.warn("what is known of the sensor cannot be read: {}", e.getMessage());
            return settings;
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

    private static Optional<SnapshotStream> openStream(Path bookPath, LiveFeed firing, HostClock clock) {
        try {
            return Optional.of(SnapshotStream.open(firing, clock, RecorderAddress.announce(bookPath)));
        } catch (IOException e) {
            // Recording comes first: without the stream other copies cannot follow, and the log says why.
            LOG.warn("no other copy can follow this recording", e);
            return Optional.empty();
        }
    }

    /**
     * Lets other computers follow that know the token. Recording comes first: where the door cannot be opened now, it is
     * tried again each half minute.
     *
     * @return why it is not open yet, in a sentence; empty when it is
     */
    synchronized Optional<String> share(Sharing.Opened opened, HostClock clock) {
        try {
            SnapshotStream open = stream.orElseThrow(() -> new IOException("no copy can follow this recording"));
            if (!closed) {
                door = Optional.of(LanDoor.open(open, clock, opened.key(), opened.takesNotes(), opened.port()));
            }
            return Optional.empty();
        } catch (IOException e) {
            LOG.warn("the recording is not shared yet", e);
            Thread again = new Thread(() -> shareLater(opened, clock), "door-again");
            again.setDaemon(true);
            again.start();
            return Optional.of("this recording is not shared yet: " + Sharing.sentence(e));
        }
    }

    private void shareLater(Sharing.Opened opened, HostClock clock) {
        try {
            Thread.sleep(TRY_DOOR_AGAIN_MS);
            share(opened, clock);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** A person wants this firing recorded now: it is an alarm when no reading ever comes. */
    void awaitReadings() {
        firing.awaitFirstReading();
    }

    /** Whether anybody has said what the sensor is: the book, the kiln's file or the command line. */
    boolean knowsSensor() {
        return knowsSensor;
    }

    LiveFeed feed() {
        return night.isPresent() ? new FeedHere(night.get()) : firing;
    }

    /** The watch over it; empty where nothing is to ring. */
    Optional<NightWatch> night() {
        return night;
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
        night.ifPresent(NightWatch::close);
        host.close();
        kilnFile.close();
        firing.close();
        door.ifPresent(LanDoor::close);
        stream.ifPresent(SnapshotStream::close);
        book.close();
    }
}
