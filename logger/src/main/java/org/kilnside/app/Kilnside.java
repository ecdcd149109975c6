package org.kilnside.app;

import java.util.LinkedHashMap;
import java.util.Map;
import org.kilnside.command.AlarmTestCommand;
import org.kilnside.command.AlarmsCommand;
import org.kilnside.command.BookCommand;
import org.kilnside.command.ConeCommand;
import org.kilnside.command.DemoCommand;
import org.kilnside.command.DeskCommand;
import org.kilnside.command.EmfCommand;
import org.kilnside.command.ForecastCommand;
import org.kilnside.command.KilnCommand;
import org.kilnside.command.KilnsideCommand;
import org.kilnside.command.PlanCommand;
import org.kilnside.command.PortsCommand;
import org.kilnside.command.RecordCommand;
import org.kilnside.command.ReviewCommand;
import org.kilnside.command.ShareCommand;
import org.kilnside.command.Surroundings;
import org.kilnside.command.WatchCommand;
import org.kilnside.command.WeekCommand;
import picocli.CommandLine;

/** The program's entry. */
public final class Kilnside {
    private Kilnside() {}

    public static void main(String[] arguments) {
        CommandLine line = KilnsideCommand.line(commands());
        int exit = line.execute(arguments);
        line.getOut().flush();
        line.getErr().flush();
        System.exit(exit);
    }

    /** Every command by its name. */
    static Map<String, Object> commands() {
        Surroundings.Window window = new DeskWindow();
        Map<String, Object> commands = new LinkedHashMap<>();
        commands.put("demo", new DemoCommand(window));
        commands.put("record", new RecordCommand());
        commands.put("watch", new WatchCommand());
        commands.put("alarm-test", new AlarmTestCommand());
        commands.put("share", new ShareCommand());
        commands.put("ports", new PortsCommand());
        commands.put("desk", new DeskCommand(window));
        commands.put("book", new BookCommand());
        commands.put("kiln", new KilnCommand());
        commands.put("plan", new PlanCommand());
        commands.put("week", new WeekCommand());
        commands.put("emf", new EmfCommand());
        commands.put("cone", new ConeCommand());
        commands.put("forecast", new ForecastCommand());
        commands.put("alarms", new AlarmsCommand());
        commands.put("review", new ReviewCommand());
        return commands;
    }
}
