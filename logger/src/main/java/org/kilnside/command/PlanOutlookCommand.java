package org.kilnside.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.function.ToDoubleFunction;
import org.kilnside.files.JsonObject;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.outlook.Estimate;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.outlook.WantedCone;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.OutlookWords;
import org.kilnside.wording.WarningWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What a plan will come to in a kiln before it is lit. */
@Command(
        name = "outlook",
        mixinStandardHelpOptions = true,
        description =
                "Says what a plan will come to in a kiln: cone, times, cooling, energy, cost, each with the interval that holds nine in ten; and what in it is rash.")
final class PlanOutlookCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Mixin
    private SensorOptions sensor;

    @Mixin
    private FromBook book;

    @Parameters(paramLabel = "FILE", description = "A plan's file, or the name of one, such as bisque.")
    private String plan;

    @Option(
            names = "--kiln",
            paramLabel = "NAME",
            description = "The kiln: its file, or the name of one. Without it, one of which nothing is known.")
    private Optional<String> kiln = Optional.empty();

    @Option(names = "--load-kg", paramLabel = "M", description = "Ware and furniture, kg.")
    private Optional<Double> loadKg = Optional.empty();

    @Option(
            names = "--earlier",
            paramLabel = "LOG",
            description = "An earlier firing's log of the same kiln; may be given several times.")
    private List<Path> earlier = List.of();

    @Option(names = "--ambient", paramLabel = "C", description = "The room's temperature, °C (15, unless given).")
    private Optional<Double> ambient = Optional.empty();

    @Option(
            names = "--wanted",
            paramLabel = "CONE",
            description = "The cone the load wants, such as 06 or 6; without it the one the plan aims for.")
    private Optional<String> wanted = Optional.empty();

    @Option(names = "--ware", paramLabel = "raw|glazed", description = "Raw, or fired before and glazed.")
    private Optional<Ware.State> state = Optional.empty();

    @Option(names = "--thickness-mm", paramLabel = "T", description = "The thickest piece's wall, mm.")
    private Optional<Double> thicknessMm = Optional.empty();

    @Option(names = "--ware-limit", paramLabel = "C", description = "The highest the clay or glaze bears, °C.")
    private Optional<Double> wareLimit = Optional.empty();

    @Mixin
    private SeriesOption series;

    @Option(names = "--json", description = "One JSON object.")
    private boolean json;

    @Override
    public Integer call() {
        Numbers.within("--load-kg", loadKg, 0.1, 5000, "kg");
        Numbers.within("--ambient", ambient, -40, 60, "°C");
        Numbers.within("--thickness-mm", thicknessMm, 0.5, 500, "mm");
        Numbers.within("--ware-limit", wareLimit, 100, 1800, "°C");
        ProfileLibrary.Plan found = around.library().plan(plan);
        Kiln known = kiln.map(name -> book.kiln(name, around)).orElseGet(() -> Kiln.named(""));
        ConeSeries meant = series.or(known.series());
        Optional<FromBook.Past> past = book.of(known.name(), around);
        Outlook outlook = Outlook.of(new OutlookQuestion(
                found.schedule(),
                known,
                EarlierLogs.read(earlier, sensor).memory(known, past, optional(ambient), around),
                ambient.map(Temperature::ofCelsius).orElse(OutlookQuestion.USUAL_ROOM),
                optional(loadKg),
                new Ware(state, optional(thicknessMm), wareLimit.map(Temperature::ofCelsius)),
                meant,
                sensor.firing(past.flatMap(FromBook.Past::guide), found.schedule()),
                wanted.map(PlanOutlookCommand::cone)));
        WarningWords warnings = new WarningWords(around.words(), ConeTable.of(meant));
        if (json) {
            around.out().println(object(found.shortName(), meant, outlook, warnings));
        } else {
            PrintWriter out = around.out();
            out.println(found.schedule().name());
            new OutlookWords(around.words(), ConeTable.of(meant), known)
                    .lines(found.schedule(), outlook)
                    .forEach(line -> out.println("  " + line));
            outlook.warnings().forEach(warning -> out.println("! " + warnings.line(warning)));
        }
        return Complaint.ExitCode.DONE.code();
    }

    private static OptionalDouble optional(Optional<Double> value) {
        return value.map(OptionalDouble::of).orElse(OptionalDouble.empty());
    }

    private static Cone cone(String text) {
        try {
            return Cone.parse(text);
        } catch (IllegalArgumentException e) {
            throw new Complaint(Complaint.ExitCode.USAGE, "--wanted: " + e.getMessage());
        }
    }

    private static JsonObject object(String name, ConeSeries series, Outlook outlook, WarningWords words) {
        JsonObject object = new JsonObject().with("plan", name).with("series", series.word());
        JsonObject cone = position(outlook.cone().cone())
                .with("from", position(outlook.cone().between().from()))
                .with("to", position(outlook.cone().between().to()));
        object.with("cone", cone);
        if (outlook.cone().coolingAdded().isPresent()) {
            object.with("cooling_added", outlook.cone().coolingAdded().getAsDouble(), 3);
        } else {
            object.withNull("cooling_added");
        }
        ConeCommand.between(object, outlook.cone().coolingBetween());
        object.with("planned_s", outlook.planned().toSeconds())
                .with("highest_c", estimate(outlook.highest(), Temperature::celsius, 1));
        object.with("reaches", outlook.reaches().known(), known -> known);
        if (outlook.reachesShare().isPresent()) {
            object.with("reaches_share", outlook.reachesShare().getAsDouble(), 2);
        } else {
            object.withNull("reaches_share");
        }
        object.with("top_s", outlook.arrival(), PlanOutlookCommand::seconds)
                .with("top_over_s", outlook.topOver(), PlanOutlookCommand::seconds)
                .with("plan_over_s", outlook.planOver(), PlanOutlookCommand::seconds)
                .with("crack_s", outlook.crack(), PlanOutlookCommand::seconds)
                .with("unload_s", outlook.unload(), PlanOutlookCommand::seconds)
                .with("energy_kwh", outlook.energy(), energy -> estimate(energy, each -> each.kilowattHours(), 2))
                .with(
                        "cost",
                        outlook.cost(),
                        cost -> estimate(cost.price(), price -> price, 2).with("currency", cost.currency()))
                .with("wanted", outlook.wanted(), PlanOutlookCommand::wanted)
                .with("on_controller", outlook.onController(), PlanOutlookCommand::onController);
        List<JsonObject> warnings = new ArrayList<>();
        outlook.warnings().forEach(warning -> warnings.add(WarningJson.of(warning, words)));
        return object.with("warnings", warnings)
                .with(
                        "not_known",
                        outlook.unknowns().stream()
                                .sorted()
                                .map(each -> each.name().toLowerCase(Locale.ROOT))
                                .toList());
    }

    private static JsonObject wanted(WantedCone wanted) {
        return new JsonObject()
                .with("cone", wanted.cone().number())
                .with("top_c", wanted.top(), top -> estimate(top, Temperature::celsius, 1))
                .with("top_on_controller_c", wanted.onController(), shown -> Math.round(shown.celsius() * 10) / 10.0)
                .with("hold_s", wanted.hold(), hold -> hold.toSeconds());
    }

    private static JsonObject onController(Outlook.OnController its) {
        return new JsonObject()
                .with("top_c", its.top().celsius(), 1)
                .with("shown_c", its.shown(), shown -> Math.round(shown.celsius() * 10) / 10.0)
                .with("cone_as_written", position(its.asWritten()));
    }

    private static JsonObject seconds(Estimate<Duration> time) {
        return estimate(time, each -> each.toMillis() / 1000.0, 0);
    }

    static <T extends Comparable<T>> JsonObject estimate(
            Estimate<T> estimate, ToDoubleFunction<T> number, int decimals) {
        return new JsonObject()
                .with("at", number.applyAsDouble(estimate.probable()), decimals)
                .with("from", number.applyAsDouble(estimate.from()), decimals)
                .with("to", number.applyAsDouble(estimate.to()), decimals);
    }

    static JsonObject position(ConePosition position) {
        JsonObject object = new JsonObject()
                .with("past", position.past(), Cone::number)
                .with("next", position.next(), Cone::number);
        if (position.fraction().isPresent()) {
            object.with("fraction", position.fraction().getAsDouble(), 3);
        } else {
            object.withNull("fraction");
        }
        return object;
    }
}
