package org.kilnside.desktop.week;

import java.util.Optional;
import org.kilnside.week.Week;

/**
 * Keeps the own week on disk: each change is written at once, one after the other, and what somebody else writes there is
 * taken. A file that cannot be read is never written over. Confined to one thread.
 */
final class WeekKeeping {
    private final WeekModel model;
    private final WeekShelf shelf;
    private final WeekModel.Runner runner;

    /** The file's text when it was last read or written here; empty where there is none. */
    private String text = "";

    private boolean writing;
    private boolean looking;
    private Optional<Week> next = Optional.empty();
    private Optional<Runnable> afterwards = Optional.empty();
    private Optional<String> broken = Optional.empty();
    private boolean read;

    WeekKeeping(WeekModel model, WeekShelf shelf, WeekModel.Runner runner) {
        this.model = model;
        this.shelf = shelf;
        this.runner = runner;
    }

    /** Whether it is known what is on disk. */
    boolean isRead() {
        return read;
    }

    /** Why the file on disk is no week; empty where all is well. */
    Optional<String> broken() {
        return broken;
    }

    /** Reads what is on disk. */
    void open() {
        if (writing || looking) {
            return;
        }
        looking = true;
        runner.run(
                shelf::open,
                opened -> {
                    looking = false;
                    read = true;
                    if (writing) {
                        return;
                    }
                    boolean wasBroken = broken.isPresent();
                    broken = Optional.empty();
                    String before = text;
                    text = opened.map(WeekShelf.Opened::text).orElse("");
                    if (opened.isPresent()) {
                        model.takeFromDisk(opened.get().week());
                    } else if (!before.isEmpty()) {
                        model.goneFromDisk();
                    }
                    if (wasBroken || opened.isEmpty()) {
                        model.changed();
                    }
                },
                this::unreadable);
    }

    private void unreadable(Exception trouble) {
        looking = false;
        read = true;
        broken = Optional.of(String.valueOf(trouble.getMessage()));
        model.changed();
    }

    /** Looks whether somebody else changed the file; takes what is there then. */
    void look() {
        if (writing || looking) {
            return;
        }
        looking = true;
        runner.run(
                shelf::textNow,
                now -> {
                    looking = false;
                    if (!writing && (broken.isPresent() || !now.orElse("").equals(text))) {
                        open();
                    }
                },
                this::unreadable);
    }

    void save(Week week) {
        if (writing) {
            next = Optional.of(week);
            return;
        }
        writing = true;
        String lastRead = text;
        runner.run(
                () -> shelf.save(week, lastRead),
                saved -> {
                    writing = false;
                    text = saved.text();
                    saved.aside().ifPresent(name -> model.tell("week.saved_aside", false, name));
                    Optional<Week> newer = next;
                    next = Optional.empty();
                    newer.ifPresent(this::save);
                    rest();
                },
                trouble -> {
                    writing = false;
                    next = Optional.empty();
                    // What could not be written keeps the person here, to see why.
                    afterwards = Optional.empty();
                    model.tell("week.not_saved", true, String.valueOf(trouble.getMessage()));
                });
    }

    /**
     * Whether all that was changed is on disk.
     *
     * @param later run once it is, where it is not yet; not where it cannot be
     */
    boolean isSettled(Runnable later) {
        afterwards = writing ? Optional.of(later) : Optional.empty();
        return !writing;
    }

    private void rest() {
        if (!writing) {
            Optional<Runnable> its = afterwards;
            afterwards = Optional.empty();
            its.ifPresent(Runnable::run);
        }
    }
}
