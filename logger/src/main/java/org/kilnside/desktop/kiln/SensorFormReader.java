package org.kilnside.desktop.kiln;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kilnside.book.FittedSensor;
import org.kilnside.desktop.kiln.SensorForm.Field;
import org.kilnside.files.UnitText;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Calibration;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.sensor.ToleranceClass;
import org.kilnside.wording.DayText;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** Reads a form: there is what it says, or there is a sentence beside each field that cannot be so. */
final class SensorFormReader {
    private static final int LONGEST_NAME = 80;
    private static final double LARGEST_CORRECTION_K = 100;
    private static final int LONGEST_QUOTED = 24;
    private static final Pattern DIFFERENCE = Pattern.compile("([+-]?\\d{1,6}(?:[.,]\\d{1,6})?) ?(?:°? ?([CFK]))?");

    private final SensorForm form;
    private final List<SensorShelf.Known> others;
    private final Instant now;
    private final Words words;

    /** @param others all sensors of the kiln */
    SensorFormReader(SensorForm form, List<SensorShelf.Known> others, Instant now, Words words) {
        this.form = form;
        this.others = others;
        this.now = now;
        this.words = words;
    }

    /** A sensor fitted or moved. */
    record Fitting(int channel, SensorInPlace sensor, Instant at) {}

    /** A comparison. */
    record Comparing(Calibration.Point point, boolean everywhere) {}

    Optional<Fitting> fitting() {
        SensorInPlace sensor = sensor();
        int channel = Integer.parseInt(form.text(Field.CHANNEL));
        Optional<Instant> at = day(Field.SINCE);
        at.ifPresent(its -> notBeforeTheLast(channel, its));
        return at.filter(its -> !form.isWrong()).map(its -> new Fitting(channel, sensor, its));
    }

    Optional<Fitting> moving() {
        SensorShelf.Known known = form.sensor().orElseThrow();
        String place = name(Field.PLACE);
        if (place.isEmpty() || place.equals(known.sensor().place())) {
            form.wrong(Field.PLACE, words.text("sensors.bad.same_place"));
        }
        Optional<Instant> at = day(Field.SINCE);
        at.ifPresent(its -> notBeforeTheLast(known.fitted().channel(), its));
        return at.filter(its -> !form.isWrong())
                .map(its -> new Fitting(
                        known.fitted().channel(),
                        known.fitted()
                                .sensor()
                                .movedTo(place)
                                .shownBy(known.sensor().uncorrected()),
                        its));
    }

    /** The sensor as it is to stand in the book. */
    Optional<FittedSensor> mended() {
        FittedSensor before = form.sensor().orElseThrow().fitted();
        SensorInPlace sensor = sensor();
        int channel = Integer.parseInt(form.text(Field.CHANNEL));
        Optional<Instant> since = unlessAsItWas(Field.SINCE, Optional.of(before.fittedAt()));
        Optional<Instant> until =
                form.text(Field.UNTIL).isBlank() ? Optional.empty() : unlessAsItWas(Field.UNTIL, before.removedAt());
        if (since.isPresent() && !form.isWrong()) {
            if (until.isPresent() && !until.get().isAfter(since.get())) {
                form.wrong(Field.UNTIL, words.text("sensors.bad.ends_before"));
            }
            others.stream()
                    .map(SensorShelf.Known::fitted)
                    .filter(other -> other.number() != before.number() && other.channel() == channel)
                    .filter(other -> overlap(other, since.get(), until))
                    .findFirst()
                    .ifPresent(other -> form.wrong(
                            Field.SINCE, words.text("sensors.bad.taken", channel, words.date(other.fittedAt()))));
        }
        return since.filter(its -> !form.isWrong())
                .map(its -> new FittedSensor(before.number(), before.kiln(), channel, sensor, its, until));
    }

    private static boolean overlap(FittedSensor other, Instant since, Optional<Instant> until) {
        return until.map(other.fittedAt()::isBefore).orElse(true)
                && other.removedAt().map(since::isBefore).orElse(true);
    }

    Optional<Comparing> comparing() {
        boolean everywhere =
                form.text(Field.READS).isBlank() && form.text(Field.TRUTH).isBlank();
        Optional<Double> reads = Optional.of(0.0);
        Optional<Double> correction;
        if (everywhere) {
            correction = form.text(Field.OFFSET).isBlank() ? Optional.empty() : difference(Field.OFFSET);
            if (form.text(Field.OFFSET).isBlank()) {
                form.wrong(Field.READS, words.text("sensors.bad.nothing"));
            }
        } else {
            if (!form.text(Field.OFFSET).isBlank()) {
                form.wrong(Field.OFFSET, words.text("sensors.bad.both"));
            }
            reads = temperature(Field.READS);
            Optional<Double> truth = temperature(Field.TRUTH);
            Optional<Double> read = reads;
            correction = truth.flatMap(its -> read.map(from -> its - from));
        }
        Field where = everywhere ? Field.OFFSET : Field.TRUTH;
        if (correction.isPresent() && Math.abs(correction.get()) > LARGEST_CORRECTION_K) {
            form.wrong(
                    where,
                    words.text(
                            "sensors.bad.correction",
                            words.span(TemperatureDifference.ofKelvin(correction.get())),
                            words.span(TemperatureDifference.ofKelvin(LARGEST_CORRECTION_K))));
        }
        Optional<Double> within = difference(Field.WITHIN);
        if (within.isPresent() && (within.get() <= 0 || within.get() > LARGEST_CORRECTION_K)) {
            form.wrong(Field.WITHIN, words.text("sensors.bad.within"));
        }
        if (form.isWrong()) {
            return Optional.empty();
        }
        double readsC = reads.orElseThrow();
        if (form.sensor().orElseThrow().points().stream()
                .anyMatch(point -> everywhere
                        ? point.readingC().isEmpty()
                        : point.readingC().isPresent() && point.readingC().getAsDouble() == readsC)) {
            form.wrong(everywhere ? Field.OFFSET : Field.READS, words.text("sensors.bad.twice"));
            return Optional.empty();
        }
        return Optional.of(new Comparing(
                new Calibration.Point(
                        readsC,
                        correction.orElseThrow(),
                        within.orElseThrow(),
                        Calibration.By.valueOf(form.text(Field.AGAINST))),
                everywhere));
    }

