package org.kilnside.desktop.kiln;

import java.awt.CardLayout;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import javax.swing.JComponent;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.Errands;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.desktop.theme.TabButton;
import org.kilnside.session.LineView;
import org.kilnside.wording.Words;

/** The kiln and its connection, as a screen of the window. */
public final class KilnScreen implements Screen {
    private final Supplier<LineView> lines;
    private final Recordings recordings;
    private final ConnectionView connection = new ConnectionView();
    private final GuideView guide;
    private final KilnForm form;
    private final KilnView kiln;
    private final SensorsView sensors;
    private final JPanel view =
            new JPanel(new MigLayout("insets 4 16 8 16, fill, wrap 1, gap 6", "[grow, fill]", "[][grow, fill]"));
    private final CardLayout cards = new CardLayout();
    private final JPanel stage = new JPanel(cards);
    private final Map<Part, TabButton> tabs = new EnumMap<>(Part.class);
    private Part front;
    private Optional<Words> words = Optional.empty();
    private Optional<KeyRow> row = Optional.empty();
    private Runnable toNow = () -> {};

    /** The parts of the screen, one in front. */
    private enum Part {
        CONNECTION("ctrl L", "kiln.part.connection"),
        KILN("ctrl K", "kiln.part.kiln"),
        SENSORS("ctrl T", "kiln.part.sensors"),
        FIRST_STEPS("ctrl G", "kiln.part.first_steps");

        private final String key;
        private final String title;

        Part(String key, String title) {
            this.key = key;
            this.title = title;
        }
    }

    /**
     * Builds the screen.
     *
     * @param lines the last lines off the wire; never waits
     * @param errands where what may wait is sent
     */
    public KilnScreen(
            Supplier<LineView> lines,
            Recordings recordings,
            Wire wire,
            KilnShelf shelf,
            SensorShelf sensorShelf,
            Errands errands) {
        this.lines = lines;
        this.recordings = recordings;
        guide = new GuideView(new GuideModel(recordings, wire, errands::run, this::begun));
        form = new KilnForm(shelf, errands::run);
        kiln = new KilnView(form);
        sensors = new SensorsView(new SensorsModel(sensorShelf, errands::run));
        front = wantsToBeFirst() ? Part.FIRST_STEPS : Part.CONNECTION;
        view.setOpaque(false);
        stage.setOpaque(false);
        JPanel parts = new JPanel(new MigLayout("insets 0, gap 4, novisualpadding", "", ""));
        parts.setOpaque(false);
        for (Part part : Part.values()) {
            TabButton tab = new TabButton();
            tab.addActionListener(event -> open(part));
            tabs.put(part, tab);
            parts.add(tab);
            KeyRow.bind(view, part.key, () -> open(part));
        }
        view.add(parts, "growx, wmin 0");
        view.add(stage, "grow, wmin 0, hmin 0");
        stage.add(connection, Part.CONNECTION.name());
        stage.add(kiln, Part.KILN.name());
        stage.add(sensors, Part.SENSORS.name());
        stage.add(guide, Part.FIRST_STEPS.name());
        cards.show(stage, front.name());
    }

    private void open(Part part) {
        if (front != part) {
            front = part;
            if (part == Part.SENSORS) {
                sensors.open(form.chosen());
            }
            cards.show(stage, part.name());
            tabs.forEach((its, tab) -> tab.front(its == part));
            words.ifPresent(its -> row.ifPresent(keys -> keys.show(its)));
            firstFocus().requestFocusInWindow();
        }
    }

    /** Told in the row only where it does something. */
    private Function<Words, String> said(String key, Part... where) {
        return words -> List.of(where).contains(front) ? words.text(key) : "";
    }

    private void undo() {
        if (front == Part.SENSORS) {
            sensors.undo();
        } else {
            kiln.undo();
        }
    }

    private void begun() {
        open(Part.CONNECTION);
        toNow.run();
    }

    @Override
    public String title(Words words) {
        return words.text("screen.kiln");
    }

    @Override
    public JComponent view() {
        return view;
    }

    @Override
    public void knows(Runnable itsToNow) {
        toNow = itsToNow;
    }

    @Override
    public boolean wantsToBeFirst() {
        return recordings.role() == Recordings.Role.NOBODY;
    }

    /** A port that is only being looked at is not held open behind the person's back. */
    @Override
    public boolean mayLeave(Runnable later) {
        guide.back();
        return kiln.isSettled(later) && seenToSensors(later);
    }

    private boolean seenToSensors(Runnable later) {
        if (sensors.isHalfWritten()) {
            open(Part.SENSORS);
        }
        return sensors.mayLeave(later);
    }

    @Override
    public JComponent firstFocus() {
        return switch (front) {
            case CONNECTION -> connection.firstFocus();
            case KILN -> kiln.firstFocus();
            case SENSORS -> sensors.firstFocus();
            case FIRST_STEPS -> guide.firstFocus();
        };
    }

    @Override
    public void keys(KeyRow its) {
        row = Optional.of(its);
        its.add(view, "END", said("key.newest", Part.CONNECTION), connection::toNewest);
        its.add(view, "ctrl Z", said("key.undo_kiln", Part.KILN, Part.SENSORS), this::undo);
        KeyRow.bind(connection, "ESCAPE", connection::toNewest);
    }

    @Override
    public void show(Moment moment) {
        words = Optional.of(moment.words());
        tabs.forEach((part, tab) -> {
            tab.say(moment.words().text(part.title), part.key, moment.words());
            tab.front(part == front);
        });
        connection.show(lines.get(), moment.snapshot(), moment.nowMs(), moment.words());
        guide.show(moment.nowMs(), moment.words());
        kiln.show(moment);
        sensors.show(moment, form.chosen());
    }
}
