package org.kilnside.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.kilnside.book.Book;
import org.kilnside.book.BookException;
import org.kilnside.book.KilnHistory;
import org.kilnside.desktop.plan.PlanShelf;
import org.kilnside.desktop.screen.SwingThread;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.OwnPlans;
import org.kilnside.files.PageFile;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.host.PageOpener;
import org.kilnside.host.SystemClock;
import org.kilnside.report.CardPage;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.thermal.WallKind;
import org.kilnside.wording.ProgramCard;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Plans and kilns of a person's own folder, the starter ones, and what the book knows of a kiln. */
final class DeskPlans implements PlanShelf {
    private static final Logger LOG = LoggerFactory.getLogger(DeskPlans.class);

    private final Path settings;
    private final Path book;
    private final Supplier<Optional<String>> lastKiln;
    private final ProfileLibrary library;
    private final OwnPlans own;

    /**
     * Plans, for the window.
     *
     * @param settings the person's own folder
     * @param book whose firings tell of a kiln
     * @param lastKiln the kiln that was recorded last, the likeliest to be meant
     */
    DeskPlans(Path settings, Path book, Supplier<Optional<String>> lastKiln) {
        this.lastKiln = lastKiln;
        this.settings = settings;
        this.book = book;
        library = ProfileLibrary.of(settings);
        own = OwnPlans.in(settings);
    }

    @Override
    public List<Entry> plans() {
        SwingThread.isNotHere();
        List<Entry> mine = new ArrayList<>();
        List<Entry> starters = new ArrayList<>();
        for (String name : library.planNames()) {
            Entry entry = entry(name);
            (entry.own() ? mine : starters).add(entry);
        }
        mine.addAll(starters);
        return mine;
    }

    private Entry entry(String name) {
        try {
            ProfileLibrary.Plan plan = library.plan(name);
            return new Entry(name, plan.schedule().name(), plan.path().isPresent(), Optional.empty());
        } catch (FileRefusedException e) {
            return new Entry(name, name, true, Optional.of(e.getMessage()));
        }
    }

    @Override
    public Opened open(String shortName) {
        SwingThread.isNotHere();
        ProfileLibrary.Plan plan = library.plan(shortName);
        return new Opened(shortName, plan.path().isPresent(), plan.text(), plan.schedule());
    }

    @Override
    public Optional<String> textNow(String shortName) {
        SwingThread.isNotHere();
        return own.text(shortName);
    }

    @Override
    public Saved save(String shortName, Schedule plan, String lastRead) {
        SwingThread.isNotHere();
        OwnPlans.Saved saved = own.save(shortName, plan, lastRead);
        return new Saved(shortName, saved.text(), saved.aside());
    }

    @Override
    public Saved saveNew(Schedule plan) {
        SwingThread.isNotHere();
        String shortName = own.saveNew(plan);
        return new Saved(shortName, own.text(shortName).orElse(""), Optional.empty());
    }

    @Override
    public List<String> kilns() {
        SwingThread.isNotHere();
        List<String> kilns = new ArrayList<>(library.kilnNames().stream()
                .flatMap(name -> readable(name).stream())
                .toList());
        lastKiln.get().filter(kilns::remove).ifPresent(last -> kilns.add(0, last));
        return kilns;
    }

    /** A kiln by what it is called inside; a file that is no kiln is left out here, and refused where it is edited. */
    private Optional<String> readable(String shortName) {
        try {
            return Optional.of(library.kiln(shortName).name());
        } catch (FileRefusedException e) {
            LOG.warn("left out of the kilns to choose from: {}", e.getMessage());
            return Optional.empty();
        }
    }

    @Override
    public KnownKiln kiln(String name) {
        SwingThread.isNotHere();
        Kiln kiln = library.kiln(name);
        Past past = past(kiln.name());
        KilnMemory memory = KilnMemory.of(
                past.earlier(), kiln.wall().map(wall -> WallKind.valueOf(wall.name())), OptionalDouble.empty());
        return new KnownKiln(
                kiln, memory, past.earlier().size(), past.guide().orElseGet(() -> SensorInPlace.asSaid(Probe.UNKNOWN)));
    }

    @Override
    public Kiln described(String name) {
        return library.kiln(name);
    }

    /** The true curves of the kiln's newest firings, oldest first, and its guiding sensor as it is known now. */
    private record Past(List<Trace> earlier, Optional<SensorInPlace> guide) {}

    private Past past(String kiln) {
        if (!Files.exists(book)) {
            return new Past(List.of(), Optional.empty());
        }
        try (Book its = Book.open(book)) {
            KilnHistory history = its.history(kiln);
            return new Past(
                    history.earlier(Long.MAX_VALUE, KilnHistory.REMEMBERED),
                    history.guideAsAnswered(new SystemClock().wallClock()));
        } catch (BookException e) {
            LOG.warn("no earlier firings for the outlook: {}", e.getMessage());
            return new Past(List.of(), Optional.empty());
        }
    }

    @Override
    public String print(Schedule plan, Optional<String> kiln, ControllerNumbers numbers, Words words) {
        SwingThread.isNotHere();
        String page = CardPage.html(
                ProgramCard.of(plan, kiln, numbers, words),
                words.language().locale().getLanguage());
        Path written = PageFile.write(settings.resolve("cards"), "card.html", page);
        PageOpener.open(written);
        return written.toString();
    }
}
