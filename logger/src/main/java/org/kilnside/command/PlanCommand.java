package org.kilnside.command;

import java.io.PrintWriter;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.kilnside.files.JsonLines;
import org.kilnside.files.JsonObject;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.files.UnitText;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.PlannedCurve;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.StateWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Plans. */
@Command(
        name = "plan",
        mixinStandardHelpOptions = true,
        subcommands = {PlanCommand.Show.class, PlanCommand.ListPlans.class, PlanOutlookCommand.class, PlanCard.class},
        description = "Looks at plans.")
public final class PlanCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Override
    public Integer call() {
        around.usage();
        return Complaint.ExitCode.USAGE.code();
    }

    /** The names of all plans. */
    @Command(name = "list", mixinStandardHelpOptions = true, description = "Lists the plans that can be named.")
    static final class ListPlans implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Override
        public Integer call() {
            ProfileLibrary library = around.library();
            library.planNames().forEach(name -> around.out().println(name));
            return Complaint.ExitCode.DONE.code();
        }
    }

    /** One plan. */
    @Command(
            name = "show",
            mixinStandardHelpOptions = true,
            description = "Shows a plan segment by segment, with the times it would take in a kiln that can follow it.")
    static final class Show implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Parameters(paramLabel = "FILE", description = "A plan's file, or the name of one, such as bisque.")
        private String plan;

        @Option(names = "--json", description = "One JSON object a segment.")
        private boolean json;

        @Option(
                names = "--start",
                paramLabel = "TEMPERATURE",
                defaultValue = "20 °C",
                description = "The kiln's temperature when it is lit (${DEFAULT-VALUE}, unless given).")
        private String start;

        @Override
        public Integer call() {
            Temperature lit = temperature(start);
            ProfileLibrary.Plan found = around.library().plan(plan);
            Schedule schedule = found.schedule();
            PlannedCurve curve = schedule.curveFrom(lit);
            if (json) {
                printJson(schedule, curve);
            } else {
                print(schedule, curve);
            }
            return Complaint.ExitCode.DONE.code();
        }

        private static Temperature temperature(String text) {
            try {
                return UnitText.temperature(text);
            } catch (UnitText.NotAQuantityException e) {
                throw new Complaint(Complaint.ExitCode.USAGE, "--start: " + e.getMessage());
            }
        }

        private void print(Schedule schedule, PlannedCurve curve) {
            Words words = around.words();
            StateWords state = new StateWords(words);
            PrintWriter out = around.out();
            out.println(schedule.name());
            schedule.notes().ifPresent(notes -> out.println("  " + notes.strip().replace("\n", "\n  ")));
            List<String[]> rows = new ArrayList<>();
            for (int number = 1; number <= schedule.segments().size(); number++) {
                Segment segment = schedule.segments().get(number - 1);
                String from = "";
                String to = "";
                for (PlannedCurve.Leg leg : curve.legs()) {
                    if (leg.segment() == number) {
                        from = from.isEmpty() ? words.duration(Duration.ofMillis(leg.fromMs())) : from;
                        to = words.duration(Duration.ofMillis(leg.toMs()));
                    }
                }
                rows.add(new String[] {
                    Integer.toString(number), state.segment(segment), from.isEmpty() ? "" : from + " … " + to
                });
            }
            Table.print(out, rows);
            out.println(words.text(
                    "plan.figures",
                    words.temperature(schedule.top()),
                    words.duration(curve.timeToTop()),
                    words.duration(curve.duration())));
        }

        private void printJson(Schedule schedule, PlannedCurve curve) {
            JsonLines lines = new JsonLines(around.out());
            for (int number = 1; number <= schedule.segments().size(); number++) {
                JsonObject object =
                        new JsonObject().with("plan", schedule.name()).with("segment", number);
                if (schedule.segments().get(number - 1) instanceof Segment.Ramp ramp) {
                    object.with("rate_c_per_h", ramp.rate().kelvinPerHour(), 3)
                            .with("to_c", ramp.to().celsius(), 3)
                            .with("hold_s", ramp.hold().toSeconds());
                    addTimes(object, curve, number);
                } else {
                    object.with("cool", "free");
                }
                lines.write(object);
            }
        }

        private static void addTimes(JsonObject object, PlannedCurve curve, int number) {
            List<PlannedCurve.Leg> legs =
                    curve.legs().stream().filter(leg -> leg.segment() == number).toList();
            if (!legs.isEmpty()) {
                object.with("from_s", legs.get(0).fromMs() / 1000.0, 3)
                        .with("until_s", legs.get(legs.size() - 1).toMs() / 1000.0, 3);
            }
        }
    }
}
