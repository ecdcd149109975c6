package org.kilnside.command;

import java.io.PrintWriter;
import java.util.List;

/** Rows of text in columns, as wide as their widest cell. */
final class Table {
    private Table() {}

    static void print(PrintWriter out, List<String[]> rows) {
        int columns = rows.stream().mapToInt(row -> row.length).max().orElse(0);
        int[] widths = new int[columns];
        for (String[] row : rows) {
            for (int i = 0; i < row.length; i++) {
                widths[i] = Math.max(widths[i], row[i].length());
            }
        }
        for (String[] row : rows) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < row.length; i++) {
                line.append("  ").append(row[i]).append(" ".repeat(widths[i] - row[i].length()));
            }
            out.println(line.toString().stripTrailing());
        }
    }
}
