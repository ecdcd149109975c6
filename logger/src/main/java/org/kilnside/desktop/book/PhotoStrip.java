package org.kilnside.desktop.book;

import com.formdev.flatlaf.FlatClientProperties;
import java.awt.Component;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.image.BufferedImage;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javax.swing.BorderFactory;
import javax.swing.DefaultListModel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextField;
import javax.swing.ListCellRenderer;
import javax.swing.ListSelectionModel;
import javax.swing.ScrollPaneConstants;
import net.miginfocom.swing.MigLayout;
import org.kilnside.book.StoredPhoto;
import org.kilnside.desktop.screen.KeyRow;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.KeyHints;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.Words;

/** Photos of the load: thumbnails side by side, and a field for the file of another. */
final class PhotoStrip extends JPanel {
    private static final long serialVersionUID = 1L;

    private final DefaultListModel<StoredPhoto> photos = new DefaultListModel<>();
    private final JList<StoredPhoto> list = new JList<>(photos);
    private final JScrollPane scroll;
    private final KeyHints keys = new KeyHints("photo.keys", "ENTER", "DELETE");
    private final JTextField file = new JTextField();
    private final KeyButton choose = new KeyButton();
    private final transient Map<Long, BufferedImage> thumbnails = new HashMap<>();
    private final transient BiConsumer<StoredPhoto, Consumer<BufferedImage>> decode;
    private final transient Consumer<String> wish;

    /** What a person wishes with photos. */
    interface Wishes {
        void add(String file);

        void takeOut(StoredPhoto photo);

        void look(StoredPhoto photo);
    }

    /** @param decode makes a thumbnail's picture off the Swing thread and brings it back */
    PhotoStrip(Wishes wishes, BiConsumer<StoredPhoto, Consumer<BufferedImage>> decode) {
        super(new MigLayout("insets 0, fillx, wrap 1, gap 4, hidemode 3, novisualpadding", "[grow, fill]", ""));
        this.decode = decode;
        wish = wishes::add;
        setOpaque(false);
        list.setLayoutOrientation(JList.HORIZONTAL_WRAP);
        list.setVisibleRowCount(1);
        list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
        list.setCellRenderer(new Thumbnail());
        list.setOpaque(false);
        KeyRow.bindHere(list, "ENTER", () -> selected().ifPresent(wishes::look));
        KeyRow.bindHere(list, "DELETE", () -> selected().ifPresent(wishes::takeOut));
        list.addMouseListener(new MouseAdapter() {
            @Override
            public void mouseClicked(MouseEvent event) {
                if (event.getClickCount() == 2) {
                    selected().ifPresent(wishes::look);
                }
            }
        });
        scroll = new JScrollPane(
                list, ScrollPaneConstants.VERTICAL_SCROLLBAR_NEVER, ScrollPaneConstants.HORIZONTAL_SCROLLBAR_AS_NEEDED);
        scroll.setBorder(BorderFactory.createEmptyBorder());
        scroll.setOpaque(false);
        scroll.getViewport().setOpaque(false);
        KeyRow.bindHere(file, "ENTER", this::take);
        for (KeyButton button : List.of(choose)) {
            button.putClientProperty(FlatClientProperties.STYLE, "margin: 2,6,2,6");
        }
        choose.addActionListener(event -> choose());
        JPanel bottom = new JPanel(new MigLayout("insets 0, fillx, gap 6, novisualpadding", "[grow, fill][]", "[]"));
        bottom.setOpaque(false);
        bottom.add(file, "growx, wmin 60");
        bottom.add(choose);
        add(scroll, "growx, wmin 0");
        add(keys, "growx, wmin 0");
        add(bottom, "growx, wmin 0");
    }

    void show(List<StoredPhoto> its, Words words) {
        list.getAccessibleContext().setAccessibleName(words.text("photo.photos"));
        file.getAccessibleContext().setAccessibleName(words.text("photo.file"));
        file.putClientProperty(FlatClientProperties.PLACEHOLDER_TEXT, words.text("photo.file_hint"));
        choose.say(words.text("photo.choose"), "ctrl P", words);
        Optional<Long> before = selected().map(StoredPhoto::number);
        photos.clear();
        photos.addAll(its);
        for (int i = 0; i < its.size(); i++) {
            StoredPhoto photo = its.get(i);
            if (before.isPresent() && photo.number() == before.get()) {
                list.setSelectedIndex(i);
            }
            if (!thumbnails.containsKey(photo.number())) {
                decode.accept(photo, image -> {
                    thumbnails.put(photo.number(), image);
                    list.repaint();
                });
            }
        }
        scroll.setVisible(!its.isEmpty());
        keys.setVisible(!its.isEmpty());
        keys.show(words);
        int line = getFontMetrics(Theme.font(1)).getHeight();
        list.setFixedCellHeight(line * 5);
        list.setFixedCellWidth(line * 6);
        // A strip that gives way to the list above it would show slits.
        scroll.setMinimumSize(
                new Dimension(line, line * 5 + scroll.getHorizontalScrollBar().getPreferredSize().height));
        scroll.setPreferredSize(scroll.getMinimumSize());
        revalidate();
    }

    private Optional<StoredPhoto> selected() {
        return Optional.ofNullable(list.getSelectedValue());
    }

    private void take() {
        if (!file.getText().isBlank()) {
            wish.accept(file.getText());
            file.setText("");
        }
    }

    /** The system's own dialog, as a person knows it from everywhere else. */
    void choose() {
        java.awt.FileDialog dialog = new java.awt.FileDialog(
                (java.awt.Frame) javax.swing.SwingUtilities.getWindowAncestor(this),
                choose.getText(),
                java.awt.FileDialog.LOAD);
        dialog.setVisible(true);
        if (dialog.getFile() != null) {
            wish.accept(dialog.getDirectory() + dialog.getFile());
        }
    }

    private final class Thumbnail extends JPanel implements ListCellRenderer<StoredPhoto> {
        private static final long serialVersionUID = 1L;
        private transient BufferedImage image;
        private boolean stands;

        @Override
        public Component getListCellRendererComponent(
                JList<? extends StoredPhoto> its, StoredPhoto photo, int index, boolean selected, boolean focused) {
            image = thumbnails.get(photo.number());
            stands = selected;
            getAccessibleContext().setAccessibleName(photo.name());
            return this;
        }

        @Override
        public Dimension getPreferredSize() {
            return new Dimension(list.getFixedCellWidth(), list.getFixedCellHeight());
        }

        @Override
        protected void paintComponent(Graphics g) {
            int room = 4;
            int width = getWidth() - 2 * room;
            int height = getHeight() - 2 * room;
            if (image == null) {
                g.setColor(Theme.colour("key"));
                g.fillRect(room, room, width, height);
            } else {
                double share = Math.min((double) width / image.getWidth(), (double) height / image.getHeight());
                int w = (int) (image.getWidth() * share);
                int h = (int) (image.getHeight() * share);
                g.drawImage(image, room + (width - w) / 2, room + (height - h) / 2, w, h, null);
            }
            if (stands) {
                g.setColor(Theme.colour("ember"));
                g.drawRect(1, 1, getWidth() - 3, getHeight() - 3);
                g.drawRect(2, 2, getWidth() - 5, getHeight() - 5);
            }
        }
    }
}
