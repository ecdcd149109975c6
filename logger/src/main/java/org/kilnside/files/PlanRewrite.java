package org.kilnside.files;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;

/**
 * Writes a changed plan into the text it came from. A file is cut at its {@code [[segment]]} lines: a part whose content
 * has not changed stays as it is, letter by letter; of a part that has, the comment lines stay. The result is read again
 * before it is used: where it does not give the plan back, the plain text is written with the old comments on top.
 */
final class PlanRewrite {
    private static final Pattern SEGMENT = Pattern.compile("^\\s*\\[\\[\\s*segment\\s*]]\\s*(#.*)?$");
    private static final Pattern COMMENT = Pattern.compile("^\\s*#.*$");

    /** A comment behind a value: values of a segment never hold a # inside their quotes. */
    private static final Pattern BEHIND = Pattern.compile("^\\s*(rate|to|hold|cool)\\s*=\\s*\"[^\"#]*\"\\s*(#.*)$");

    private PlanRewrite() {}

    static String of(Schedule schedule, String earlier) {
        Schedule before;
        try {
            before = PlanFiles.parse(earlier, "");
        } catch (FileRefusedException e) {
            return PlanText.of(schedule);
        }
        String rewritten = rewritten(schedule, before, parts(earlier));
        return isThePlan(rewritten, schedule) ? rewritten : withCommentsOnTop(schedule, earlier);
    }

    private static boolean isThePlan(String text, Schedule schedule) {
        try {
            return PlanFiles.parse(text, "").equals(schedule);
        } catch (FileRefusedException e) {
            return false;
        }
    }

    /**
     * The head, then one part a segment; each ends with its line's end. Comment lines right above a {@code [[segment]]}
     * belong to it.
     */
    private static List<String> parts(String text) {
        List<String> parts = new ArrayList<>();
        StringBuilder part = new StringBuilder();
        StringBuilder comments = new StringBuilder();
        for (String line : text.replace("\r\n", "\n").split("(?<=\n)")) {
            if (COMMENT.matcher(line.stripTrailing()).matches()) {
                comments.append(line);
                continue;
            }
            if (SEGMENT.matcher(line.stripTrailing()).matches()) {
                parts.add(part.toString());
                part = new StringBuilder();
            }
            part.append(comments).append(line.endsWith("\n") ? line : line + "\n");
            comments = new StringBuilder();
        }
        parts.add(part.append(comments).toString());
        return parts;
    }

    private static String rewritten(Schedule schedule, Schedule before, List<String> parts) {
        StringBuilder text = new StringBuilder(head(schedule, before, parts.get(0)));
        List<Segment> old = before.segments();
        List<Segment> now = schedule.segments();
        int kept = 0;
        for (int i = 0; i < now.size(); i++) {
            int same = -1;
            for (int k = kept; k < old.size() && same < 0; k++) {
                same = old.get(k).equals(now.get(i)) ? k : -1;
            }
            boolean changedInPlace =
                    same < 0 && kept < old.size() && !now.subList(i, now.size()).contains(old.get(kept));
            String part = "";
            if (same >= 0) {
                part = parts.get(same + 1);
                kept = same + 1;
            } else if (changedInPlace) {
                part = changed(now.get(i), parts.get(kept + 1));
                kept++;
            } else {
                part = PlanText.segment(now.get(i)) + "\n";
            }
            String separator = text.length() == 0 || text.toString().endsWith("\n\n") ? "" : "\n";
            text.append(separator).append(part);
        }
        return text.toString().stripTrailing() + "\n";
    }

    private static String head(Schedule schedule, Schedule before, String head) {
        boolean same = schedule.name().equals(before.name())
                && schedule.aimsFor().equals(before.aimsFor())
                && schedule.clay().equals(before.clay())
                && schedule.notes().equals(before.notes());
        return same ? head : comments(head) + PlanText.head(schedule) + "\n";
    }

    private static String changed(Segment segment, String part) {
        int begin = part.indexOf("[[");
        StringBuilder text = new StringBuilder(comments(part.substring(0, begin)));
        for (String line : PlanText.segment(segment).split("\n")) {
            String key = line.replaceFirst("\\s*=.*", "").strip();
            text.append(line).append(behind(part, key)).append('\n');
        }
        return text.append(comments(part.substring(begin))).append('\n').toString();
    }

    /** The comment that stood behind a key's value. */
    private static String behind(String part, String key) {
        for (String line : part.split("\n")) {
            Matcher value = BEHIND.matcher(line);
            Matcher begin = SEGMENT.matcher(line);
            if (value.matches() && value.group(1).equals(key)) {
                return "   " + value.group(2).strip();
            }
            if (key.equals("[[segment]]") && begin.matches() && begin.group(1) != null) {
                return "   " + begin.group(1).strip();
            }
        }
        return "";
    }

    private static String comments(String part) {
        StringBuilder comments = new StringBuilder();
        boolean inText = false;
        for (String line : part.split("\n")) {
            if (!inText && COMMENT.matcher(line).matches()) {
                comments.append(line.stripTrailing()).append('\n');
            }
            // A # inside """ … """ belongs to the notes.
            inText ^= line.split("\"\"\"", -1).length % 2 == 0;
        }
        return comments.toString();
    }

    private static String withCommentsOnTop(Schedule schedule, String earlier) {
        String text = comments(earlier.replace("\r\n", "\n")) + PlanText.of(schedule);
        return isThePlan(text, schedule) ? text : PlanText.of(schedule);
    }
}
