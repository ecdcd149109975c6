package org.kilnside.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Function;
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
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What the ware has had, would have by a plan, or needs. */
@Command(
        name = "cone",
        mixinStandardHelpOptions = true,
        description = "Says which cone a firing came to, which one a plan comes to, or what top or hold a cone needs.")
public final class ConeCommand implements Callable<Integer> {
    private static final String LIT_AT = "20 °C";

    /** No ramp that anybody writes is slower or faster. */
    private static final double SLOWEST_K_PER_H = 1;

    private static final double FASTEST_K_PER_H = 2000;

    @Mixin
    private Surroundings around;

    @Mixin
    private SensorOptions sensor;

    @ArgGroup(multiplicity = "1")
    private Question question;

    @Option(
            names = "--rate",
            paramLabel = "RATE",
            description = "With --reach: the rate of the last ramp, such as \"100 °C/h\" (60 °C/h, unless given).")
    private Optional<String> rate = Optional.empty();

    @Option(
            names = "--hold",
            paramLabel = "TIME",
            description = "With --reach: the hold at the top (none, unless given).")
    private Optional<String> hold = Optional.empty();

    @Option(
            names = "--top",
            paramLabel = "TEMPERATURE",
            description = "With --reach: a top temperature; asks for the hold in place of the top.")
    private Optional<String> top = Optional.empty();

    @Mixin
    private SeriesOption series;

    @Option(names = "--json", description = "One JSON object a log, plan or question.")
    private boolean json;

    /** Logs, or a plan, or a wish. */
    static final class Question {
        @Parameters(paramLabel = "LOG", arity = "1..*", description = "Logs as CSV files.")
        private List<Path> logs = List.of();

        @Option(names = "--plan", paramLabel = "FILE", description = "A plan's file, or the name of one.")
        private Optional<String> plan = Optional.empty();

        @Option(names = "--reach", paramLabel = "CONE", description = "The cone to bring down, such as 06 or 6.")
        private Optional<String> reach = Optional.empty();
    }

