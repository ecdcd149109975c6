package org.kilnside.desktop.now;

import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Fold;
import org.kilnside.desktop.theme.Theme;

/** How the cable stands and how far the book is; trouble begins with a sign and stands on another ground. */
public final class StatusPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private final transient Fold fold;
    private final State connection = new State();
    private final State book = new State();

    StatusPane() {
        MigLayout layout = new MigLayout("insets 0, fillx, gap 8 2", "", "");
        setLayout(layout);
        setOpaque(false);
        add(connection);
        add(book);
        fold = new Fold(this, this::beside, narrow -> {
            layout.setColumnConstraints(narrow ? "[grow, fill]" : "[grow, fill, 0:pref:][]");
            layout.setComponentConstraints(connection, "cell 0 0, wmin 0");
            layout.setComponentConstraints(book, narrow ? "cell 0 1, wmin 0" : "cell 1 0, wmin 0");
        });
    }

    private int beside() {
        return connection.getPreferredSize().width + book.getPreferredSize().width + 8;
    }

    @Override
    public void doLayout() {
        fold.settle();
        super.doLayout();
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
