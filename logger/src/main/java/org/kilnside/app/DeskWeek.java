package org.kilnside.app;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Supplier;
import org.kilnside.book.Book;
import org.kilnside.book.BookException;
import org.kilnside.book.KilnHistory;
import org.kilnside.desktop.screen.SwingThread;
import org.kilnside.desktop.week.WeekShelf;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.OwnWeek;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.files.WeekFiles;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.session.HostClock;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.thermal.WallKind;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The own week of a person's folder for the window; planned as the command plans it with the book. */
final class DeskWeek implements WeekShelf {
    private static final Logger LOG = LoggerFactory.getLogger(DeskWeek.class);
    private static final String EXAMPLE = "cafe-friday";

    private final Path book;
    private final ProfileLibrary library;
    private final OwnWeek own;
    private final HostClock clock;
    private final Supplier<Optional<String>> lastKiln;

    /**
     * The week, for the window.
     *
     * @param settings the person's own folder
     * @param book whose firings tell of a kiln
     * @param lastKiln the kiln that was recorded last, the likeliest to be meant
     */
    DeskWeek(Path settings, Path book, HostClock clock, Supplier<Optional<String>> lastKiln) {
        this.book = book;
        this.clock = clock;
        this.lastKiln = lastKiln;
        library = ProfileLibrary.of(settings);
        own = OwnWeek.in(settings);
    }

    @Override
    public Instant now() {
        return clock.wallClock();
    }

    private WeekFiles.Setting setting() {
        return new WeekFiles.Setting(library, now(), ZoneId.systemDefault());
    }

    @Override
    public Optional<Opened> open() {
        SwingThread.isNotHere();
        return own.text().map(text -> new Opened(text, own.parse(text, setting())));
    }

    @Override
    public Optional<String> textNow() {
        SwingThread.isNotHere();
        return own.text();
    }

    @Override
    public Saved save(Week week, String lastRead) {
        SwingThread.isNotHere();
        OwnWeek.Saved saved = own.save(week, lastRead, setting());
        return new Saved(saved.text(), saved.aside());
    }

    @Override
    public Week example() {
        SwingThread.isNotHere();
        return library.week(EXAMPLE, now(), ZoneId.systemDefault());
    }

    @Override
    public List<PlanChoice> plans() {
        SwingThread.isNotHere();
        List<PlanChoice> plans = new ArrayList<>();
        for (String name : library.planNames()) {
            try {
                plans.add(new PlanChoice(name, library.plan(name).schedule()));
            } catch (FileRefusedException e) {
                // Refused where it is edited.
                LOG.warn("left out of the plans to choose from: {}", e.getMessage());
            }
        }
        return plans;
    }

    @Override
    public List<KilnChoice> kilns() {
        SwingThread.isNotHere();
        List<KilnChoice> kilns = new ArrayList<>();
        Optional<String> last = lastKiln.get();
        for (String name : library.kilnNames()) {
            try {
                KilnChoice kiln = new KilnChoice(name, library.kiln(name).name());
                boolean likeliest = last.filter(its -> its.equals(kiln.title()) || its.equals(name))
                        .isPresent();
                kilns.add(likeliest ? 0 : kilns.size(), kiln);
            } catch (FileRefusedException e) {
                // Refused where it is edited.
                LOG.warn("left out of the kilns to choose from: {}", e.getMessage());
            }
        }
        return kilns;
    }

    @Override
    public Planned plan(Week week, Instant from) {
        SwingThread.isNotHere();
        Past asNamed = past(week.kiln());
        boolean inBookOnly = !library.knowsKiln(week.kiln()) && asNamed.knowsAnything();
        Kiln kiln = inBookOnly ? Kiln.named(week.kiln()) : library.kiln(week.kiln());
        Past past = kiln.name().equals(week.kiln()) ? asNamed : past(kiln.name());
        OptionalDouble room =
                week.room().map(its -> OptionalDouble.of(its.celsius())).orElse(OptionalDouble.empty());
        KilnMemory memory = KilnMemory.of(past.earlier(), kiln.wall().map(wall -> WallKind.valueOf(wall.name())), room);
        OutlookQuestion about = OutlookQuestion.about(week.loads().get(0).plan(), kiln)
                .withMemory(memory)
                .withSensor(past.guide().orElseGet(() -> SensorInPlace.asSaid(Probe.UNKNOWN)));
        return new Planned(kiln, WeekPlan.of(week, about, from));
    }

    /** The true curves of the kiln's newest firings, oldest first, and its guiding sensor as it is known now. */
    private record Past(List<Trace> earlier, Optional<SensorInPlace> guide) {
        boolean knowsAnything() {
            return !earlier.isEmpty() || guide.isPresent();
        }
    }

    private Past past(String kiln) {
        if (!Files.exists(book)) {
            return new Past(List.of(), Optional.empty());
        }
        try (Book its = Book.open(book)) {
            KilnHistory history = its.history(kiln);
            return new Past(history.earlier(Long.MAX_VALUE, KilnHistory.REMEMBERED), history.guideAsAnswered(now()));
        } catch (BookException e) {
            LOG.warn("no earlier firings for the week: {}", e.getMessage());
            return new Past(List.of(), Optional.empty());
        }
    }
}
