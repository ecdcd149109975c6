package org.kilnside.command;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.Map;
import picocli.CommandLine;

/** One command run in this process: its exit code and what it said. */
record Line(int exit, String out, String err) {
    static Line run(String name, Object command, String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = KilnsideCommand.line(Map.of(name, command));
        line.setOut(new PrintWriter(out, true)).setErr(new PrintWriter(err, true));
        String[] all = new String[arguments.length + 1];
        all[0] = name;
        System.arraycopy(arguments, 0, all, 1, arguments.length);
        int exit = line.execute(all);
        return new Line(exit, out.toString(), err.toString());
    }
}
