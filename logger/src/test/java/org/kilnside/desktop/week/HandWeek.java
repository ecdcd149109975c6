package org.kilnside.desktop.week;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.files.WeekFiles;
import org.kilnside.firing.Kiln;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/** A person's own week held in the hand, and the screen's model over it; nothing runs before it is told to, but the disk. */
final class HandWeek implements WeekShelf {
    static final ZoneId ZONE = ZoneId.of("Europe/Amsterdam");

    /** A Friday evening, 18:00 in the studio. */
    static final Instant FRIDAY = Instant.parse("2026-11-27T17:00:00Z");

    static final String BOWLS = """
            name = "For the café"
            kiln = "tall-drum"
            packing = "1 h"

            [[there]]
            days = "every day"
            from = "07:00"
            to = "22:00"

            [[load]]
            name = "Soup bowls, raw"
            plan = "bisque"
            weight = "36 kg"

            [[load]]
            name = "Soup bowls, glazed"
            plan = "low-fire-glaze"
            after = "Soup bowls, raw"
            drying = "24 h"
            due = "2026-12-04 09:00"
            """;

    private final ProfileLibrary library = ProfileLibrary.starters();
    final Deque<Runnable> thoughts = new ArrayDeque<>();
    final Deque<Runnable> errands = new ArrayDeque<>();
    final List<Week> planned = new ArrayList<>();
    final List<String> lastRead = new ArrayList<>();
    final WeekModel model;
    boolean diskAtOnce = true;
    Optional<String> file;
    Optional<String> broken = Optional.empty();
    Instant now = FRIDAY;

    HandWeek(Optional<String> file) {
        this.file = file;
        model = new WeekModel(this, runner(errands, true), runner(thoughts, false), words(), () -> {});
        model.start();
    }

    static Words words() {
        return Words.of(
                Locale.ENGLISH,
                new Preferences(
                        org.kilnside.wording.TemperatureUnit.CELSIUS,
                        org.kilnside.wording.ClockStyle.TWENTY_FOUR_HOURS,
                        ZONE,
                        org.kilnside.wording.Opening.LID));
    }

    private WeekModel.Runner runner(Deque<Runnable> waiting, boolean isDisk) {
        return new WeekModel.Runner() {
            @Override
            public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
                Runnable errand = () -> {
                    T result;
                    try {
                        result = work.call();
                    } catch (Exception e) {
                        failed.accept(e);
                        return;
                    }
                    found.accept(result);
                };
                if (isDisk && diskAtOnce) {
                    errand.run();
                } else {
                    waiting.add(errand);
                }
            }
        };
    }

    /** Lets everything that was asked for be worked out. */
    void think() {
        while (!thoughts.isEmpty()) {
            thoughts.poll().run();
        }
    }

    void drain() {
        while (!errands.isEmpty()) {
            errands.poll().run();
        }
    }

    void type(WeekField field, String text) {
        model.typed(new WeekModel.Place(field, field.isOfALoad() ? model.selected() : 0), text);
    }

    WeekLines lines() {
        return WeekLines.of(model, words());
    }

    Week week() {
        return model.week().orElseThrow();
    }

    Week onDisk() {
        return parse(file.orElseThrow());
    }

    private Week parse(String text) {
        return WeekFiles.parse(text, "my-week.toml", new WeekFiles.Setting(library, now, ZONE));
    }

    @Override
    public Instant now() {
        return now;
    }

    @Override
    public Optional<Opened> open() {
        return file.map(text -> new Opened(text, parse(text)));
    }

    @Override
    public Optional<String> textNow() {
        return file;
    }

    @Override
    public Saved save(Week week, String read) {
        broken.ifPresent(sentence -> {
            throw new IllegalStateException(sentence);
        });
        lastRead.add(read);
        Optional<String> aside = file.filter(text -> !text.equals(read)).map(text -> "my-week-2");
        file = Optional.of(WeekFiles.text(week));
        return new Saved(file.get(), aside);
    }

    @Override
    public Week example() {
        return library.week("cafe-friday", now, ZONE);
    }

    @Override
    public List<PlanChoice> plans() {
        return library.planNames().stream()
                .map(name -> new PlanChoice(name, library.plan(name).schedule()))
                .toList();
    }

    @Override
    public List<KilnChoice> kilns() {
        return List.of(new KilnChoice("tall-drum", "Tall Drum"));
    }

    @Override
    public Planned plan(Week week, Instant from) {
        planned.add(week);
        Kiln kiln = library.kiln(week.kiln());
        return new Planned(
                kiln,
                WeekPlan.of(week, OutlookQuestion.about(week.loads().get(0).plan(), kiln), from));
    }
}
