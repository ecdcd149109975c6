package org.kilnside.link;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.kilnside.session.LineView;
import org.kilnside.session.LineView.Verdict;

/**
 * Remembers the last lines of a link as they came. The link's thread writes, copying bytes into room that is there
 * already; whoever wants to look, from any thread, pays for making text of them.
 */
final class HeardLines {
    private static final Verdict[] VERDICTS = Verdict.values();

    private final byte[][] bytes = new byte[LineView.MOST_LINES][LineView.LONGEST_SHOWN];
    private final int[] lengths = new int[LineView.MOST_LINES];
    private final boolean[] cut = new boolean[LineView.MOST_LINES];
    private final long[] hostMs = new long[LineView.MOST_LINES];
    private final int[] verdicts = new int[LineView.MOST_LINES];
    private final long[] counts = new long[VERDICTS.length];
    private long heard;
    private LineView seen = LineView.NONE;
    private long seenAt;

    private record Kept(byte[] bytes, boolean cut, long hostMs, Verdict verdict) {}

    /** Remembers a line; called on the link's thread. */
    synchronized void add(byte[] line, int from, int to, boolean longer, long receivedAtMs, Verdict verdict) {
        int place = (int) (heard % LineView.MOST_LINES);
        int length = Math.min(to - from, LineView.LONGEST_SHOWN);
        System.arraycopy(line, from, bytes[place], 0, length);
        lengths[place] = length;
        cut[place] = longer || length < to - from;
        hostMs[place] = receivedAtMs;
        verdicts[place] = verdict.ordinal();
        counts[verdict.ordinal()]++;
        heard++;
    }

    /** The lines as they stand now; never waits for the wire. */
    LineView view() {
        List<Kept> kept;
        long last;
        Map<Verdict, Long> met = new EnumMap<>(Verdict.class);
        synchronized (this) {
            if (seenAt == heard) {
                return seen;
            }
            kept = kept();
            last = heard;
            for (Verdict verdict : VERDICTS) {
                if (counts[verdict.ordinal()] > 0) {
                    met.put(verdict, counts[verdict.ordinal()]);
                }
            }
        }
        List<LineView.Line> lines = new ArrayList<>(kept.size());
        long number = last - kept.size();
        for (Kept line : kept) {
            lines.add(new LineView.Line(++number, line.hostMs, text(line.bytes), line.cut, line.verdict));
        }
        LineView view = new LineView(lines, met);
        synchronized (this) {
            if (last > seenAt) {
                seen = view;
                seenAt = last;
            }
        }
        return view;
    }

    private List<Kept> kept() {
        List<Kept> kept = new ArrayList<>(LineView.MOST_LINES);
        for (long i = Math.max(0, heard - LineView.MOST_LINES); i < heard; i++) {
            int place = (int) (i % LineView.MOST_LINES);
            kept.add(new Kept(
                    Arrays.copyOf(bytes[place], lengths[place]), cut[place], hostMs[place], VERDICTS[verdicts[place]]));
        }
        return kept;
    }

    /** UTF-8 where it is that, as the degree sign of a controller's own lines may be; else byte by byte. */
    private static String text(byte[] line) {
        StringBuilder text = new StringBuilder(line.length);
        try {
            StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(line))
                    .chars()
                    .forEach(character -> append(text, character, isUnreadable(character)));
        } catch (CharacterCodingException e) {
            text.setLength(0);
            for (byte each : line) {
                append(text, each & 0xFF, each < ' ' || each == 0x7F);
            }
        }
        return text.toString();
    }

    private static boolean isUnreadable(int character) {
        return Character.isISOControl(character) || Character.getType(character) == Character.FORMAT;
    }

    private static void append(StringBuilder text, int character, boolean unreadable) {
        if (unreadable) {
            text.append(String.format("\\x%02X", character));
        } else {
            text.append((char) character);
        }
    }
}
