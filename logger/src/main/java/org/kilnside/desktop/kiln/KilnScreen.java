package org.kilnside.desktop.kiln;

import java.util.function.Supplier;
import javax.swing.JComponent;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.screen.Moment;
import org.kilnside.desktop.screen.Screen;
import org.kilnside.session.LineView;
import org.kilnside.wording.Words;

/** The kiln and its connection, as a screen of the window. */
public final class KilnScreen implements Screen {
    private final Supplier<LineView> lines;
    private final ConnectionView connection = new ConnectionView();
    private final JPanel view = new JPanel(new MigLayout("insets 8 16 8 16, fill", "[grow, fill]", "[grow, fill]"));

    /**
     * Builds the screen.
     *
     * @param lines the last lines off the wire; never waits
     */
    public KilnScreen(Supplier<LineView> lines) {
        this.lines = lines;
        view.setOpaque(false);
        view.add(connection, "grow, wmin 0, hmin 0");
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
    public JComponent firstFocus() {
        return connection.firstFocus();
    }

    @Override
    public void keys(KeyRow row) {
        row.add(view, "END", its -> its.text("key.newest"), connection::toNewest);
        KeyRow.bind(view, "ESCAPE", connection::toNewest);
    }

    @Override
    public void show(Moment moment) {
        connection.show(lines.get(), moment.snapshot(), moment.nowMs(), moment.words());
    }
}
