package org.kilnside.app;

import java.util.LinkedHashMap;
import java.util.Map;
import org.kilnside.command.KilnsideCommand;

/** The program's entry. */
public final class Kilnside {
    private Kilnside() {}

    public static void main(String[] arguments) {
        System.exit(KilnsideCommand.line(commands()).execute(arguments));
    }

    /** Every command by its name. */
    static Map<String, Object> commands() {
        Map<String, Object> commands = new LinkedHashMap<>();
        return commands;
    }
}
