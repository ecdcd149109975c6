package org.kilnside.desktop.book;

import java.util.List;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Column;
import org.kilnside.desktop.theme.Labels;

/** Why the firing came out as it did, in the review's own words. */
final class ReviewPane extends JPanel {
    private static final long serialVersionUID = 1L;
    private final Column rows = new Column(new MigLayout("insets 0 0 0 8, wrap 1, gap 5", "[grow, fill]", ""));
    private transient List<String> shown = List.of();

    ReviewPane() {
        super(new MigLayout("insets 0, fill", "[grow, fill]", "[grow, fill]"));
        setOpaque(false);
        add(rows.scrolledWords(), "wmin 0, hmin 0");
    }

    /** Shows lines as the review's wording gives them: headings end in a colon, what stands under them is indented. */
    void show(List<String> lines) {
        if (lines.equals(shown)) {
            return;
        }
        shown = lines;
        rows.removeAll();
        for (int i = 0; i < lines.size(); i++) {
            String line = lines.get(i);
            int indent = line.length() - line.stripLeading().length();
            boolean heading = indent == 0 && line.endsWith(":");
            String style = heading
                    ? "font: bold; foreground: $Kilnside.quiet"
                    : i == 0 ? "font: 120%; foreground: $Kilnside.text" : "foreground: $Kilnside.text";
            JTextArea text = Labels.wrapping(line.strip(), style);
            rows.add(text, "growx, wmin 0, gapleft " + indent * 6 + (heading ? ", gaptop 8" : ""));
        }
        getAccessibleContext().setAccessibleName(String.join(" ", lines));
        rows.revalidate();
        rows.repaint();
    }
}
