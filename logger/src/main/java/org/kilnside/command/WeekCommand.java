package org.kilnside.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.MomentText;
import org.kilnside.files.UnitText.NotAQuantityException;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.host.Places;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;
import org.kilnside.wording.WarningWords;
import org.kilnside.wording.WeekWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** When which load is fired, so that all are out before a date. */
@Command(
        name = "week",
        mixinStandardHelpOptions = true,
        description =
                "Plans several loads in one kiln before a date: in which order, when to light each so that somebody is there at the lighting and at the top, and when it is out, by the late end of each firing's range.")
public final class WeekCommand implements Callable<Integer> {
    /** The week the window plans. */
    private static final String OWN = "my-week";

    @Mixin
    private Surroundings around;

    @Mixin
    private SensorOptions sensor;

    @Mixin
    private FromBook book;

    @Parameters(
            paramLabel = "FILE",
            arity = "0..1",
            description = "A week's file, or the name of one (the window's, my-week, unless given); cafe-friday is an"
                    + " example to copy.")
    private String file = OWN;

    @Option(
            names = "--earlier",
            paramLabel = "LOG",
            description = "An earlier firing's log of the same kiln; may be given several times.")
    private List<Path> earlier = List.of();

    @Option(
            names = "--from",
            paramLabel = "WHEN",
            description = "Plan nothing before, such as \"2026-12-01 18:00\" or \"Tue 18:00\" (now, unless given).")
    private Optional<String> from = Optional.empty();

    @Option(names = "--json", description = "One JSON object; moments with their offset from UTC.")
    private boolean json;

    @Override
    public Integer call() {
        ZoneId zone = around.words().preferences().zone();
        Instant now = around.clock().wallClock();
        Instant start = from.map(text -> from(text, now, zone)).orElse(now);
        if (file.equals(OWN) && !around.library().weekNames().contains(OWN)) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT,
                    "there is no week of your own yet: begin one in the window's screen Week, copy the example to "
                            + Places.settings().resolve("weeks").resolve(OWN + ".toml")
                            + " and write your own loads into it, or name a week: "
                            + String.join(", ", around.library().weekNames()) + ".");
        }
        Week week = around.library().week(file, start, zone);
        Kiln kiln = kiln(week);
        Optional<FromBook.Past> past = book.of(kiln.name(), around);
        OptionalDouble room =
                week.room().map(each -> OptionalDouble.of(each.celsius())).orElse(OptionalDouble.empty());
        OutlookQuestion about = OutlookQuestion.about(week.loads().get(0).plan(), kiln)
                .withMemory(EarlierLogs.read(earlier, sensor).memory(kiln, past, room, around))
                .withSensor(sensor.firing(
                        past.flatMap(FromBook.Past::guide), week.loads().get(0).plan()));
        WeekPlan plan = WeekPlan.of(week, about, start);
        ConeTable cones = ConeTable.of(kiln.series());
        if (json) {
            around.out().println(WeekJson.of(week, plan, kiln, new WarningWords(around.words(), cones)));
        } else {
            print(week, plan, kiln, new WeekWords(around.words(), cones, kiln));
        }
        return Complaint.ExitCode.DONE.code();
    }

    private Kiln kiln(Week week) {
        try {
            return book.kiln(week.kiln(), around);
        } catch (FileRefusedException e) {
            throw new Complaint(Complaint.ExitCode.INPUT, file + ": \"kiln\": " + e.getMessage());
        }
    }

    private static Instant from(String text, Instant now, ZoneId zone) {
        try {
            return MomentText.moment(text, now, zone);
        } catch (NotAQuantityException e) {
            throw new Complaint(Complaint.ExitCode.USAGE, "--from: " + e.getMessage());
        }
    }

    private void print(Week week, WeekPlan plan, Kiln kiln, WeekWords words) {
        PrintWriter out = around.out();
        out.println(around.words().text("week.title", week.name(), kiln.name()));
        words.head(week, plan).forEach(line -> out.println("  " + line));
        int number = 1;
        for (PlannedFiring each : plan.firings()) {
            WeekWords.Firing firing = words.firing(plan, each);
            out.println();
            out.println(number++ + "  " + firing.name() + ": " + firing.plan());
            firing.lines().forEach(line -> out.println("   " + line));
            firing.warnings().forEach(line -> out.println("   ! " + line));
        }
        out.println();
        words.foot(plan).forEach(line -> out.println("  " + line));
    }
}