    private SensorInPlace sensor() {
        Amplifier amplifier = Amplifier.valueOf(form.text(Field.AMPLIFIER));
        ThermocoupleType type = ThermocoupleType.valueOf(form.text(Field.TYPE));
        Optional<Amplifier> shows = form.text(Field.SHOWS).equals(SensorForm.TRUTH)
                ? Optional.empty()
                : Optional.of(Amplifier.valueOf(form.text(Field.SHOWS)));
        Amplifier chip = shows.orElse(amplifier);
        boolean cannot = amplifier != Amplifier.CELSIUS && shows.isPresent() && shows.get() != amplifier;
        if (cannot) {
            form.wrong(Field.SHOWS, words.text("sensors.bad.other_chip", amplifier));
        } else if (!chip.isMadeFor(type)) {
            form.wrong(Field.TYPE, words.text("sensors.bad.no_such_chip", chip, type));
        }
        return SensorInPlace.uncalibrated(
                        new Probe(type, amplifier),
                        name(Field.NAME),
                        name(Field.PLACE),
                        ToleranceClass.values()[Integer.parseInt(form.text(Field.TOLERANCE)) - 1])
                .shownBy(shows);
    }

    /** Any text there may be, in one line. */
    private String name(Field field) {
        String plain = form.text(field).replaceAll("[\\p{Cntrl}\\s]+", " ").strip();
        if (plain.codePointCount(0, plain.length()) > LONGEST_NAME) {
            form.wrong(field, words.text("sensors.bad.long", LONGEST_NAME));
        }
        return plain;
    }

    private Optional<Instant> unlessAsItWas(Field field, Optional<Instant> before) {
        return before.isPresent()
                        && words.date(before.get()).equals(form.text(field).strip())
                ? before
                : day(field);
    }

    private Optional<Instant> day(Field field) {
        ZoneId zone = words.preferences().zone();
        LocalDate today = LocalDate.ofInstant(now, zone);
        String text = form.text(field);
        Optional<LocalDate> day = text.isBlank() ? Optional.of(today) : DayText.day(text, today);
        if (day.isEmpty()) {
            form.wrong(field, words.text("sensors.bad.day", quoted(text), words.date(now)));
        } else if (day.get().isAfter(today)) {
            form.wrong(field, words.text("sensors.bad.to_come"));
        }
        // Noted today: from now on, so that this morning's firing keeps the sensor it had.
        return day.filter(its -> !its.isAfter(today))
                .map(its -> its.equals(today) ? now : its.atStartOfDay(zone).toInstant());
    }

    private void notBeforeTheLast(int channel, Instant at) {
        others.stream()
                .map(SensorShelf.Known::fitted)
                .filter(other -> other.channel() == channel && !at.isAfter(other.fittedAt()))
                .findFirst()
                .ifPresent(other -> form.wrong(
                        Field.SINCE, words.text("sensors.bad.taken", channel, words.date(other.fittedAt()))));
    }

    private Optional<Double> temperature(Field field) {
        String text = form.text(field).strip().replace('\u2212', '-');
        try {
            double celsius = UnitText.temperature(text.matches("[+-]?[0-9.,]+") ? text + " " + words.unit() : text)
                    .celsius();
            if (celsius >= -100 && celsius <= 1800) {
                return Optional.of(celsius);
            }
        } catch (UnitText.NotAQuantityException e) {
            // Said below, in the person's language.
        }
        form.wrong(field, words.text("sensors.bad.temperature", quoted(text), words.unit()));
        return Optional.empty();
    }

    /** In K; a bare number is in the person's unit. */
    private Optional<Double> difference(Field field) {
        String text = form.text(field).strip().replace('\u2212', '-');
        Matcher parts = DIFFERENCE.matcher(text);
        if (!parts.matches()) {
            form.wrong(
                    field,
                    words.text("sensors.bad.difference", quoted(text), words.span(TemperatureDifference.ofKelvin(5))));
            return Optional.empty();
        }
        double number = Double.parseDouble(parts.group(1).replace(',', '.'));
        boolean fahrenheit = parts.group(2) == null
                ? words.preferences().unit() == TemperatureUnit.FAHRENHEIT
                : parts.group(2).equals("F");
        return Optional.of(fahrenheit ? number / 1.8 : number);
    }

    private static String quoted(String text) {
        String plain = text.strip().replaceAll("\\p{Cntrl}", " ");
        return plain.codePointCount(0, plain.length()) <= LONGEST_QUOTED
                ? plain
                : plain.substring(0, plain.offsetByCodePoints(0, LONGEST_QUOTED - 1)) + "…";
    }
}
