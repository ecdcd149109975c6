package org.kilnside.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.files.CsvLogs;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.JsonObject;
import org.kilnside.files.Log;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.files.UnitText;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.GoodReadings;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.quantity.Interval;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.tracking.FiringsApart;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.SensorWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What the ware has had, would have by a plan, or needs. */
@Command(
        name = "cone",
        mixinStandardHelpOptions = true,
        description =
                "Says which cone a firing came to (LOG), which one a plan comes to (--plan), or what top or hold a cone needs (--reach).")
public final class ConeCommand implements Callable<Integer> {
    private static final String LIT_AT = "20 °C";

    @Mixin
    private Surroundings around;

    @Mixin
    private SensorOptions sensor;

    @Parameters(
            paramLabel = "LOG",
            arity = "0..*",
            description =
                    "Logs of firings as CSV files, one firing each. Of several in one file the last counts, and the others are named.")
    private List<Path> logs = List.of();

    @Option(
            names = "--plan",
            paramLabel = "FILE",
            description = "In place of a log: a plan's file, or the name of one.")
    private Optional<String> plan = Optional.empty();

    @Mixin
    private ConeWish wish;

    @Mixin
    private SeriesOption series;

    @Option(
            names = "--json",
            description = "Gives one JSON object a log, plan or question; peak_s is in the log's own elapsed seconds.")
    private boolean json;

    @Override
    public Integer call() {
        ConeTable table = ConeTable.of(series.or(ConeSeries.USUAL));
        check();
        if (wish.isThere()) {
            wish.answer(around, sensor, table, json);
        } else if (plan.isPresent()) {
            plan(table, plan.get());
        } else {
            return logs(table);
        }
        return Complaint.ExitCode.DONE.code();
    }

