package org.kilnside.desktop.now;

import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Theme;

/** How the cable stands and how far the book is; trouble begins with a sign and stands on another ground. */
public final class StatusPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private final State connection = new State();
    private final State book = new State();

    StatusPane() {
        super(new MigLayout("insets 0, fillx, gap 8", "[grow, fill, 0:pref:][]", ""));
        setOpaque(false);
        add(connection, "wmin 0");
        add(book, "wmin 0");
    }

    void show(NowModel.Status cable, NowModel.Status written) {
        connection.show(cable);
        book.show(written);
    }

    private static final class State extends Card {
        private static final long serialVersionUID = 1L;
        private final JLabel text = new JLabel();
        private boolean trouble;

        State() {
            super(new MigLayout("insets 3 10 3 10, fillx", "[grow, fill]", ""));
            ground("ground");
            add(text, "wmin 0");
        }

        void show(NowModel.Status status) {
            trouble = status.trouble();
            ground(trouble ? "lookGround" : "ground");
            text.setText(trouble ? "!  " + status.text() : status.text());
            text.setToolTipText(status.text());
            ink();
        }

        private void ink() {
            text.setForeground(Theme.colour(trouble ? "lookText" : "quiet"));
        }

        @Override
        public void updateUI() {
            super.updateUI();
            if (text != null) {
                ink();
            }
        }
    }
}
