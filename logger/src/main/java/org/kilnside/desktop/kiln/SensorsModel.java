package org.kilnside.desktop.kiln;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Function;
import org.kilnside.book.ComparedPoint;
import org.kilnside.book.FittedSensor;
import org.kilnside.book.KilnEdit;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A kiln's sensors, and the noting of what was done to them. What is noted is in the book at once and can be undone, step
 * by step; nothing asks whether one is sure. Plain Java, confined to one thread.
 */
final class SensorsModel {
    private static final Logger LOG = LoggerFactory.getLogger(SensorsModel.class);
    private static final double USUAL_HALF_WIDTH_K = 5;

    private final SensorShelf shelf;
    private final Chores chores;
    private Runnable changed = () -> {};
    private Optional<String> kiln = Optional.empty();
    private List<SensorShelf.Known> sensors = List.of();
    private Optional<SensorForm> form = Optional.empty();
    private Optional<Said> said = Optional.empty();
    private final Deque<Step> done = new ArrayDeque<>();
    private int chosen;

    /** A change, and in which kiln. */
    private record Step(String kiln, KilnEdit edit) {}

    /** What there is to say of the last deed. */
    record Said(String text, boolean isTrouble) {}

    /** One entry of the list: a sensor, one of its comparisons, or what the cones of one firing say of it. */
    record Entry(SensorShelf.Known sensor, Optional<ComparedPoint> point, Optional<Integer> offset) {
        boolean isSensor() {
            return point.isEmpty() && offset.isEmpty();
        }
    }

    SensorsModel(SensorShelf shelf, Chores chores) {
        this.shelf = shelf;
        this.chores = chores;
    }

    void whenChanged(Runnable listener) {
        changed = listener;
    }

    /** Turns to a kiln, and reads anew what the book knows of it. */
    void open(String its) {
        if (!kiln.equals(Optional.of(its))) {
            kiln = Optional.of(its);
            sensors = List.of();
            form = Optional.empty();
            said = Optional.empty();
            chosen = 0;
        }
        chores.run(() -> shelf.sensors(its), found -> take(its, found), this::fault);
    }

    private void take(String its, List<SensorShelf.Known> found) {
        if (kiln.equals(Optional.of(its))) {
            sensors = found.stream()
                    .sorted(Comparator.comparing((SensorShelf.Known known) -> !known.isInPlace())
                            .thenComparing(known -> known.fitted().channel())
                            .thenComparing(known -> known.fitted().fittedAt(), Comparator.reverseOrder()))
                    .toList();
            chosen = Math.max(0, Math.min(chosen, entries().size() - 1));
        }
        changed.run();
    }

    Optional<String> kiln() {
        return kiln;
    }

    Optional<SensorForm> form() {
        return form;
    }

    Optional<Said> said() {
        return said;
    }

    /** All there is to see, those in place first, each with what is known of it below. */
    List<Entry> entries() {
        List<Entry> entries = new ArrayList<>();
        for (SensorShelf.Known sensor : sensors) {
            entries.add(new Entry(sensor, Optional.empty(), Optional.empty()));
            sensor.points().forEach(point -> entries.add(new Entry(sensor, Optional.of(point), Optional.empty())));
            for (int i = 0; i < sensor.offsets().size(); i++) {
                entries.add(new Entry(sensor, Optional.empty(), Optional.of(i)));
            }
        }
        return entries;
    }

    void choose(int entry) {
        chosen = entry;
    }

    int chosen() {
        return chosen;
    }

    private Optional<Entry> entry() {
        List<Entry> entries = entries();
        return chosen >= 0 && chosen < entries.size() ? Optional.of(entries.get(chosen)) : Optional.empty();
    }

    /** The sensor a deed is about: the chosen one, or else the one that guides. */
    private Optional<SensorShelf.Known> sensor() {
        return entry().map(Entry::sensor).or(() -> sensors.stream().findFirst());
    }

    void fit(Words words) {
        if (isFree(words)) {
            open(SensorForm.fit(sensor().filter(SensorShelf.Known::isInPlace), words));
        }
    }

    void move(Words words) {
        aboutOneInPlace(words, its -> SensorForm.move(its, words));
    }

    void compare(Words words) {
        aboutOneInPlace(
                words, its -> SensorForm.compare(its, words.span(TemperatureDifference.ofKelvin(USUAL_HALF_WIDTH_K))));
    }

    void mend(Words words) {
        if (!isFree(words)) {
            return;
        }
        sensor().ifPresentOrElse(its -> open(SensorForm.mend(its, words)), () -> say("sensors.fit_first", words));
    }

    private void aboutOneInPlace(Words words, Function<SensorShelf.Known, SensorForm> made) {
        Optional<SensorShelf.Known> its = sensor();
        if (!isFree(words)) {
            return;
        }
        if (its.isEmpty()) {
            say("sensors.fit_first", words);
        } else if (!its.get().isInPlace()) {
            say("sensors.taken_out", words);
        } else {
            open(made.apply(its.get()));
        }
    }

    private void open(SensorForm its) {
        if (kiln.isPresent()) {
            form = Optional.of(its);
            said = Optional.empty();
            changed.run();
        }
    }

    private void say(String key, Words words) {
        said = Optional.of(new Said(words.text(key), true));
        changed.run();
    }

    /** Whether a note was begun that is in no book yet. */
    boolean isHalfWritten() {
        return form.filter(SensorForm::isTouched).isPresent();
    }

    /** Turns to a kiln, unless a note about a sensor of another one is half written: that is to be seen to first. */
    void turnTo(String its, Words words) {
        if (kiln.equals(Optional.of(its)) || isFree(words)) {
            open(its);
        }
    }

