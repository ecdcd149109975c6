package org.kilnside.command;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.format.DateTimeParseException;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.book.Book;
import org.kilnside.book.ComparedPoint;
import org.kilnside.book.FittedSensor;
import org.kilnside.book.KilnEdit;
import org.kilnside.book.KilnHistory;
import org.kilnside.book.NewBook;
import org.kilnside.files.UnitText;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.ToleranceClass;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What the book is told of a kiln's sensors: fitted, moved, compared. */
final class KilnSensorCommands {
    private KilnSensorCommands() {}

    /** Which kiln, which channel, which book. */
    static final class Which {
        @Parameters(index = "0", paramLabel = "KILN", description = "The kiln's name, as its firings have it.")
        private String kiln;

        @Option(
                names = "--channel",
                paramLabel = "N",
                defaultValue = "1",
                description = "The controller's channel; 1 guides (${DEFAULT-VALUE}, unless given).")
        private int channel;

        @Option(
                names = "--book",
                paramLabel = "FILE",
                description = "The firing book (this system's usual place, unless given).")
        private Optional<Path> book = Optional.empty();

        Book open() {
            if (channel < 1 || channel > 4) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE, "--channel: a controller has 1 to 4, found " + channel + ".");
            }
            return NewBook.openOrMake(Surroundings.book(book));
        }

        KilnHistory history(Book open, Surroundings around) {
            return open.history(
                    around.library().knowsKiln(kiln)
                            ? around.library().kiln(kiln).name()
                            : kiln);
        }

        FittedSensor now(KilnHistory history) {
            return history.sensors().stream()
                    .filter(sensor ->
                            sensor.channel() == channel && sensor.removedAt().isEmpty())
                    .findFirst()
                    .orElseThrow(() -> new Complaint(
                            Complaint.ExitCode.INPUT,
                            "the book was told of no sensor on channel " + channel + " of \"" + kiln
                                    + "\": note it first, kilnside kiln fit \"" + kiln
                                    + "\" --type K --amplifier MAX31855"));
        }
    }

    /** The day something was done. */
    static final class Day {
        @Option(
                names = "--since",
                paramLabel = "DAY",
                description = "When, such as 2026-03-20 or 2026-03-20T14:30 (now, unless given).")
        private Optional<String> since = Optional.empty();

        Instant at(Surroundings around) {
            if (since.isEmpty()) {
                return around.clock().wallClock();
            }
            String text = since.get().strip();
            try {
                LocalDateTime at = text.contains("T")
                        ? LocalDateTime.parse(text)
                        : LocalDate.parse(text).atStartOfDay();
                return at.atZone(ZoneId.systemDefault()).toInstant();
            } catch (DateTimeParseException e) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--since: found \"" + text + "\", expected a day such as 2026-03-20 or 2026-03-20T14:30");
            }
        }
    }

    /** A sensor is fitted. */
    @Command(
            name = "fit",
            mixinStandardHelpOptions = true,
            description = {
                "Notes that a sensor was fitted. What was known of the one before it ends with this.",
                "For example: kilnside kiln fit \"Tall Drum\" --type K --class 1 --amplifier MAX31855 --sensor \"new in"
                        + " autumn\" --place \"left wall, middle\""
            })
    static final class Fit implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Mixin
        private Which which;

        @Mixin
        private Day day;

        @Option(
                names = "--type",
                paramLabel = "LETTER",
                required = true,
                description = "The thermocouple: K, N, S, R, B, J, T or E.")
        private ThermocoupleType type;

        @Option(
                names = "--amplifier",
                paramLabel = "CHIP",
                required = true,
                description =
                        "What the controller sends: the codes of a MAX31855, MAX31856 or MAX6675, or CELSIUS that it"
                                + " works out itself.")
        private Amplifier amplifier;

        @Option(
                names = "--class",
                paramLabel = "1|2|3",
                defaultValue = "2",
                description = "The tolerance class of its wire, IEC 60584-1 (${DEFAULT-VALUE}, unless given).")
        private int tolerance;

        @Option(names = "--sensor", paramLabel = "NAME", defaultValue = "", description = "What you call this sensor.")
        private String name;

        @Option(names = "--place", paramLabel = "PLACE", defaultValue = "", description = "Where its tip is.")
        private String place;

        @Option(
                names = "--shows",
                paramLabel = "CHIP|TRUTH",
                description = "What the controller's own number is: that of a MAX31855 or MAX6675 as it is, which at a"
                        + " glaze firing's top is some 20 °C low, or the temperature. Unless given: the chip's, where the"
                        + " controller sends the codes of one.")
        private Optional<String> shows = Optional.empty();

        @Override
        public Integer call() {
            if (tolerance < 1 || tolerance > 3) {
                throw new Complaint(Complaint.ExitCode.USAGE, "--class knows 1, 2 and 3, found " + tolerance + ".");
            }
            SensorInPlace plain = SensorInPlace.uncalibrated(
                    new Probe(type, amplifier), name, place, ToleranceClass.values()[tolerance - 1]);
            SensorInPlace sensor = shows.map(word -> plain.shownBy(ShownNumber.chip("--shows", word)))
                    .orElse(plain);
            Amplifier chip = sensor.uncorrected().orElse(amplifier);
            if (amplifier != Amplifier.CELSIUS && chip != amplifier) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--shows: a controller that sends the codes of a " + amplifier
                                + " shows its number or the temperature, found " + chip
                                + ": take --amplifier CELSIUS where it sends °C");
            }
            if (!chip.isMadeFor(type)) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "there is no " + chip + " for type " + type
                                + ": look at the chip on the board and at the wire; one of the two is another");
            }
            try (Book open = which.open()) {
                which.history(open, around).fit(which.channel, sensor, day.at(around));
            }
            around.out().println(around.words().text("kilns.noted"));
            return Complaint.ExitCode.DONE.code();
        }
    }

    /** A sensor is put into another place. */
    @Command(
            name = "move",
            mixinStandardHelpOptions = true,
            description = "Notes that a sensor was put into another place. What was known of it ends with this.")
    static final class Move implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Mixin
        private Which which;

        @Mixin
        private Day day;

        @Parameters(index = "1", paramLabel = "PLACE", description = "Where its tip is now.")
        private String place;

        @Override
        public Integer call() {
            try (Book open = which.open()) {
                KilnHistory history = which.history(open, around);
                FittedSensor now = which.now(history);
                // What nobody said of it in its old place, its new place does not say either.
                SensorInPlace moved = history.isUnasked(now)
                        ? now.sensor().movedTo(place).shownBy(Optional.empty())
                        : now.sensor().movedTo(place);
                history.fit(which.channel, moved, day.at(around));
            }
            around.out().println(around.words().text("kilns.noted"));
            return Complaint.ExitCode.DONE.code();
        }
    }

    /** A sensor is compared with something better. */
    @Command(
            name = "compare",
            mixinStandardHelpOptions = true,
            description = {
                "Notes what a sensor read where the truth was known. Between several such points the correction is drawn"
                        + " straight.",
                "For example: kilnside kiln compare \"Tall Drum\" --reads \"1000 °C\" --true \"1011 °C\" --within 3"
            })
    static final class Compare implements Callable<Integer> {
        private static final double USUAL_HALF_WIDTH_K = 5;

        @Mixin
        private Surroundings around;

        @Mixin
        private Which which;

        @Option(names = "--reads", paramLabel = "TEMPERATURE", description = "What the sensor read.")
        private Optional<String> reads = Optional.empty();

        @Option(names = "--true", paramLabel = "TEMPERATURE", description = "What it was.")
        private Optional<String> truth = Optional.empty();

        @Option(
                names = "--offset",
                paramLabel = "°C",
                description = "In place of both: what is to be added to every reading.")
        private Optional<Double> offset = Optional.empty();

        @Option(
                names = "--within",
                paramLabel = "°C",
                defaultValue = "5",
                description = "How far this may be off (${DEFAULT-VALUE} °C, unless given).")
        private double within = USUAL_HALF_WIDTH_K;

        @Option(
                names = "--with",
                paramLabel = "thermometer|fixed_point|witness_cones",
                defaultValue = "thermometer",
                description = "What it was compared with (${DEFAULT-VALUE}, unless given).")
        private Calibration.By by;

        @Override
        public Integer call() {
            boolean everywhere = offset.isPresent();
            if (everywhere == (reads.isPresent() && truth.isPresent()) || reads.isPresent() != truth.isPresent()) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "say what it read and what was true (--reads \"1000 °C\" --true \"1011 °C\"), or what is to be"
                                + " added everywhere (--offset 8)");
            }
            Calibration.Point point = everywhere ? point(0, offset.get()) : between();
            try (Book open = which.open()) {
                KilnHistory history = which.history(open, around);
                history.compare(
                        which.now(history).number(),
                        point,
                        everywhere,
                        around.clock().wallClock());
            }
            around.out().println(around.words().text("kilns.noted"));
            return Complaint.ExitCode.DONE.code();
        }

        private Calibration.Point between() {
            double readC = celsius("--reads", reads.orElseThrow());
            return point(readC, celsius("--true", truth.orElseThrow()) - readC);
        }

        private Calibration.Point point(double readC, double correctionK) {
            if (Math.abs(correctionK) > 100) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "a correction of " + Math.round(correctionK)
                                + " °C is none a sensor needs, expected at most 100"
                                + " either way: check the two numbers, and the thermocouple's type");
            }
            try {
                return new Calibration.Point(readC, correctionK, within, by);
            } catch (IllegalArgumentException e) {
                throw new Complaint(Complaint.ExitCode.USAGE, "--within: " + e.getMessage());
            }
        }

        private static double celsius(String option, String text) {
            try {
                return UnitText.temperature(text).celsius();
            } catch (UnitText.NotAQuantityException e) {
                throw new Complaint(Complaint.ExitCode.USAGE, option + ": " + e.getMessage());
            }
        }
    }

    /** A comparison is struck out. */
    @Command(
            name = "strike",
            mixinStandardHelpOptions = true,
            description = "Strikes out a comparison that was noted, by the number kiln show gives it.")
    static final class Strike implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Mixin
        private Which which;

        @Parameters(index = "1", paramLabel = "NUMBER", description = "The comparison's number.")
        private long number;

        @Override
        public Integer call() {
            try (Book open = which.open()) {
                KilnHistory history = which.history(open, around);
                ComparedPoint point = history.sensors().stream()
                        .flatMap(sensor -> history.points(sensor.number()).stream())
                        .filter(each -> each.number() == number)
                        .findFirst()
                        .orElseThrow(() -> new Complaint(
                                Complaint.ExitCode.INPUT,
                                "there is no comparison " + number + " of a sensor of \"" + which.kiln
                                        + "\": kilnside kiln show \"" + which.kiln + "\" lists them."));
                history.apply(new KilnEdit.Compared(Optional.of(point), Optional.empty()));
            }
            around.out().println(around.words().text("kilns.noted"));
            return Complaint.ExitCode.DONE.code();
        }
    }
}
