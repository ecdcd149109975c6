package org.kilnside.desktop.now;

import java.awt.Dimension;
import java.awt.Font;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import org.kilnside.desktop.theme.Card;
import org.kilnside.desktop.theme.FittedText;
import org.kilnside.desktop.theme.Theme;
import org.kilnside.wording.NowSentence;

/** The sentence, and under it, smaller, what is to come. When something is wrong its ground changes and a sign stands before it. */
final class SentencePane extends Card {
    private static final long serialVersionUID = 1L;
    private transient NowSentence sentence = new NowSentence("", NowSentence.Tone.CALM);
    private transient String second = "";

    SentencePane() {
        super(null);
        ground("ground");
    }

    void show(NowSentence its, String itsSecond) {
        if (!its.equals(sentence) || !itsSecond.equals(second)) {
            if (itsSecond.isEmpty() != second.isEmpty()) {
                revalidate();
            }
            sentence = its;
            second = itsSecond;
            ground(ground(its.tone()));
            getAccessibleContext().setAccessibleName((its.text() + " " + itsSecond).strip());
            repaint();
        }
    }

    /** The ground a tone stands on. */
    static String ground(NowSentence.Tone tone) {
        return switch (tone) {
            case CALM -> "ground";
            case LOOK -> "lookGround";
            case BLIND -> "alarmGround";
        };
    }

    /** The colour of words of a tone. */
    static String ink(NowSentence.Tone tone) {
        return switch (tone) {
            case CALM -> "text";
            case LOOK -> "lookText";
            case BLIND -> "alarmText";
        };
    }

    /** A sentence that is not calm begins with a sign, so that its tone is not told by colour alone. */
    static String signed(NowSentence sentence) {
        return sentence.tone() == NowSentence.Tone.CALM ? sentence.text() : "!  " + sentence.text();
    }

    @Override
    public Dimension getPreferredSize() {
        return new Dimension(400, firstHeight() + secondHeight());
    }

    private int firstHeight() {
        return (int) (getFontMetrics(Theme.font(2)).getHeight() * 1.25 * Room.factor(this));
    }

    private int secondHeight() {
        return second.isEmpty() ? 0 : (int) (getFontMetrics(Theme.font(1.25)).getHeight() * 1.2 * Room.factor(this));
    }

    @Override
    public Dimension getMinimumSize() {
        return new Dimension(100, getPreferredSize().height);
    }

    @Override
    protected void paintComponent(Graphics graphics) {
        super.paintComponent(graphics);
        Graphics2D g = (Graphics2D) graphics.create();
        g.setPaint(Theme.colour(ink(sentence.tone())));
        double inset = sentence.tone() == NowSentence.Tone.CALM ? 4 : getHeight() * 0.25;
        FittedText.draw(
                g,
                signed(sentence),
                Theme.font(2).deriveFont(Font.BOLD),
                Theme.font(2 * Room.factor(this)).getSize2D(),
                new Rectangle2D.Double(inset, 2, getWidth() - 2 * inset, getHeight() - secondHeight() - 4));
        FittedText.draw(
                g,
                second,
                Theme.font(1.25),
                Theme.font(1.25 * Room.factor(this)).getSize2D(),
                new Rectangle2D.Double(inset, getHeight() - secondHeight(), getWidth() - 2 * inset, secondHeight()));
        g.dispose();
    }
}
