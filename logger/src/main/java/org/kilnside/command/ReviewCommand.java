package org.kilnside.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.JsonObject;
import org.kilnside.firing.ConeSeries;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.WitnessCone;
import org.kilnside.heatwork.WitnessPack;
import org.kilnside.quantity.Temperature;
import org.kilnside.review.Review;
import org.kilnside.review.ReviewQuestion;
import org.kilnside.review.Reviewer;
import org.kilnside.schedule.Schedule;
import org.kilnside.wording.ReviewWords;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Why a load came out as it did. */
@Command(
        name = "review",
        mixinStandardHelpOptions = true,
        description =
                "Says by how much a firing fell short of its plan or went over it, through what, what to change next time, and what to do with the load.")
public final class ReviewCommand implements Callable<Integer> {
    private static final int HUNDREDTHS = 100;

    @Mixin
    private Surroundings around;

    @Mixin
    private SensorOptions sensor;

    @Parameters(paramLabel = "FIRING|LOG", description = "A firing's number in the book, or a log as a CSV file.")
    private String what;

    @Option(
            names = "--book",
            paramLabel = "FILE",
            description = "The firing book (this system's usual place, unless given).")
    private Optional<Path> book = Optional.empty();

    @Option(
            names = "--plan",
            paramLabel = "FILE",
            description = "The plan's file, or the name of one; a firing of the book brings its own.")
    private Optional<String> plan = Optional.empty();

    @Option(
            names = "--wanted",
            paramLabel = "CONE",
            description = "The cone the load wants, such as 6 (the one the plan aims for, unless given).")
    private Optional<String> wanted = Optional.empty();

    @Option(
            names = {"--ware-limit", "--ware-max"},
            paramLabel = "C",
            description =
                    "The highest the clay or glaze bears, °C: no higher top is advised than this, nor than the kiln's own limit.")
    private Optional<Double> wareLimit = Optional.empty();

    @Option(
            names = "--witness",
            paramLabel = "PACK",
            description =
                    "What the witness cones of one shelf showed, such as \"middle 5:90 6:35 7:0\" (degrees of bend) or \"top 6@21:10\" (seen down at); may be given several times. A firing of the book brings those it has, unless given.")
    private List<String> witness = List.of();

    @Option(
            names = "--earlier",
            paramLabel = "FIRING|LOG",
            description =
                    "An earlier firing of the same kiln, oldest first; may be given several times. A firing of the book brings the last six of its kiln, unless given.")
    private List<String> earlier = List.of();

    @Mixin
    private SeriesOption series;

    @Option(names = "--json", description = "One JSON object.")
    private boolean json;

    @Override
    public Integer call() {
        Numbers.within("--ware-limit", wareLimit, 100, 1800, "°C");
        ReviewedFiring firing = ReviewedFiring.find(what, book, sensor);
        ConeTable table = ConeTable.of(series.or(firing.series()));
        Schedule schedule = plan.map(name -> around.library().plan(name).schedule())
                .or(firing::plan)
                .orElseThrow(() -> new Complaint(
                        Complaint.ExitCode.USAGE,
                        "what was " + what + " meant to do? Name its plan with --plan: a file, or the name of one"));
        if (firing.readings().curve().size() < 2) {
            throw new FileRefusedException(FileRefusedException.Problem.of(
                    what, "fewer than two readings in it can be taken as a kiln's; check the file"));
        }
        ReviewQuestion question = firing.against(schedule, table)
                .withWanted(wantedCone())
                .withLimit(limit(firing))
                .withWareLimit(wareLimit.map(Temperature::ofCelsius));
        if (!witness.isEmpty()) {
            question = question.withWitness(packs(firing, table));
        }
        if (!earlier.isEmpty()) {
            question = question.withEarlier(earlier.stream()
                    .map(each ->
                            ReviewedFiring.find(each, book, sensor).readings().curve())
                    .filter(curve -> curve.size() > 1)
                    .toList());
        }
        Review review = Reviewer.review(question);
        ReviewWords words = new ReviewWords(
                around.words(), firing.startedAt(), firing.readings().curve().elapsedMs(0), review);
        if (json) {
            around.out().println(object(review, words));
            if (!review.extent().tellsACone()) {
                words.verdict(review).forEach(said -> around.err().println("kilnside: " + what + ": " + said));
            }
            if (table.series() != ConeSeries.USUAL) {
                around.err()
                        .println("kilnside: " + what + ": "
                                + around.words()
                                        .text(
                                                "review.judged_by",
                                                around.words().named("noted.series", table.series())));
            }
            review.remarks().forEach(remark -> around.err().println("kilnside: " + what + ": " + words.remark(remark)));
        } else {
            words.lines(review).forEach(around.out()::println);
        }
        if (firing.known().isEmpty()) {
            sensor.outOfRange(firing.highest())
                    .ifPresent(sentence -> around.err().println("kilnside: " + what + ": " + sentence));
        }
        firing.report().ifPresent(sentence -> around.err().println("kilnside: " + what + ": " + sentence));
        return Complaint.ExitCode.DONE.code();
    }

