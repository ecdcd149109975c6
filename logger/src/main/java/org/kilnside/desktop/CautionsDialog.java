package org.kilnside.desktop;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Dimension;
import java.awt.FlowLayout;
import java.awt.Point;
import java.awt.Window;
import java.awt.event.KeyEvent;
import java.awt.event.WindowAdapter;
import java.awt.event.WindowEvent;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JDialog;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.KeyStroke;
import javax.swing.SwingUtilities;
import javax.swing.text.DefaultCaret;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Column;
import org.kilnside.wording.Cautions;
import org.kilnside.wording.Words;

/** The cautions, whole: one key from everywhere. */
final class CautionsDialog extends JDialog {
    private static final long serialVersionUID = 1L;

    CautionsDialog(Window owner, Words words) {
        super(owner, words.text("cautions.title"), ModalityType.MODELESS);
        Cautions cautions = Cautions.of(words);
        Column page = new Column(new MigLayout("insets 20 24 16 24, wrap 2, gap 20 12", "[pref!][grow, fill]", ""));
        page.add(
                text(cautions.introduction(), "font: 115%; foreground: $Kilnside.text"),
                "span 2, growx, wmin 0, gapbottom 12");
        for (Cautions.Caution caution : cautions.cautions()) {
            JLabel heading = new JLabel(caution.heading());
            heading.putClientProperty(FlatClientProperties.STYLE, "font: bold; foreground: $Kilnside.ember");
            page.add(heading, "aligny top");
            page.add(text(caution.text(), "foreground: $Kilnside.text"), "growx, wmin 0");
        }
        JScrollPane scroll = page.scrolledWords();
        JButton close = new JButton(words.text("window.close"));
        close.addActionListener(event -> dispose());
        JPanel whole =
                new JPanel(new MigLayout("insets 0 0 12 0, fill, wrap 1", "[grow, fill]", "[grow, fill][pref!]"));
        whole.add(scroll, "grow, hmin 0");
        JPanel last = new JPanel(new FlowLayout(FlowLayout.TRAILING, 24, 4));
        last.add(close);
        whole.add(last, "growx");
        setContentPane(whole);
        getRootPane().setDefaultButton(close);
        getRootPane()
                .registerKeyboardAction(
                        event -> dispose(),
                        KeyStroke.getKeyStroke(KeyEvent.VK_ESCAPE, 0),
                        JComponent.WHEN_IN_FOCUSED_WINDOW);
        getRootPane()
                .registerKeyboardAction(
                        event -> dispose(),
                        KeyStroke.getKeyStroke(KeyEvent.VK_F1, 0),
                        JComponent.WHEN_IN_FOCUSED_WINDOW);
        setDefaultCloseOperation(DISPOSE_ON_CLOSE);
        Dimension room = owner.getSize();
        int line = whole.getFontMetrics(whole.getFont()).getHeight();
        setSize(Math.min(room.width - 40, line * 50), Math.min(room.height - 40, line * 42));
        setLocationRelativeTo(owner);
        // Words that wrap move the view while they find their height; the first caution is to be seen first.
        addWindowListener(new WindowAdapter() {
            @Override
            public void windowOpened(WindowEvent event) {
                SwingUtilities.invokeLater(() -> scroll.getViewport().setViewPosition(new Point(0, 0)));
            }
        });
    }

    private static JTextArea text(String words, String style) {
        JTextArea area = new JTextArea(words);
        area.setEditable(false);
        area.setLineWrap(true);
        area.setWrapStyleWord(true);
        area.setOpaque(false);
        area.setBorder(null);
        area.setFocusable(false);
        // Else the last text written pulls the page down to itself.
        ((DefaultCaret) area.getCaret()).setUpdatePolicy(DefaultCaret.NEVER_UPDATE);
        area.putClientProperty(FlatClientProperties.STYLE, style);
        return area;
    }
}
