package org.kilnside.desktop.night;

import java.util.List;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextArea;
import net.miginfocom.swing.MigLayout;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.Fold;
import org.kilnside.desktop.theme.KeyButton;
import org.kilnside.desktop.theme.Labels;
import org.kilnside.wording.Words;

/** Whether an alarm would be heard tonight, computer by computer; trouble begins with a sign. */
final class WatchPane extends Card {
    private static final long serialVersionUID = 1L;
    private final JLabel head = Labels.head("");
    private final KeyButton test = new KeyButton();
    private final KeyButton everywhere = new KeyButton();
    private final JTextArea result = Labels.wrapping("", "foreground: $Kilnside.text");
    private final JPanel posts = new JPanel(new MigLayout("insets 0, fillx, wrap 1, gap 2", "[grow, fill]", ""));
    private final JTextArea truths = Labels.wrapping("", "foreground: $Kilnside.quiet");
    private final transient Fold fold;
    private transient List<NightModel.PostLines> shown = List.of();
    private transient String language = "";

    /**
     * @param tryIt tries this computer's alarm; must return at once
     * @param ringAll rings everywhere; must return at once
     */
    WatchPane(Runnable tryIt, Runnable ringAll) {
        super(new MigLayout("insets 10 14 12 14, fillx, wrap 1, gap 6", "[grow, fill]", ""));
        test.addActionListener(event -> tryIt.run());
        everywhere.addActionListener(event -> ringAll.run());
        posts.setOpaque(false);
        add(head);
        MigLayout layout = new MigLayout();
        JPanel tests = new JPanel(layout);
        tests.setOpaque(false);
        tests.add(test);
        tests.add(everywhere);
        add(tests, "growx, wmin 0");
        add(result, "growx, wmin 0, hidemode 3");
        add(posts, "growx, wmin 0");
        add(truths, "growx, wmin 0, gaptop 6");
        fold = new Fold(
                this,
                () -> test.getPreferredSize().width + everywhere.getPreferredSize().width + 40,
                narrow ->
                        layout.setLayoutConstraints("insets 0, gap 8 4, novisualpadding" + (narrow ? ", wrap 1" : "")));
        result.setVisible(false);
    }

    @Override
    public void doLayout() {
        fold.settle();
        super.doLayout();
    }

    void show(NightModel model, boolean canTest, boolean canRing, Words words) {
        head.setText(words.text("night.watch"));
        test.say(words.text("night.test"), "ctrl T", words);
        test.setEnabled(canTest && !testing);
        everywhere.say(words.text("night.everywhere"), "ctrl E", words);
        everywhere.setEnabled(canTest && canRing);
        if (model.posts().equals(shown) && language.equals(words.language().name())) {
            return;
        }
        shown = model.posts();
        language = words.language().name();
        truths.setText(words.text("night.truths"));
        posts.removeAll();
        if (shown.isEmpty()) {
            posts.add(line(words.text("night.no_post"), "foreground: $Kilnside.text"), "growx, wmin 0");
        }
        for (NightModel.PostLines post : shown) {
            JLabel name = Labels.head(post.name());
            posts.add(name, "gaptop 6");
            for (String text : post.lines()) {
                boolean trouble = post.troubles().contains(text);
                posts.add(
                        line(
                                trouble ? "!  " + text : text,
                                trouble ? "foreground: $Kilnside.lookText" : "foreground: $Kilnside.text"),
                        "growx, wmin 0");
            }
        }
        posts.revalidate();
        posts.repaint();
    }

    private boolean testing;

    /** The test runs, or is over with these words. */
    void tested(boolean running, String said) {
        testing = running;
        test.setEnabled(!running);
        result.setText(said);
        result.setVisible(!said.isEmpty());
        revalidate();
    }

    boolean isTestable() {
        return test.isEnabled();
    }

    boolean isTestableEverywhere() {
        return everywhere.isEnabled();
    }

    private static JTextArea line(String text, String style) {
        return Labels.wrapping(text, style);
    }
}