    /** The highest the maker lets the kiln go, where the kiln is known. */
    private Optional<Temperature> limit(ReviewedFiring firing) {
        return firing.kiln()
                .flatMap(name -> around.library().kilnCalled(name))
                .flatMap(kiln -> kiln.limits().temperature());
    }

    private Optional<Cone> wantedCone() {
        return wanted.map(text -> Cone.find(text)
                .orElseThrow(() -> new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--wanted: there is no cone \"" + text
                                + "\": cones run 022 … 01, then 1 … 14, softest first (06 is not 6)")));
    }

    /** Packs given for one and the same shelf are one pack. */
    private static List<WitnessPack> merged(List<WitnessPack> packs) {
        Map<String, List<WitnessCone>> shelves = new LinkedHashMap<>();
        for (WitnessPack pack : packs) {
            List<WitnessCone> shelf = shelves.computeIfAbsent(pack.shelf(), name -> new ArrayList<>());
            for (WitnessCone cone : pack.cones()) {
                if (shelf.stream().anyMatch(other -> other.cone().equals(cone.cone()))) {
                    throw new Complaint(
                            Complaint.ExitCode.USAGE,
                            "--witness: " + cone.cone() + " of the shelf \"" + pack.shelf()
                                    + "\" is given twice, expected each cone of a shelf once; leave one out, or name the shelves apart");
                }
                shelf.add(cone);
            }
        }
        return shelves.entrySet().stream()
                .map(shelf -> new WitnessPack(shelf.getKey(), shelf.getValue()))
                .toList();
    }

    private List<WitnessPack> packs(ReviewedFiring firing, ConeTable table) {
        return merged(witness.stream()
                .map(text -> {
                    WitnessPack pack;
                    try {
                        pack = WitnessPack.parse(text, firing.dayClock());
                    } catch (IllegalArgumentException e) {
                        throw new Complaint(Complaint.ExitCode.USAGE, "--witness: " + e.getMessage());
                    }
                    pack.cones().forEach(seen -> {
                        if (!table.cones().contains(seen.cone())) {
                            throw new Complaint(
                                    Complaint.ExitCode.USAGE,
                                    "--witness: the " + table.series().word() + " series has no " + seen.cone()
                                            + ", expected one of its own; name the series with --series");
                        }
                    });
                    return pack;
                })
                .toList());
    }

    private JsonObject object(Review review, ReviewWords words) {
        return new JsonObject()
                .with("log", what)
                .with("plan_reaches", review.planReaches(), ReviewCommand::position)
                .with("reached", review.reached(), ReviewCommand::position)
                .with("short_of_plan", review.shortOfPlan().stream().boxed().findFirst(), ReviewCommand::hundredths)
                .with("from", review.from().stream().boxed().findFirst(), ReviewCommand::hundredths)
                .with("to", review.to().stream().boxed().findFirst(), ReviewCommand::hundredths)
                .with("wanted", review.wanted(), Cone::number)
                .with("short_of_wanted", review.shortOfWanted().stream().boxed().findFirst(), ReviewCommand::hundredths)
                .with(
                        "shares",
                        review.sharesInSteps(HUNDREDTHS).stream()
                                .map(cost -> new JsonObject()
                                        .with("code", cost.code().code())
                                        .with("cones", hundredths(cost.cones()))
                                        .with("detail", words.detail(cost)))
                                .toList())
                .with(
                        "causes",
                        review.causes().stream()
                                .map(cause -> new JsonObject()
                                        .with("code", cause.code().code())
                                        .with("sure", cause.sure().word())
                                        .with(
                                                "evidence",
                                                cause.evidence().stream()
                                                        .map(words::evidence)
                                                        .toList()))
                                .toList())
                .with("advice", review.advice().stream().map(words::advice).toList());
    }

    private static JsonObject position(ConePosition position) {
        return new JsonObject()
                .with("past", position.past(), Cone::number)
                .with("next", position.next(), Cone::number)
                .with("fraction", position.fraction().stream().boxed().findFirst(), ReviewCommand::hundredths);
    }

    private static double hundredths(double value) {
        double rounded = (double) Math.round(value * HUNDREDTHS) / HUNDREDTHS;
        return rounded == 0 ? 0 : rounded;
    }
}