    /** Whether no half-written note would be lost; says so where one would. */
    private boolean isFree(Words words) {
        boolean half = isHalfWritten();
        if (half) {
            said = Optional.of(new Said(words.text("sensors.half_first", kiln.orElse("")), true));
            changed.run();
        }
        return !half;
    }

    void leaveForm() {
        form = Optional.empty();
        changed.run();
    }

    /** Notes what stands in the form, if it can be so. */
    void note(Words words) {
        note(words, () -> {});
    }

    /**
     * The same.
     *
     * @param later run once it is in the book; not where it cannot be
     */
    void note(Words words, Runnable later) {
        if (form.isEmpty() || kiln.isEmpty()) {
            return;
        }
        SensorForm its = form.get();
        its.allIsWell();
        String name = kiln.get();
        SensorFormReader reader = new SensorFormReader(its, sensors, shelf.now(), words);
        Optional<Callable<KilnEdit>> work = switch (its.deed()) {
            case FIT -> reader.fitting().map(fitting -> () -> fit(name, fitting));
            case MOVE -> reader.moving().map(fitting -> () -> fit(name, fitting));
            case COMPARE ->
                reader.comparing()
                        .map(found -> () -> shelf.compare(
                                name, its.sensor().orElseThrow().fitted().number(), found.point(), found.everywhere()));
            case MEND ->
                reader.mended()
                        .map(after -> () -> applied(
                                name,
                                new KilnEdit.Sensor(
                                        Optional.of(its.sensor().orElseThrow().fitted()), Optional.of(after))));
        };
        work.ifPresentOrElse(each -> change(each, name, "kilns.noted", words, later), changed);
    }

    private KilnEdit fit(String name, SensorFormReader.Fitting fitting) {
        return shelf.fit(name, fitting.channel(), fitting.sensor(), fitting.at());
    }

    private KilnEdit applied(String name, KilnEdit edit) {
        shelf.apply(name, edit);
        return edit;
    }

    /** Strikes out what is chosen: a comparison, or a sensor noted by mistake with all that was noted of it. */
    void strike(Words words) {
        if (kiln.isEmpty() || entry().isEmpty() || !isFree(words)) {
            return;
        }
        Entry its = entry().get();
        String name = kiln.get();
        if (its.offset().isPresent()) {
            said = Optional.of(new Said(
                    words.text(
                            "sensors.cones_in_book",
                            its.sensor().offsets().get(its.offset().get()).firing()),
                    true));
            changed.run();
        } else if (its.point().isPresent()) {
            change(
                    () -> applied(name, new KilnEdit.Compared(its.point(), Optional.empty())),
                    name,
                    "sensors.struck",
                    words,
                    () -> {});
        } else {
            change(() -> applied(name, withoutSensor(its.sensor())), name, "sensors.struck", words, () -> {});
        }
    }

    /** Without a sensor: its comparisons go too, and the one it had taken the place of is there again. */
    private KilnEdit withoutSensor(SensorShelf.Known known) {
        List<KilnEdit> edits = new ArrayList<>();
        known.points().forEach(point -> edits.add(new KilnEdit.Compared(Optional.of(point), Optional.empty())));
        FittedSensor its = known.fitted();
        edits.add(new KilnEdit.Sensor(Optional.of(its), Optional.empty()));
        sensors.stream()
                .map(SensorShelf.Known::fitted)
                .filter(other ->
                        other.channel() == its.channel() && other.removedAt().equals(Optional.of(its.fittedAt())))
                .findFirst()
                .ifPresent(other -> edits.add(new KilnEdit.Sensor(
                        Optional.of(other),
                        Optional.of(new FittedSensor(
                                other.number(),
                                other.kiln(),
                                other.channel(),
                                other.sensor(),
                                other.fittedAt(),
                                its.removedAt())))));
        return new KilnEdit.Together(edits);
    }

    private void change(Callable<KilnEdit> work, String name, String noted, Words words, Runnable later) {
        chores.run(
                work,
                edit -> {
                    done.push(new Step(name, edit));
                    form = Optional.empty();
                    said = Optional.of(new Said(words.text(noted), false));
                    open(name);
                    later.run();
                },
                failure -> failed(failure, words));
    }

    void undo(Words words) {
        if (!isFree(words)) {
            return;
        }
        if (done.isEmpty()) {
            said = Optional.of(new Said(words.text("sensors.nothing_to_undo"), false));
            changed.run();
            return;
        }
        Step last = done.pop();
        chores.run(
                () -> applied(last.kiln, last.edit.inverse()),
                edit -> {
                    form = Optional.empty();
                    open(last.kiln);
                    said = Optional.of(new Said(words.text("sensors.undone"), false));
                    changed.run();
                },
                failure -> {
                    if (!(failure instanceof SensorShelf.ChangedElsewhereException)) {
                        done.push(last);
                    }
                    failed(failure, words);
                });
    }

    private void failed(Exception failure, Words words) {
        if (failure instanceof SensorShelf.ChangedElsewhereException) {
            said = Optional.of(new Said(words.text("sensors.changed_elsewhere"), true));
            kiln.ifPresent(this::open);
            changed.run();
        } else {
            fault(failure);
        }
    }

    private void fault(Exception failure) {
        if (!(failure instanceof RefusedException)) {
            LOG.error("a fault on the sensors' screen", failure);
        }
        said = Optional.of(new Said(String.valueOf(failure.getMessage()), true));
        changed.run();
    }
}
