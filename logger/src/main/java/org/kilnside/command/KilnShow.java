package org.kilnside.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.book.Book;
import org.kilnside.book.ComparedPoint;
import org.kilnside.book.FittedSensor;
import org.kilnside.book.KilnHistory;
import org.kilnside.files.JsonLines;
import org.kilnside.files.JsonObject;
import org.kilnside.files.KilnSetting;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.WitnessOffset;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.wording.SensorWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** One kiln: its file's settings, and what the book knows of its sensors. */
@Command(
        name = "show",
        mixinStandardHelpOptions = true,
        description =
                "Shows a kiln: its settings, its sensors and their places, what is known of them, and how strong its elements are.")
final class KilnShow implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Parameters(paramLabel = "KILN", description = "The kiln's name, or its file.")
    private String kiln;

    @Option(
            names = "--book",
            paramLabel = "FILE",
            description = "The firing book (this system's usual place, unless given).")
    private Optional<Path> book = Optional.empty();

    @Option(names = "--json", description = "One JSON object.")
    private boolean json;

    /** One sensor with all that is to be said of it. */
    private record Known(
            FittedSensor fitted,
            SensorInPlace sensor,
            List<ComparedPoint> points,
            List<KilnHistory.OffsetOfFiring> offsets) {}

    @Override
    public Integer call() {
        // A kiln that is only in the book has no file: what the book knows of it is shown all the same.
        boolean inBookOnly = !around.library().knowsKiln(kiln) && !sensors(kiln).isEmpty();
        Kiln described = inBookOnly ? Kiln.named(kiln) : around.library().kiln(kiln);
        List<Known> sensors = sensors(described.name());
        Optional<KilnElements> elements = KilnElements.of(Surroundings.book(book), described);
        if (json) {
            writeJson(described, sensors, elements);
        } else {
            print(described, sensors, elements);
        }
        return Complaint.ExitCode.DONE.code();
    }

    private List<Known> sensors(String name) {
        return sensors(Surroundings.book(book), name);
    }

    private static List<Known> sensors(Path path, String name) {
        if (!Files.exists(path)) {
            return List.of();
        }
        List<Known> all = new ArrayList<>();
        try (Book open = Book.open(path)) {
            KilnHistory history = open.history(name);
            for (FittedSensor each : history.sensors()) {
                SensorInPlace known = history.known(each);
                all.add(new Known(
                        each,
                        history.isUnasked(each) ? known.shownBy(Optional.empty()) : known,
                        history.points(each.number()),
                        history.offsets(each)));
            }
        }
        return all;
    }

    private void print(Kiln described, List<Known> sensors, Optional<KilnElements> elements) {
        Words words = around.words();
        List<String[]> rows = new ArrayList<>();
        for (KilnSetting setting : KilnSetting.values()) {
            boolean usual = (setting == KilnSetting.CRACK || setting == KilnSetting.UNLOAD)
                    && described.thresholds().source() == Kiln.Thresholds.Source.COMMON_PRACTICE;
            String value = setting.of(described).orElse(words.text("kilns.not_said"));
            rows.add(new String[] {
                words.named("kilns.setting", setting), usual ? words.text("kilns.common_practice", value) : value
            });
        }
        Table.print(around.out(), rows);
        if (sensors.isEmpty()) {
            around.out().println(words.text("kilns.no_sensor"));
        }
        for (Known known : sensors) {
            lines(known, words).forEach(around.out()::println);
        }
        elements.ifPresent(its -> {
            around.out().println(words.text("elements.head"));
            its.lines(words).forEach(line -> around.out().println("  " + line));
        });
    }

    private static List<String> lines(Known known, Words words) {
        List<String> lines = new ArrayList<>();
        lines.add(SensorWords.line(
                known.fitted().channel(),
                known.sensor(),
                known.fitted().fittedAt(),
                known.fitted().removedAt(),
                words));
        SensorWords.shows(known.sensor(), known.fitted().sensor(), words).ifPresent(line -> lines.add("  " + line));
        known.points()
                .forEach(point -> lines.add("  "
                        + SensorWords.compared(
                                point.number(),
                                point.readingC(),
                                point.correctionK(),
                                point.halfWidthK(),
                                point.by(),
                                words)));
        known.offsets().forEach(found -> lines.add("  " + SensorWords.cones(found.firing(), found.offset(), words)));
        WitnessOffset.driftKPerFiring(known.offsets().stream()
                        .map(KilnHistory.OffsetOfFiring::offset)
                        .toList())
                .ifPresent(drift -> lines.add("  " + SensorWords.drift(drift, words)));
        return lines;
    }

    private void writeJson(Kiln described, List<Known> sensors, Optional<KilnElements> elements) {
        JsonObject settings = new JsonObject();
        for (KilnSetting setting : KilnSetting.values()) {
            settings.with(setting.word().replace('-', '_'), setting.of(described), value -> value);
        }
        new JsonLines(around.out())
                .write(new JsonObject()
                        .with("kiln", described.name())
                        .with("settings", settings)
                        .with(
                                "thresholds_from",
                                described.thresholds().source().name().toLowerCase(java.util.Locale.ROOT))
                        .with("sensors", sensors.stream().map(KilnShow::object).toList())
                        .with("elements", elements.map(KilnElements::objects).orElse(List.of()))
                        .with("elements_lost_per_ten_firings", elements.flatMap(KilnElements::ageing), its -> its));
    }

    private static JsonObject object(Known known) {
        SensorInPlace sensor = known.sensor();
        return new JsonObject()
                .with("channel", known.fitted().channel())
                .with("name", sensor.sensor())
                .with("place", sensor.place())
                .with("type", sensor.probe().type().name())
                .with("amplifier", sensor.probe().amplifier().name())
                .with("class", sensor.tolerance().ordinal() + 1)
                .with("uncorrected", sensor.uncorrected(), Enum::name)
                .with("fitted", known.fitted().fittedAt().toString())
                .with("removed", known.fitted().removedAt(), Instant::toString)
                .with(
                        "corrections",
                        sensor.calibration().points().stream()
                                .map(point -> new JsonObject()
                                        .with("reads_c", point.readingC())
                                        .with("add_c", point.correctionC(), 2)
                                        .with("within_c", point.halfWidthC(), 2))
                                .toList())
                .with(
                        "witness_firings",
                        known.offsets().stream()
                                .map(offset -> new JsonObject()
                                        .with("firing", offset.firing())
                                        .with("add_c", offset.offset().correctionK(), 2)
                                        .with("within_c", offset.offset().halfWidthK(), 2)
                                        .with("at_c", offset.offset().atC(), 1)
                                        .with("disagree", offset.offset().disagree()))
                                .toList());
    }
}