    private void check() {
        wish.check();
        if (wish.isThere() && !logs.isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--reach asks what brings a cone down, and no log is looked at for that; found " + logs.get(0)
                            + " beside it: leave out the log, or --reach");
        }
        if (plan.isPresent() && !logs.isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "a log and --plan are two questions; found " + logs.get(0) + " beside --plan " + plan.get()
                            + ": ask for one of them");
        }
        if (plan.isPresent() && wish.isThere()) {
            throw new Complaint(Complaint.ExitCode.USAGE, "--plan and --reach are two questions: ask for one of them");
        }
        if (plan.isEmpty() && logs.isEmpty() && !wish.isThere()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "nothing to work a cone out from, expected a firing's log, --plan or --reach: name its CSV file");
        }
    }

    private int logs(ConeTable table) {
        int exit = Complaint.ExitCode.DONE.code();
        for (Path path : logs) {
            try {
                log(table, path);
            } catch (FileRefusedException e) {
                if (logs.size() == 1) {
                    throw e;
                }
                around.out().flush();
                around.err().println("kilnside: " + e.getMessage());
                exit = Complaint.ExitCode.INPUT.code();
            }
        }
        return exit;
    }

    private void log(ConeTable table, Path path) {
        Log log = CsvLogs.read(path);
        Trace truth = sensor.truth(log, path.toString());
        GoodReadings good = LogReadings.good(truth, path);
        List<Trace> firings = FiringsApart.of(good.curve());
        Trace last = firings.get(firings.size() - 1);
        SensorUncertainty uncertainty = sensor.uncertainty(log);
        ConeReached reached = HeatWork.of(table, last).reached(uncertainty);
        ConeWords cones = new ConeWords(around.words(), table);
        List<String> doubts = SensorDoubts.in(log).besideCone(around.words());
        List<String> before = new ArrayList<>();
        for (Trace firing : firings.subList(0, firings.size() - 1)) {
            before.add(cones.earlier(HeatWork.of(table, firing).reached(uncertainty), firstMs(log)));
        }
        List<String> jumps = good.jumps().stream()
                .filter(jump -> firings.size() == 1 || jump.elapsedMs() > last.elapsedMs(0))
                .map(jump -> cones.jump(jump, firstMs(log)))
                .toList();
        if (json) {
            JsonObject object = object("log", path.toString(), reached);
            object.with("rejected", good.rejected()).with("sensor", sensor(uncertainty, reached.peak()));
            List<String> notes = new ArrayList<>(doubts);
            notes.addAll(before);
            cones.top(reached, last).ifPresent(notes::add);
            cones.beginsHot(reached, last.temperatureC(0)).ifPresent(notes::add);
            notes.addAll(jumps);
            object.with("notes", notes);
            around.out().println(object);
        } else {
            PrintWriter out = around.out();
            List<String> first = new ArrayList<>(doubts);
            first.add(cones.reached(reached));
            out.println(path + ": " + first.get(0));
            first.stream().skip(1).forEach(line -> out.println("  " + line));
            before.forEach(line -> out.println("  " + line));
            cones.details(reached, last, firstMs(log)).forEach(line -> out.println("  " + line));
            out.println("  " + SensorWords.alone(uncertainty, reached.peak(), around.words()));
            cones.beginsHot(reached, last.temperatureC(0)).ifPresent(line -> out.println("  " + line));
            jumps.forEach(line -> out.println("  " + line));
            if (good.rejected() > 0) {
                out.println("  " + around.words().text("cone.false_readings", good.rejected()));
            }
            out.println("  " + around.words().text("cone.witness"));
        }
        sensor.leftOut(log, truth).ifPresent(sentence -> around.err().println("kilnside: " + path + ": " + sentence));
        sensor.outOfRange(reached.peak())
                .ifPresent(sentence -> around.err().println("kilnside: " + path + ": " + sentence));
        log.report().sentence().ifPresent(sentence -> around.err().println("kilnside: " + path + ": " + sentence));
    }

    private static long firstMs(Log log) {
        return log.trace().elapsedMs(0);
    }

    private void plan(ConeTable table, String name) {
        ProfileLibrary.Plan plan = around.library().plan(name);
        PlanHeat.PlannedCone cone =
                PlanHeat.of(table, plan.schedule().curveFrom(UnitText.temperature(LIT_AT)), sensor.uncertainty());
        sensor.mustReach(cone.whole().peak());
        if (json) {
            around.out()
                    .println(between(
                                    object("plan", name, cone.whole()),
                                    cone.cooled().coolingAdded())
                            .with("at_end_of_top", position(cone.atEndOfTop()))
                            .with(
                                    "sensor",
                                    sensor(sensor.uncertainty(), cone.whole().peak())));
            return;
        }
        ConeWords cones = new ConeWords(around.words(), table);
        PrintWriter out = around.out();
        boolean tooCool = cone.whole().isBelowScale();
        out.println(plan.schedule().name() + ": "
                + (tooCool ? cones.planned(cone.whole().cone()) : cones.reached(cone.whole())));
        if (!tooCool) {
            out.println("  " + around.words().text("cone.plan_end", cones.position(cone.atEndOfTop())));
        }
        cones.planDetails(cone.whole()).forEach(line -> out.println("  " + line));
        out.println("  " + SensorWords.alone(sensor.uncertainty(), cone.whole().peak(), around.words()));
        out.println("  " + around.words().text("cone.witness"));
    }

    private static JsonObject object(String key, String name, ConeReached reached) {
        JsonObject object =
                new JsonObject().with(key, name).with("series", reached.series().word());
        put(object, reached.cone());
        boolean seen = reached.top() == ConeReached.Top.SEEN;
        object.with("from", position(reached.between().from()))
                .with("to", reached.atMost().filter(most -> seen), ConeCommand::position);
        if (reached.coolingAdded().isPresent()) {
            object.with("cooling_added", reached.coolingAdded().getAsDouble(), 4);
        } else {
            object.withNull("cooling_added");
        }
        return object.with("peak_c", reached.peak().celsius(), 2)
                .with("peak_s", reached.peakMs() / 1000.0, 3)
                .with("top_seen", seen)
                .with("gaps_s", reached.gaps().toMillis() / 1000.0, 3);
    }

    /** What the coolings of kilns nobody knows leave open. */
    static JsonObject between(JsonObject object, Optional<Interval<Double>> coolingAdded) {
        return object.with("cooling_added_from", coolingAdded, each -> rounded(each.from()))
                .with("cooling_added_to", coolingAdded, each -> rounded(each.to()));
    }

    private static double rounded(double cones) {
        return Math.round(cones * 1000) / 1000.0;
    }

    /** What the sensor alone leaves open at a top, and whether its class still promises that. */
    static JsonObject sensor(SensorUncertainty uncertainty, Temperature top) {
        return new JsonObject()
                .with("half_width_c", uncertainty.halfWidthC(top.celsius()), 2)
                .with("within_class", uncertainty.withinClass(top.celsius()));
    }

    static JsonObject position(ConePosition position) {
        JsonObject object = new JsonObject();
        put(object, position);
        return object;
    }

    private static void put(JsonObject object, ConePosition position) {
        object.with("past", position.past(), Cone::number).with("next", position.next(), Cone::number);
        if (position.fraction().isPresent()) {
            object.with("fraction", position.fraction().getAsDouble(), 4);
        } else {
            object.withNull("fraction");
        }
    }
}
