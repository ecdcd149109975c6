package org.kilnside.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.kilnside.files.CsvLogs;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.Log;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.outlook.ForecastAtLighting;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.session.ConeDown;
import org.kilnside.session.ForecastRequest;
import org.kilnside.session.ModelForecaster;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.ForecastQuestion;
import org.kilnside.thermal.Forecaster;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.thermal.Ventilated;
import org.kilnside.thermal.WallKind;
import org.kilnside.tracking.FiringsApart;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.ForecastWords;
import org.kilnside.wording.OutlookWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What the kiln will do: arrival, top-out, cooling, energy. */
@Command(
        name = "forecast",
        mixinStandardHelpOptions = true,
        description =
                "Says when a firing reaches its top and when the kiln will be cool, each time with the interval that holds it nine times in ten. \"Now\" is a log's last line. Before lighting, give --plan and no log.")
public final class ForecastCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Mixin
    private SensorOptions sensor;

    @Parameters(
            paramLabel = "LOG",
            arity = "0..*",
            description = "Logs as CSV files, up to now. Of several firings in one file the last counts.")
    private List<Path> logs = List.of();

    @Option(
            names = "--plan",
            paramLabel = "FILE",
            description = "The plan it is fired by: its file, or the name of one.")
    private Optional<String> plan = Optional.empty();

    @Option(
            names = "--target",
            paramLabel = "C",
            description = "Where there is no plan: how hot it is to get, °C. With neither no arrival is told.")
    private Optional<Double> target = Optional.empty();

    @Option(names = "--ambient", paramLabel = "C", description = "The room's temperature, °C, where known.")
    private Optional<Double> ambient = Optional.empty();

    @Option(
            names = "--below",
            paramLabel = "C",
            split = ",",
            defaultValue = "200,120,60",
            description = "Temperatures whose times are asked for, °C (${DEFAULT-VALUE}, unless given).")
    private List<Double> below;

    @Option(
            names = "--earlier",
            paramLabel = "LOG",
            description = "An earlier firing's log of the same kiln; may be given several times.")
    private List<Path> earlier = List.of();

    @Option(
            names = "--wall",
            paramLabel = "brick|layered|fibre",
            description = "What the kiln's wall is made of; without it all three are weighed.")
    private Optional<Kiln.Wall> wall = Optional.empty();

    @Option(
            names = "--kiln",
            paramLabel = "NAME",
            description = "The kiln: its file, or the name of one; for its wall, power and size.")
    private Optional<String> kiln = Optional.empty();

    @Option(
            names = "--load-kg",
            paramLabel = "M",
            description =
                    "Before lighting: ware and furniture, kg. Counts where the kiln's size is known (--kiln), or its power and earlier logs that tell the output.")
    private Optional<Double> loadKg = Optional.empty();

    @Option(
            names = "--power-kw",
            paramLabel = "P",
            description =
                    "The elements' power, all on, kW. Before lighting it counts where the kiln's size is known (--kiln), or earlier logs tell the output.")
    private Optional<Double> powerKw = Optional.empty();

    @Option(
            names = "--opened",
            paramLabel = "WHAT@S",
            split = ",",
            description =
                    "What was done to the openings and when, in the log's elapsed seconds: bung@S, vent@S, lid@S (propped) or shut@S.")
    private List<String> opened = List.of();

    @Option(
            names = "--json",
            description =
                    "Gives one JSON object a log, times in the log's own elapsed seconds. Where arrival's reaches is null, whether it gets there cannot be said yet, and the times beside it say when, if it does; or the kiln cools and the log does not show its top.")
    private boolean json;

    @Override
    public Integer call() {
        check();
        EarlierLogs before = EarlierLogs.read(earlier, sensor);
        Kiln known = kiln();
        KilnMemory memory = KilnMemory.of(
                before.firings(),
                known.wall().map(each -> WallKind.valueOf(each.name())),
                ambient.map(OptionalDouble::of).orElse(OptionalDouble.empty()));
        Optional<Schedule> schedule =
                plan.map(name -> around.library().plan(name).schedule());
        if (logs.isEmpty()) {
            beforeLighting(schedule.orElseThrow(), memory, known);
        }
        before.thatDoNotCount(memory).ifPresent(sentence -> around.err().println("kilnside: " + sentence));
        int exit = Complaint.ExitCode.DONE.code();
        for (Path path : logs) {
            try {
                Trace whole = curve(path);
                Trace newest = FiringsApart.newest(whole);
                // What was opened in a firing before this one has been shut since.
                boolean alone = newest.size() == whole.size();
                ForecastQuestion question = question(newest, schedule, memory, known)
                        .withVentilated(opened.stream()
                                .map(ForecastCommand::ventilated)
                                .filter(each -> alone || each.sinceS() >= firstS(newest))
                                .toList());
                answer(path, alone ? Optional.empty() : Optional.of(firstS(newest)), question);
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

    /** The kiln as named, with what is said of it here instead. */
    private Kiln kiln() {
        Kiln named = kiln.map(around.library()::kiln).orElseGet(() -> Kiln.named(""));
        return new Kiln(
                named.name(),
                named.volume(),
                powerKw.map(Power::ofKilowatts).or(named::power),
                wall.or(named::wall),
                named.opening(),
                named.isolator(),
                named.tariff(),
                named.limits(),
                named.thresholds(),
                named.sensors(),
                named.cutOut(),
                named.alarms(),
                named.series());
    }

    private void check() {
        if (logs.isEmpty() && plan.isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "no log to forecast from, expected at least one: name its CSV file; or, before lighting, --plan and"
                            + " --earlier");
        }
        if (loadKg.isPresent() && !logs.isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--load-kg is of use before lighting only, as a log shows what the load takes: leave it out, or the"
                            + " log");
        }
        if (plan.isPresent() && target.isPresent()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE, "--plan and --target both say how hot it is to get: give one of them");
        }
        Numbers.within("--target", target, 50, 1500, "°C");
        Numbers.within("--ambient", ambient, -40, 60, "°C");
        Numbers.within("--load-kg", loadKg, 0.1, 5000, "kg");
        Numbers.within("--power-kw", powerKw, 0.1, 500, "kW");
        for (double each : below) {
            Numbers.within("--below", Optional.of(each), 0, 1500, "°C");
        }
    }

    private Trace curve(Path path) {
        return LogReadings.good(sensor.truth(CsvLogs.read(path), path.toString()), path)
                .curve();
    }

    private ForecastQuestion question(Trace firing, Optional<Schedule> schedule, KilnMemory memory, Kiln known) {
        ForecastQuestion question = ForecastQuestion.about(firing)
                .withMemory(memory.describedAs(known))
                .withBelow(below.stream().map(Temperature::ofCelsius).toList());
        if (schedule.isPresent()) {
            question = question.withPlan(schedule.get());
        }
        if (target.isPresent()) {
            question = question.withTarget(Temperature.ofCelsius(target.get()));
        }
        if (ambient.isPresent()) {
            question = question.withAmbient(Temperature.ofCelsius(ambient.get()));
        }
        Optional<Power> power = known.power();
        return power.isPresent() ? question.withPowerKw(power.get().kilowatts()) : question;
    }

    private static Ventilated ventilated(String text) {
        int at = text.indexOf('@');
        try {
            Ventilated.How how = switch (text.substring(0, Math.max(0, at)).trim()) {
                case "bung" -> Ventilated.How.BUNG_OUT;
                case "vent" -> Ventilated.How.VENT_ON;
                case "lid" -> Ventilated.How.LID_PROPPED;
                case "shut" -> Ventilated.How.SHUT;
                default -> throw new NumberFormatException(text);
            };
            double seconds = Double.parseDouble(text.substring(at + 1).trim());
            if (!(seconds >= 0) || Double.isInfinite(seconds)) {
                throw new NumberFormatException(text);
            }
            return new Ventilated(seconds, how);
        } catch (NumberFormatException e) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--opened: found \"" + text
                            + "\", expected bung, vent, lid or shut, an @ and the log's elapsed seconds, such as"
                            + " lid@61200; write it so");
        }
    }

    private void beforeLighting(Schedule schedule, KilnMemory memory, Kiln known) {
        if (!earlier.isEmpty() && memory.isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.NOTHING, EarlierLogs.KNOWN_BY_NOTHING + "; name logs of whole firings");
        }
        OutlookQuestion question = OutlookQuestion.about(schedule, known)
                .withMemory(memory)
                .withRoom(ambient.map(Temperature::ofCelsius).orElse(OutlookQuestion.USUAL_ROOM))
                .withLoadKg(loadKg.map(OptionalDouble::of).orElse(OptionalDouble.empty()));
        ForecastAtLighting answer = ForecastAtLighting.of(
                question, below.stream().map(Temperature::ofCelsius).toList());
        Forecast forecast = answer.forecast();
        ForecastWords words = ForecastWords.beforeLighting(around.words());
        OutlookWords say = new OutlookWords(around.words(), ConeTable.of(question.series()), known);
        if (json) {
            List<String> notes = new ArrayList<>(words.remarks(forecast));
            notes.addAll(words.whyNot(forecast));
            say.notKnown(answer.unknowns()).ifPresent(notes::add);
            around.out()
                    .println(ForecastJson.withEnergyRange(
                                    ForecastJson.object(Optional.empty(), forecast.askedS(), forecast), answer.energy())
                            .with("notes", notes));
        } else {
            around.out().println(schedule.name());
            words.lines(forecast, say.beside(answer))
                    .forEach(line -> around.out().println("  " + line));
        }
    }

    /** @param litAgainS when the firing in question was lit, where the log holds one before it */
    private void answer(Path path, Optional<Double> litAgainS, ForecastQuestion question) {
        Log log = CsvLogs.read(path);
        sensor.leftOut(log, sensor.truth(log, path.toString()))
                .ifPresent(sentence -> around.err().println("kilnside: " + path + ": " + sentence));
        ForecastWords words = new ForecastWords(around.words(), log.startedAt(), log.trace());
        List<String> doubts = new ArrayList<>(SensorDoubts.in(log).besideForecast(around.words()));
        Forecast believed = Forecaster.forecast(question);
        Forecast trusted = doubts.isEmpty() ? believed : believed.ofALyingSensor();
        Forecast forecast = stoodAtSensorsEnd(question.curve(), log) ? trusted.ofASensorAtItsEnd() : trusted;
        litAgainS.ifPresent(lit -> doubts.add(words.lastOfSeveral(lit)));
        Optional<ConeDown> aimed = question.plan()
                .map(schedule -> ForecastRequest.ofLog(
                        question.curve(),
                        schedule,
                        kiln().series(),
                        sensor.uncertainty(log),
                        Kiln.Thresholds.COMMON_PRACTICE))
                .flatMap(request -> ModelForecaster.aimed(request, forecast));
        if (json) {
            List<String> notes = new ArrayList<>(doubts);
            notes.addAll(words.remarks(forecast));
            notes.addAll(words.whyNot(forecast));
            aimed.filter(cone -> cone.when().isEmpty()).ifPresent(cone -> notes.add(said(words, cone)));
            around.out()
                    .println(ForecastJson.withCone(
                                    ForecastJson.object(Optional.of(path), lastS(log.trace()), forecast), aimed)
                            .with("notes", notes));
        } else {
            around.out().println(path);
            doubts.forEach(line -> around.out().println("  " + around.words().sentence(line) + "."));
            List<String> more = aimed.map(cone -> said(words, cone)).stream().toList();
            words.lines(forecast, more).forEach(line -> around.out().println("  " + line));
        }
        sayWhatIsStillAhead(path, log.trace());
        log.report().sentence().ifPresent(sentence -> around.err().println("kilnside: " + path + ": " + sentence));
    }

    private String said(ForecastWords words, ConeDown down) {
        return words.cone(new ConeWords(around.words(), ConeTable.of(kiln().series())).cone(down.cone()), down);
    }

    private boolean stoodAtSensorsEnd(Trace firing, Log log) {
        return HeatWork.of(ConeTable.of(ConeSeries.USUAL), firing)
                        .reached(sensor.uncertainty(log))
                        .top()
                == ConeReached.Top.AT_SENSORS_END;
    }

    /** An opening later than the log's end does not count, most likely for a slip in its number. */
    private void sayWhatIsStillAhead(Path path, Trace log) {
        long lastS = (long) lastS(log);
        for (String text : opened) {
            if (ventilated(text).sinceS() > lastS + 1) {
                around.out().flush();
                around.err()
                        .println("kilnside: " + path + ": --opened " + text + " lies after the log's last reading, at "
                                + lastS + " s, and does not count; check the number");
            }
        }
    }

    private static double firstS(Trace log) {
        return log.elapsedMs(0) / 1000.0;
    }

    /** Now is the log's last line; the forecast itself is asked at the middle of its newest minute. */
    private static double lastS(Trace log) {
        return log.elapsedMs(log.size() - 1) / 1000.0;
    }
}
