package org.kilnside.desktop.kiln;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.kilnside.session.LineView;
import org.kilnside.session.LineView.Verdict;
import org.kilnside.wording.SampleSnapshots;

/** What may come over a wire, with what became of it. */
public final class SampleLines {
    private final List<LineView.Line> lines = new ArrayList<>();
    private final Map<Verdict, Long> counts = new EnumMap<>(Verdict.class);
    private long number;

    /** A good wire: one line each second, the controller's hello among them. */
    public static LineView good() {
        SampleLines sample = new SampleLines();
        sample.add(Verdict.HALF, "4 t1=1610 j1=338 ~9E01", 90);
        for (int second = 89; second >= 0; second--) {
            if (second % 60 == 20) {
                sample.add(Verdict.HELLO, "H 5401 5401000 v=1 n=1 i=1000 c1=MAX31855/K d=TallDrum ~5B1C", second);
            }
            sample.add(Verdict.READING, reading(second), second);
        }
        sample.counts.put(Verdict.READING, 22_412L);
        return sample.view();
    }

    /** The same on a cable that lies along the element wires. */
    public static LineView disturbed() {
        SampleLines sample = new SampleLines();
        for (int second = 89; second >= 0; second--) {
            switch (second % 18) {
                case 2, 11 -> sample.add(Verdict.CHECKSUM_WRONG, reading(second).replace("t1=1", "t1=7"), second);
                case 5 -> sample.add(Verdict.STRANGE_BYTE, reading(second).replace("j1=", "j\\xF81="), second);
                default -> sample.add(Verdict.READING, reading(second), second);
            }
        }
        sample.counts.put(Verdict.READING, 4_120L);
        sample.counts.put(Verdict.READING_WITH_UNKNOWN_FIELDS, 12L);
        sample.counts.put(Verdict.CHECKSUM_WRONG, 310L);
        sample.counts.put(Verdict.MISSING_FIELD, 2L);
        return sample.view();
    }

    /** A controller with lines of its own, read as if they were the protocol's. */
    public static LineView foreign() {
        SampleLines sample = new SampleLines();
        for (int second = 14; second >= 0; second--) {
            sample.add(
                    second == 14 ? Verdict.HALF : Verdict.CHECKSUM_MISSING,
                    String.format(Locale.ROOT, "%d,%.2f,650,%d", 5400 - second, 21.5 - second * 0.05, 255),
                    second);
        }
        return sample.view();
    }

    /** Good lines until four minutes ago. */
    public static LineView silent() {
        SampleLines sample = new SampleLines();
        for (int second = 30; second >= 0; second--) {
            sample.add(Verdict.READING, reading(second), second + 245);
        }
        return sample.view();
    }

    static String reading(int secondsAgo) {
        int sequence = 5460 - secondsAgo;
        return "R " + sequence + " " + sequence * 1000L + " t1=" + (1648 - secondsAgo / 9) + " j1="
                + (310 + secondsAgo % 3) + " o=62 s=416 ~" + String.format("%04X", sequence * 7919 % 65_536);
    }

    SampleLines add(Verdict verdict, String text, double secondsAgo) {
        number++;
        counts.merge(verdict, 1L, Long::sum);
        lines.add(new LineView.Line(
                number, SampleSnapshots.HOST_MS - Math.round(secondsAgo * 1000), text, false, verdict));
        return this;
    }

    LineView view() {
        return new LineView(lines, counts);
    }
}