    @Override
    public Integer call() {
        ConeTable table = ConeTable.of(series.or(ConeSeries.USUAL));
        if (question.reach.isEmpty() && (rate.isPresent() || hold.isPresent() || top.isPresent())) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE, "--rate, --hold and --top belong to --reach: name a cone with it");
        }
        if (question.reach.isPresent()) {
            reach(table, question.reach.get());
        } else if (question.plan.isPresent()) {
            plan(table, question.plan.get());
        } else {
            return logs(table);
        }
        return Complaint.ExitCode.DONE.code();
    }

    private int logs(ConeTable table) {
        int exit = Complaint.ExitCode.DONE.code();
        for (Path path : question.logs) {
            try {
                log(table, path);
            } catch (FileRefusedException e) {
                if (question.logs.size() == 1) {
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
        ConeReached reached = HeatWork.of(table, good.curve()).reached(sensor.uncertainty(log));
        ConeWords cones = new ConeWords(around.words(), table);
        List<String> doubts = SensorDoubts.in(log).besideCone(around.words());
        if (json) {
            JsonObject object = object("log", path.toString(), reached);
            object.with("rejected", good.rejected());
            List<String> notes = new ArrayList<>(doubts);
            notes.addAll(notes(cones, reached, good));
            object.with("notes", notes);
            around.out().println(object);
        } else {
            PrintWriter out = around.out();
            out.println(path + ": " + cones.reached(reached));
            doubts.forEach(line -> out.println("  " + line));
            cones.details(reached, good.curve().elapsedMs(0)).forEach(line -> out.println("  " + line));
            cones.beginsHot(reached, good.curve().temperatureC(0)).ifPresent(line -> out.println("  " + line));
            good.jumps().forEach(jump -> out.println("  " + cones.jump(jump)));
            if (good.rejected() > 0) {
                out.println("  " + around.words().text("cone.false_readings", good.rejected()));
            }
            out.println("  " + around.words().text("cone.witness"));
        }
        int beyond = log.trace().size() - truth.size();
        if (beyond > 0) {
            around.err()
                    .println("kilnside: " + path + ": left out " + beyond
                            + (beyond == 1 ? " number" : " numbers")
                            + " that this amplifier and thermocouple cannot give; check --uncorrected and --sensor");
        }
        log.report().sentence().ifPresent(sentence -> around.err().println("kilnside: " + path + ": " + sentence));
    }

    private static List<String> notes(ConeWords cones, ConeReached reached, GoodReadings good) {
        List<String> notes = new ArrayList<>();
        cones.top(reached.top()).ifPresent(notes::add);
        cones.beginsHot(reached, good.curve().temperatureC(0)).ifPresent(notes::add);
        good.jumps().forEach(jump -> notes.add(cones.jump(jump)));
        return notes;
    }

    private void plan(ConeTable table, String name) {
        ProfileLibrary.Plan plan = around.library().plan(name);
        PlanHeat.PlannedCone cone = PlanHeat.of(
                table,
                plan.schedule().curveFrom(UnitText.temperature(LIT_AT)),
                PlanHeat.USUAL_COOLING,
                sensor.uncertainty());
        if (json) {
            around.out().println(object("plan", name, cone.whole()).with("at_end_of_top", position(cone.atEndOfTop())));
            return;
        }
        ConeWords cones = new ConeWords(around.words(), table);
        PrintWriter out = around.out();
        out.println(plan.schedule().name() + ": " + cones.reached(cone.whole()));
        out.println("  " + around.words().text("cone.plan_end", cones.position(cone.atEndOfTop())));
        cones.planDetails(cone.whole()).forEach(line -> out.println("  " + line));
        out.println("  " + around.words().text("cone.witness"));
    }

    private void reach(ConeTable table, String wish) {
        Cone cone = cone(wish);
        HeatingRate last =
                rate.map(text -> quantity("--rate", text, UnitText::rate)).orElse(ConeTable.NAMED_AT);
        if (!(last.kelvinPerHour() > 0)) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--rate: found \"" + rate.orElseThrow()
                            + "\", expected a rate above 0: a kiln that does not heat brings no cone down");
        }
        if (last.kelvinPerHour() < SLOWEST_K_PER_H || last.kelvinPerHour() > FASTEST_K_PER_H) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--rate: found \"" + rate.orElseThrow()
                            + "\", expected 1 to 2000 °C/h: the chart's cones are fired at 15 to 300 °C/h; check the number");
        }
        if (table.temperature(cone).isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--reach: " + table.series().word() + " cones are not made as " + cone.number() + ", but from "
                            + table.cones().get(0).number() + " to "
                            + table.cones().get(table.cones().size() - 1).number());
        }
        if (top.isPresent()) {
            if (hold.isPresent()) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE, "--top asks for the hold and --hold for the top: give one of them");
            }
            Temperature at = quantity("--top", top.get(), UnitText::temperature);
            if (at.celsius() > PlanHeat.HIGHEST_TOP_C) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--top: found \"" + top.get() + "\", expected at most 1600 °C: no kiln for cones goes higher");
            }
            holdFor(table, cone, last, at);
        } else {
            Duration held = hold.map(text -> quantity("--hold", text, UnitText::duration))
                    .orElse(Duration.ZERO);
            if (held.isNegative()) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--hold: found \"" + hold.orElseThrow() + "\", expected a time of 0 or longer");
            }
            topFor(table, cone, last, held);
        }
    }

    private void topFor(ConeTable table, Cone cone, HeatingRate last, Duration held) {
        Temperature found = PlanHeat.topFor(table, cone, last, held)
                .orElseThrow(() -> new Complaint(
                        Complaint.ExitCode.NOTHING,
                        "no top from 350 to 1600 °C brings " + cone + " down so; take another rate or hold"));
        double half = HeatWork.halfWidthK(table.series(), sensor.uncertainty(), found.celsius());
        Temperature low = Temperature.ofCelsius(found.celsius() - half);
        Temperature high = Temperature.ofCelsius(found.celsius() + half);
        if (json) {
            around.out()
                    .println(wish(table, cone, last)
                            .with("hold_s", held.toMillis() / 1000.0, 3)
                            .with("top_c", found.celsius(), 2)
                            .with("top_from_c", low.celsius(), 2)
                            .with("top_to_c", high.celsius(), 2)
                            .with(
                                    "top_on_controller_c",
                                    onController(found),
                                    shown -> Math.round(shown.celsius() * 100) / 100.0));
            return;
        }
        Words words = around.words();
        around.out()
                .println(words.sentence(words.text(
                                "cone.reach_top",
                                new ConeWords(words, table).cone(cone),
                                words.temperature(found),
                                words.temperature(low),
                                words.temperature(high)))
                        + ", " + words.text("cone.reach_how", words.speed(last), words.duration(held)) + ".");
        sayOnController(found, words);
        around.out().println("  " + words.text("cone.witness"));
    }

    /** The number of a controller that shows another than the truth; else empty. */
    private Optional<Temperature> onController(Temperature truth) {
        return ControllerNumbers.of(sensor.sensor()).otherThan(truth);
    }

    private void sayOnController(Temperature truth, Words words) {
        onController(truth)
                .ifPresent(shown -> around.out()
                        .println("  "
                                + words.sentence(words.text("outlook.on_controller", words.temperature(shown)))
                                + "."));
        if (ControllerNumbers.of(sensor.sensor()).endsBelow(truth)) {
            around.out()
                    .println("  "
                            + words.sentence(words.text("outlook.controller_ends_below", words.temperature(truth)))
                            + ".");
        }
    }

    private void holdFor(ConeTable table, Cone cone, HeatingRate last, Temperature at) {
        Duration held = PlanHeat.holdFor(table, cone, last, at)
                .orElseThrow(() -> new Complaint(
                        Complaint.ExitCode.NOTHING,
                        "no hold of up to two days brings " + cone + " down at " + Math.round(at.celsius())
                                + " °C; take a higher top"));
        double half = HeatWork.halfWidthK(table.series(), sensor.uncertainty(), at.celsius());
        Duration least = PlanHeat.holdFor(table, cone, last, Temperature.ofCelsius(at.celsius() + half))
                .orElse(held);
        Optional<Duration> most = PlanHeat.holdFor(table, cone, last, Temperature.ofCelsius(at.celsius() - half));
        if (json) {
            around.out()
                    .println(wish(table, cone, last)
                            .with("hold_s", held.toMillis() / 1000.0, 3)
                            .with("hold_from_s", least.toMillis() / 1000.0, 3)
                            .with("hold_to_s", most, longest -> longest.toMillis() / 1000.0)
                            .with("top_c", at.celsius(), 2));
            return;
        }
        Words words = around.words();
        String named = new ConeWords(words, table).cone(cone);
        around.out()
                .println(words.sentence(
                                held.isZero()
                                        ? words.text("cone.reach_no_hold", named)
                                        : words.text(
                                                most.isPresent() ? "cone.reach_hold" : "cone.reach_hold_or_more",
                                                named,
                                                words.duration(held),
                                                words.duration(least),
                                                words.duration(most.orElse(held))))
                        + " (" + words.temperature(at) + ", " + words.speed(last) + ").");
        sayOnController(at, words);
        around.out().println("  " + words.text("cone.witness"));
    }

    private static JsonObject wish(ConeTable table, Cone cone, HeatingRate last) {
        return new JsonObject()
                .with("cone", cone.number())
                .with("series", table.series().word())
                .with("rate_c_per_h", last.kelvinPerHour(), 3);
    }

    private static JsonObject object(String key, String name, ConeReached reached) {
        JsonObject object =
                new JsonObject().with(key, name).with("series", reached.series().word());
        put(object, reached.cone());
        object.with("from", position(reached.between().from()))
                .with("to", position(reached.between().to()));
        if (reached.coolingAdded().isPresent()) {
            object.with("cooling_added", reached.coolingAdded().getAsDouble(), 4);
        } else {
            object.withNull("cooling_added");
        }
        return object.with("peak_c", reached.peak().celsius(), 2)
                .with("peak_s", reached.peakMs() / 1000.0, 3)
                .with("top_seen", reached.top() == ConeReached.Top.SEEN)
                .with("gaps_s", reached.gaps().toMillis() / 1000.0, 3);
    }

    private static JsonObject position(ConePosition position) {
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

    private static Cone cone(String wish) {
        try {
            return Cone.parse(wish);
        } catch (IllegalArgumentException e) {
            throw new Complaint(Complaint.ExitCode.USAGE, "--reach: " + e.getMessage());
        }
    }

    private static <T> T quantity(String option, String text, Function<String, T> reader) {
        try {
            return reader.apply(text);
        } catch (UnitText.NotAQuantityException e) {
            throw new Complaint(Complaint.ExitCode.USAGE, option + ": " + e.getMessage());
        }
    }
}
