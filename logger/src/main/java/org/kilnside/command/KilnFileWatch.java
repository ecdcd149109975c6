package org.kilnside.command;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.KilnSetting;
import org.kilnside.firing.Kiln;
import org.kilnside.session.FiringSettings;
import org.kilnside.wording.Words;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Looks every ten seconds whether the file of the kiln that is being recorded says something else, whoever wrote it: the
 * Kiln screen, {@code kiln set} or an editor. What the firing goes by from then on, and a note of it, it passes on. Reads on
 * a thread of its own and is waited for by nobody.
 */
final class KilnFileWatch implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(KilnFileWatch.class);
    private static final long EVERY_MS = 10_000;

    /** What a firing that is going on goes by; the kind of cone is its own, and said apart. */
    static final Set<KilnSetting> FOLLOWED = EnumSet.of(
            KilnSetting.CRACK,
            KilnSetting.UNLOAD,
            KilnSetting.FROM_MAKER,
            KilnSetting.TOP,
            KilnSetting.RATE,
            KilnSetting.ISOLATOR,
            KilnSetting.POWER,
            KilnSetting.WALL);

    private final FiredIn fired;
    private final Consumer<FiringSettings> follow;
    private final Consumer<String> note;
    private final Words words;
    private final Thread thread = new Thread(this::work, "kiln file");
    private Optional<Kiln> known;
    private Optional<String> refused = Optional.empty();

    /**
     * @param known the kiln as the recording began with it
     * @param follow takes the settings when they have become others
     * @param note takes what changed, in a sentence
     */
    KilnFileWatch(
            FiredIn fired, Optional<Kiln> known, Consumer<FiringSettings> follow, Consumer<String> note, Words words) {
        this.fired = fired;
        this.known = known;
        this.follow = follow;
        this.note = note;
        this.words = words;
        thread.setDaemon(true);
    }

    void start() {
        thread.start();
    }

    private void work() {
        try {
            while (true) {
                Thread.sleep(EVERY_MS);
                look();
            }
        } catch (InterruptedException e) {
            LOG.debug("the kiln's file is looked at no more");
        }
    }

    /** Looks once. A file that cannot be read, or is gone, changes nothing; the first is said, once. */
    void look() {
        try {
            Optional<Kiln> now = fired.file().get();
            refused = Optional.empty();
            if (now.isEmpty() || now.equals(known)) {
                return;
            }
            Kiln before = known.orElseGet(() -> Kiln.named(now.get().name()));
            known = now;
            follow.accept(fired.settings(now));
            List<String> changes = changes(before, now.get());
            if (!changes.isEmpty()) {
                note.accept(words.text("kilns.set_while_firing", String.join("; ", changes)));
            }
        } catch (FileRefusedException e) {
            if (!refused.equals(Optional.of(e.getMessage()))) {
                refused = Optional.of(e.getMessage());
                note.accept(words.text("kilns.refused_while_firing", e.getMessage()));
            }
        } catch (RuntimeException e) {
            LOG.warn("the kiln's file could not be looked at; the firing goes on with what was known", e);
        }
    }

    private List<String> changes(Kiln before, Kiln now) {
        List<String> changes = new ArrayList<>();
        for (KilnSetting setting : FOLLOWED) {
            if (!setting.of(before).equals(setting.of(now))) {
                changes.add(words.text(
                        "kilns.changed",
                        words.named("kilns.setting", setting),
                        setting.of(before).orElse(words.text("kilns.not_said")),
                        setting.of(now).orElse(words.text("kilns.not_said"))));
            }
        }
        if (!before.alarms().equals(now.alarms())) {
            changes.add(words.text("kilns.alarm_limits_changed"));
        }
        if (before.series() != now.series()) {
            changes.add(words.text("kilns.series_from_next", words.named("noted.series", now.series())));
        }
        return changes;
    }

    @Override
    public void close() {
        thread.interrupt();
    }
}
