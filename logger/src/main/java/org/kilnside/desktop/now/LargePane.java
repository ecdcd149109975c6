package org.kilnside.desktop.now;

import java.awt.Font;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.Optional;
import javax.swing.JPanel;
import org.kilnside.desktop.theme.FittedText;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.NowSentence;

/** The sentence, the number and its age, and nothing else: to be read from three metres. An alarm stands in the sentence's place. */
final class LargePane extends JPanel {
    private static final long serialVersionUID = 1L;
    private transient NowModel model;

    void show(NowModel its) {
        model = its;
        getAccessibleContext().setAccessibleName(its.spoken());
        repaint();
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        if (model == null) {
            return;
        }
        Graphics2D g = (Graphics2D) graphics.create();
        Optional<AlarmStripModel> alarm = model.alarms().filter(its -> its.tone() != NowSentence.Tone.CALM);
        NowSentence.Tone tone =
                alarm.map(AlarmStripModel::tone).orElse(model.sentence().tone());
        g.setPaint(Theme.colour(SentencePane.ground(tone)));
        g.fillRect(0, 0, getWidth(), getHeight());
        g.setPaint(Theme.colour(SentencePane.ink(tone)));
        double inset = getHeight() * 0.05;
        double width = getWidth() - 2 * inset;
        Font bold = Theme.font(1).deriveFont(Font.BOLD);
        Rectangle2D top = new Rectangle2D.Double(inset, inset, width, getHeight() * 0.3);
        Rectangle2D middle = new Rectangle2D.Double(inset, getHeight() * 0.37, width, getHeight() * 0.45);
        Rectangle2D bottom = new Rectangle2D.Double(inset, getHeight() * 0.85, width, getHeight() * 0.11);
        String said = alarm.map(its -> "!  " + its.title()).orElse(SentencePane.signed(model.sentence()));
        FittedText.draw(g, said, bold, getHeight() * 0.13, top);
        if (model.number().live()) {
            NumberPane.degrees(g, model.number(), middle, middle.getHeight());
        } else {
            FittedText.draw(g, model.number().text(), bold, getHeight() * 0.24, middle);
        }
        FittedText.draw(g, model.number().under(), Theme.font(1), getHeight() * 0.075, bottom);
        g.dispose();
    }
}
