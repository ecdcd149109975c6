package org.kilnside.desktop.book;

import java.awt.CardLayout;
import java.awt.Component;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.List;
import java.util.Optional;
import javax.swing.DefaultListModel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.ListCellRenderer;
import javax.swing.ListSelectionModel;
import net.miginfocom.swing.MigLayout;
import org.kilnside.book.KnownBatch;
import org.kilnside.book.WrittenRecord;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Fold;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.desktop.theme.WrappingList;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.wording.Words;

/** What was in the kiln: its batches as a list, one of them as a form, and photos below. */
final class LoadPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private static final String LIST = "list";
    private static final String FORM = "form";

    private final DefaultListModel<LoadedBatch> batches = new DefaultListModel<>();
    private final WrappingList<LoadedBatch> list = new WrappingList<>(batches);
    private final JTextArea text = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final KeyButton addKey = new KeyButton();
    private final KeyButton againKey = new KeyButton();
    private final KeyButton edit = new KeyButton();
    private final KeyButton takeOut = new KeyButton();
    private final PhotoStrip photos;
    private final LoadForm form;
    private final transient Wishes wishes;
    private final transient Fold fold;
    private final CardLayout cards = new CardLayout();
    private transient Words words;
    private transient List<KnownBatch> known = List.of();
    private long firing;
    private boolean isForm;

    /** What a person wishes with the load. */
    interface Wishes {
        /** A new batch. */
        void add();

        /** A batch of an earlier firing. */
        void addAgain();

        void change(LoadedBatch before, LoadedBatch after);

        void takeOut(LoadedBatch batch);
    }

    LoadPane(Words words, Wishes wishes, PhotoStrip photos) {
        this.words = words;
        this.photos = photos;
        this.wishes = wishes;
        setLayout(cards);
        setOpaque(false);
        form = new LoadForm(wishes, this::closeForm);
        list.setCellRenderer(new Row());
        list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        list.addMouseListener(new MouseAdapter() {
            @Override
            public void mouseClicked(MouseEvent event) {
                if (event.getClickCount() == 2) {
                    edit();
                }
            }
        });
        JScrollPane scroll = list.scrolled();
        MigLayout page = new MigLayout(
                "insets 0, fill, wrap 1, gap 6, hidemode 3, novisualpadding", "[grow, fill]", "[][grow, fill][][]");
        Column whole = new Column(page);
        MigLayout pairs = new MigLayout();
        JPanel keys = new JPanel(pairs);
        keys.setOpaque(false);
        for (KeyButton button : List.of(addKey, againKey, edit, takeOut)) {
            button.putClientProperty(com.formdev.flatlaf.FlatClientProperties.STYLE, "margin: 2,6,2,6");
            keys.add(button, "wmin 0");
        }
        addKey.addActionListener(event -> wishes.add());
        againKey.addActionListener(event -> wishes.addAgain());
        edit.addActionListener(event -> edit());
        takeOut.addActionListener(event -> selected().ifPresent(wishes::takeOut));
        KeyRow.bindHere(list, "ENTER", this::edit);
        KeyRow.bindHere(list, "DELETE", () -> selected().ifPresent(wishes::takeOut));
        whole.add(text, "cell 0 0, growx, wmin 0");
        whole.add(scroll);
        whole.add(keys, "cell 0 2, growx, wmin 0");
        whole.add(photos, "cell 0 3, growx, wmin 0");
        fold = new Fold(this, this::beside, narrow -> {
            pairs.setLayoutConstraints("insets 0, fillx, gap 4, novisualpadding, wrap " + (narrow ? 1 : 2));
            pairs.setColumnConstraints(narrow ? "[grow, fill]" : "[grow, fill, sg][grow, fill, sg]");
            // Where all stands below each other the page scrolls, and some of the batches stay in sight.
            int height = narrow ? 5 * getFontMetrics(Theme.font(1)).getHeight() : 40;
            page.setComponentConstraints(scroll, "cell 0 1, grow, wmin 0, h " + height + ":" + height);
            whole.revalidate();
        });
        add(whole.scrolled(), LIST);
        add(form, FORM);
    }

    /** The width that two of the keys need beside each other. */
    private int beside() {
        int widest = 0;
        for (KeyButton button : List.of(addKey, againKey, edit, takeOut)) {
            widest = Math.max(widest, button.getPreferredSize().width);
        }
        return 2 * widest + 8;
    }

    @Override
    public void doLayout() {
        fold.settle();
        super.doLayout();
    }

    void show(long number, WrittenRecord record, List<KnownBatch> all, Words language) {
        Optional<Long> before = selected().map(LoadedBatch::number);
        boolean other = number != firing;
        firing = number;
        words = language;
        known = all;
        text.setText(record.loadText().orElse(record.load().isEmpty() ? words.text("load.none") : ""));
        text.setVisible(!text.getText().isEmpty());
        list.getAccessibleContext().setAccessibleName(words.text("record.section.load"));
        batches.clear();
        batches.addAll(record.load());
        int at = 0;
        for (int i = 0; i < batches.size(); i++) {
            at = before.isPresent() && batches.get(i).number() == before.get() ? i : at;
        }
        if (!batches.isEmpty()) {
            list.setSelectedIndex(at);
        }
        addKey.say(words.text("load.add"), "ctrl N", words);
        againKey.say(words.text("load.again"), "ctrl B", words);
        edit.say(words.text("load.edit"), "ctrl E", words);
        takeOut.say(words.text("load.take_out"), "DELETE", words);
        edit.setEnabled(!batches.isEmpty());
        takeOut.setEnabled(!batches.isEmpty());
        photos.show(record.photos(), words);
        if (isForm && other) {
            closeForm();
        }
        if (isForm) {
            // Somebody else may have changed the batch, or undone its being there.
            Optional<LoadedBatch> now = record.load().stream()
                    .filter(batch -> batch.number() == form.number())
                    .findFirst();
            now.ifPresentOrElse(batch -> form.show(batch, words), this::closeForm);
        }
    }

    private Optional<LoadedBatch> selected() {
        return Optional.ofNullable(list.getSelectedValue());
    }

    void add() {
        wishes.add();
    }

    void addAgain() {
        wishes.addAgain();
    }

    void choosePhoto() {
        photos.choose();
    }

    /** Opens the batch one stands on in the form. */
    void edit() {
        selected().ifPresent(this::edit);
    }

    void edit(LoadedBatch batch) {
        for (int i = 0; i < batches.size(); i++) {
            if (batches.get(i).number() == batch.number()) {
                list.setSelectedIndex(i);
            }
        }
        isForm = true;
        form.show(batch, words);
        cards.show(this, FORM);
        form.begin();
    }

    /** Puts the form away, saving what stands in it. */
    void closeForm() {
        if (isForm) {
            form.save();
            isForm = false;
            cards.show(this, LIST);
            list.requestFocusInWindow();
        }
    }

    boolean isFormOpen() {
        return isForm;
    }

    LoadForm form() {
        return form;
    }

    JList<LoadedBatch> batches() {
        return list;
    }

    private List<Long> otherFirings(LoadedBatch batch) {
        return known.stream()
                .filter(its -> its.newest().batch() == batch.batch())
                .flatMap(its -> its.firings().stream())
                .filter(number -> number != firing)
                .toList();
    }

    private final class Row implements ListCellRenderer<LoadedBatch> {
        private final JPanel row = new JPanel(new MigLayout("insets 5 8 5 8, fillx, wrap 1, gap 1", "[grow, fill]"));
        private final JTextArea title = Labels.wrapping("", "font: bold; foreground: $Kilnside.text");
        private final JTextArea rest = Labels.wrapping("", "foreground: $Kilnside.quiet");

        Row() {
            row.add(title, "growx, wmin 0");
            row.add(rest, "growx, wmin 0");
        }

        @Override
        public Component getListCellRendererComponent(
                JList<? extends LoadedBatch> its, LoadedBatch batch, int index, boolean selected, boolean focused) {
            LoadWords said = LoadWords.of(batch, otherFirings(batch), words);
            int width = Math.max(40, its.getParent().getWidth() - 16);
            title.setFont(Theme.font(1).deriveFont(java.awt.Font.BOLD));
            rest.setFont(Theme.font(1));
            title.setForeground(Theme.colour(selected && its.isFocusOwner() ? "ember" : "text"));
            rest.setForeground(Theme.colour("quiet"));
            title.setText((selected ? "▸ " : "") + said.title());
            rest.setText(String.join("\n", said.lines()));
            title.setSize(width, Short.MAX_VALUE);
            rest.setSize(width, Short.MAX_VALUE);
            row.setBackground(Theme.colour(selected ? "key" : "card"));
            row.getAccessibleContext().setAccessibleName(said.title() + ". " + String.join(". ", said.lines()));
            return row;
        }
    }
}
