package org.kilnside.desktop.book;

import java.awt.Dimension;
import java.awt.Image;
import java.awt.image.BufferedImage;
import java.util.List;
import java.util.Optional;
import javax.swing.DefaultListCellRenderer;
import javax.swing.ImageIcon;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JOptionPane;
import javax.swing.JScrollPane;
import javax.swing.ListSelectionModel;
import org.kilnside.book.KnownBatch;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.wording.Words;

/** The dialogs over the Book screen, and what a deed tells it. */
final class BookWindows implements RecordDesk.Windows {
    private static final int ROWS = 10;

    private final BookScreen screen;
    private final JComponent over;

    BookWindows(BookScreen screen, JComponent over) {
        this.screen = screen;
        this.over = over;
    }

    @Override
    public Words words() {
        return screen.words();
    }

    @Override
    public Optional<KnownBatch> choose(List<KnownBatch> batches) {
        Words words = words();
        JList<String> list = new JList<>(batches.stream()
                .map(batch -> words.text(
                        "load.known",
                        LoadWords.of(batch.newest(), List.of(), words).title(),
                        String.join(
                                ", ",
                                batch.firings().stream().map(String::valueOf).toList())))
                .toArray(String[]::new));
        DefaultListCellRenderer plain = new DefaultListCellRenderer();
        plain.putClientProperty("html.disable", true);
        list.setCellRenderer(plain);
        list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        list.setSelectedIndex(0);
        list.setVisibleRowCount(Math.min(ROWS, batches.size()));
        list.getAccessibleContext().setAccessibleName(words.text("load.again"));
        // The dialog opens with the keyboard in the list, where the arrows are wanted.
        list.addAncestorListener(new FocusWhenShown());
        Object[] answers = {words.text("load.put_in"), words.text("window.not_now")};
        int answer = JOptionPane.showOptionDialog(
                over,
                new JScrollPane(list),
                words.text("load.again"),
                JOptionPane.DEFAULT_OPTION,
                JOptionPane.PLAIN_MESSAGE,
                null,
                answers,
                answers[0]);
        return answer == 0 && list.getSelectedIndex() >= 0
                ? Optional.of(batches.get(list.getSelectedIndex()))
                : Optional.empty();
    }

    /** Whether the person leaves although the last change could not be saved. */
    boolean leavesUnsaved(Exception failure) {
        Words words = words();
        Object[] answers = {words.text("record.stay"), words.text("record.leave_unsaved")};
        return JOptionPane.showOptionDialog(
                        over,
                        words.text("record.not_saved", BookTrouble.sentence(failure, words)),
                        "Kilnside",
                        JOptionPane.DEFAULT_OPTION,
                        JOptionPane.WARNING_MESSAGE,
                        null,
                        answers,
                        answers[0])
                == 1;
    }

    @Override
    public void edit(LoadedBatch batch) {
        screen.opened().load().edit(batch);
    }

    @Override
    public void look(String name, BufferedImage picture) {
        Dimension room = over.getSize();
        double share = Math.min(
                1, Math.min((room.width - 120.0) / picture.getWidth(), (room.height - 160.0) / picture.getHeight()));
        Image fitted = picture.getScaledInstance(
                (int) Math.max(1, picture.getWidth() * share),
                (int) Math.max(1, picture.getHeight() * share),
                Image.SCALE_SMOOTH);
        JLabel label = new JLabel(new ImageIcon(fitted));
        label.getAccessibleContext().setAccessibleName(name);
        JOptionPane.showMessageDialog(over, label, name, JOptionPane.PLAIN_MESSAGE);
    }

    @Override
    public void say(String sentence) {
        screen.say(sentence);
    }

    @Override
    public void failed(Exception failure) {
        screen.failed(failure);
    }

    @Override
    public void notesOvertaken() {
        screen.opened().notes().overtaken();
    }

    @Override
    public void notesRefused(Optional<String> before) {
        screen.opened().notes().refused(before);
    }
}
