package org.kilnside.files;

import java.util.Arrays;

/**
 * The fields of one line of CSV: RFC 4180 within a line, and more patient. Blanks around a field and around its quotes
 * do not belong to it; a doubled quote inside is one quote; a quote that never closes ends with the line.
 */
final class CsvFields {
    private final char separator;
    private char[] text = new char[0];
    private char[] unquoted = new char[64];
    private int unquotedLength;
    private int[] from = new int[16];
    private int[] to = new int[16];
    private boolean[] quoted = new boolean[16];
    private int count;

    CsvFields(char separator) {
        this.separator = separator;
    }

    char separator() {
        return separator;
    }

    /** Splits a line. The fields stay valid until the next line is split. */
    void split(char[] line, int length) {
        text = line;
        count = 0;
        unquotedLength = 0;
        int at = 0;
        while (true) {
            while (at < length && isBlank(line[at])) {
                at++;
            }
            if (at < length && line[at] == '"') {
                at = quotedField(line, at + 1, length);
            } else {
                int start = at;
                while (at < length && line[at] != separator) {
                    at++;
                }
                int end = at;
                while (end > start && isBlank(line[end - 1])) {
                    end--;
                }
                add(start, end, false);
            }
            if (at >= length) {
                return;
            }
            at++;
        }
    }

    int count() {
        return count;
    }

    /** The letters in which {@link #from} and {@link #to} count, for a field. */
    char[] letters(int field) {
        return quoted[field] ? unquoted : text;
    }

    int from(int field) {
        return from[field];
    }

    int to(int field) {
        return to[field];
    }

    boolean isEmpty(int field) {
        return field >= count || from[field] == to[field];
    }

    String text(int field) {
        return new String(letters(field), from[field], to[field] - from[field]);
    }

    private boolean isBlank(char c) {
        return (c == ' ' || c == '\t' || c == '\u00a0') && c != separator;
    }

    /** Reads on from behind an opening quote; returns where the next separator, or the line's end, is. */
    private int quotedField(char[] line, int start, int length) {
        int begin = unquotedLength;
        int at = start;
        while (at < length) {
            if (line[at] == '"') {
                if (at + 1 < length && line[at + 1] == '"') {
                    at++;
                } else {
                    break;
                }
            }
            if (unquotedLength == unquoted.length) {
                unquoted = Arrays.copyOf(unquoted, 2 * unquoted.length);
            }
            unquoted[unquotedLength++] = line[at++];
        }
        while (at < length && line[at] != separator) {
            at++;
        }
        int end = unquotedLength;
        while (begin < end && isBlank(unquoted[begin])) {
            begin++;
        }
        while (end > begin && isBlank(unquoted[end - 1])) {
            end--;
        }
        add(begin, end, true);
        return at;
    }

    private void add(int start, int end, boolean inQuotes) {
        if (count == from.length) {
            from = Arrays.copyOf(from, 2 * count);
            to = Arrays.copyOf(to, 2 * count);
            quoted = Arrays.copyOf(quoted, 2 * count);
        }
        from[count] = start;
        to[count] = end;
        quoted[count++] = inQuotes;
    }
}
