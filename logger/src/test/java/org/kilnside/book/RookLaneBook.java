package org.kilnside.book;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.FiringEvent.Kind;
import org.kilnside.firing.GlazeMix;
import org.kilnside.firing.LoadedBatch;
import org.kilnside.firing.Outcome;
import org.kilnside.firing.Reading;
import org.kilnside.heatwork.Cone;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.session.FiringBook.FiringStart;

/**
 * A firing book of Rook Lane Pottery as it might look after some seasons: bisque and glaze firings of "Tall Drum" in turn,
 * now and then one of the test kiln "Thimble". The same seed gives the same book.
 */
public final class RookLaneBook {
    private static final Instant NEWEST = Instant.parse("2026-11-20T06:40:00Z");
    private static final long MINUTE = 60_000;

    private RookLaneBook() {}

    /**
     * Writes the book.
     *
     * @param firings how many
     * @param everyMs the time between readings, ms
     */
    public static void write(Path path, int firings, long everyMs) {
        try (BookRecorder recorder = BookRecorder.open(path)) {
            bringIn(recorder, firings, everyMs);
        }
    }

    /** A few firings, a reading every five minutes. */
    static void bringIn(BookRecorder recorder, int firings) {
        bringIn(recorder, firings, 300_000);
    }

    private static void bringIn(BookRecorder recorder, int firings, long everyMs) {
        Random random = new Random(1125);
        for (int i = 0; i < firings; i++) {
            recorder.importFiring(firing(i, firings, everyMs, random));
        }
    }

    /** Writes what was in the newest firings, and how it came out. */
    public static void describeLoads(Path path) {
        try (Book book = Book.open(path)) {
            List<ListedFiring> firings = book.list();
            describe(
                    book,
                    firings.get(0).number(),
                    "soup bowls",
                    24,
                    "Saltmarsh",
                    6.5,
                    "Mix 14",
                    "Oatmeal 3 + Rainwater 1",
                    2,
                    "middle",
                    Outcome.SECOND,
                    "pinholes on five of them, all near the bung");
            describe(
                    book,
                    firings.get(0).number(),
                    "planters",
                    6,
                    "Grey Ash",
                    11,
                    "Iron Moth",
                    "",
                    3,
                    "bottom",
                    Outcome.WELL,
                    "");
            describe(
                    book,
                    firings.get(0).number(),
                    "wall tiles",
                    40,
                    "Saltmarsh",
                    8,
                    "Rainwater",
                    "",
                    2,
                    "top",
                    Outcome.NOT_SAID,
                    "");
            describe(
                    book,
                    firings.get(1).number(),
                    "soup bowls",
                    24,
                    "Saltmarsh",
                    6.5,
                    "",
                    "",
                    0,
                    "middle",
                    Outcome.WELL,
                    "");
            book.addWitnessCones(
                    firings.get(0).number(),
                    List.of(
                            cone("middle", "6", 120),
                            cone("middle", "7", 85),
                            cone("middle", "8", 12),
                            cone("bottom", "6", 92),
                            cone("bottom", "7", 30),
                            cone("bottom", "8", 0)));
            book.apply(
                    new BookEdit.Notes(
                            firings.get(0).number(),
                            book.record(firings.get(0).number()).notes(),
                            Optional.of(
                                    "Cold night, 2 °C in the studio. Bung out until 600 °C. The bowls for the café's Friday.")));
        }
    }

    private static NotedCone cone(String shelf, String number, double degrees) {
        return new NotedCone(
                0,
                shelf,
                ConeSeries.SELF_SUPPORTING,
                Cone.parse(number),
                OptionalDouble.of(degrees),
                OptionalLong.empty());
    }

    private static void describe(
            Book book,
            long firing,
            String name,
            int pieces,
            String clay,
            double thicknessMm,
            String glaze,
            String mix,
            int coats,
            String shelf,
            Outcome outcome,
            String remark) {
        LoadedBatch bare = book.addBatch(firing, name).after().orElseThrow();
        book.apply(new BookEdit.Loaded(
                firing,
                Optional.of(bare),
                Optional.of(new LoadedBatch(
                        bare.number(),
                        bare.batch(),
                        name,
                        OptionalInt.of(pieces),
                        Optional.of(clay),
                        OptionalDouble.of(thicknessMm),
                        Optional.of(glaze).filter(text -> !text.isEmpty()),
                        GlazeMix.parse(mix),
                        coats == 0 ? OptionalInt.empty() : OptionalInt.of(coats),
                        Optional.of(shelf),
                        outcome,
                        Optional.of(remark).filter(text -> !text.isEmpty())))));
    }

    private static FinishedFiring firing(int index, int count, long everyMs, Random random) {
        boolean thimble = index % 9 == 5;
        boolean glaze = index % 2 == 1;
        double topC = (glaze ? 1222 : 998) + random.nextGaussian() * 4 - (index % 7 == 3 ? 38 : 0);
        double litC = 4 + random.nextInt(18);
        double delayMin = 12 + random.nextInt(20);
        double slow = 0.92 + random.nextDouble() * 0.3;
        double[][] corners = {
            {delayMin, litC},
            {delayMin + (120 - litC) * 0.9, 120},
            {delayMin + (120 - litC) * 0.9 + (glaze ? 15 : 60), 120},
            {delayMin + (120 - litC) * 0.9 + (glaze ? 15 : 60) + (600 - 120) * (glaze ? 0.35 : 0.6) * slow, 600},
            {
                delayMin
                        + (120 - litC) * 0.9
                        + (glaze ? 15 : 60)
                        + (600 - 120) * (glaze ? 0.35 : 0.6) * slow
                        + (topC - 600) * 0.45 * slow,
                topC
            },
            {
                delayMin
                        + (120 - litC) * 0.9
                        + (glaze ? 15 : 60)
                        + (600 - 120) * (glaze ? 0.35 : 0.6) * slow
                        + (topC - 600) * 0.45 * slow
                        + 15,
                topC
            },
        };
        double coolingMin = corners[5][0];
        double lengthMin = coolingMin + (thimble ? 300 : 380) * Math.log(topC / 40) * (thimble ? 0.4 : 1);
        List<Reading> readings = new ArrayList<>();
        double slowness = thimble ? 120 : 380;
        for (long ms = 0; ms < lengthMin * MINUTE; ms += everyMs) {
            double minutes = ms / (double) MINUTE;
            double wobble = Math.sin(minutes / 2.3) * 0.7 + Math.sin(minutes / 0.37) * 0.15;
            double celsius = minutes < coolingMin
                    ? along(corners, minutes) + (minutes > delayMin ? wobble : 0)
                    : litC + (topC - litC) * Math.exp(-(minutes - coolingMin) / slowness);
            readings.add(SomeReadings.celsius(ms, celsius));
        }
        Instant started = NEWEST.minus(Duration.ofHours(52L * (count - 1 - index) + random.nextInt(9)));
        Schedule plan = new Schedule(
                glaze ? "Glaze to cone 6" : "Bisque",
                List.of(
                        ramp(67, 120, glaze ? 15 : 60),
                        ramp(glaze ? 170 : 100, 600, 0),
                        ramp(133, glaze ? 1222 : 998, 15),
                        new Segment.FreeCooling()));
        long lit = (long) (delayMin * MINUTE);
        List<FiringEvent> events = new ArrayList<>(List.of(
                FiringEvent.of(0, Kind.RECORDING_BEGAN),
                FiringEvent.of(lit, Kind.FIRING_BEGAN),
                FiringEvent.of((long) (corners[1][0] * MINUTE), Kind.HOLD_BEGAN),
                FiringEvent.of((long) (corners[3][0] * MINUTE), Kind.NOTE, "Bung in"),
                FiringEvent.of((long) (corners[4][0] * MINUTE), Kind.TOP_REACHED),
                FiringEvent.of((long) (coolingMin * MINUTE), Kind.COOLING_BEGAN),
                FiringEvent.of((long) (lengthMin * MINUTE), Kind.FIRING_ENDED)));
        return new FinishedFiring(
                new FiringStart(
                        Optional.of(thimble ? "Thimble" : "Tall Drum"),
                        "/dev/ttyUSB0",
                        started,
                        Optional.of(plan),
                        Optional.empty(),
                        ConeSeries.USUAL),
                List.of(new SensorEpoch(0, List.of(SomeReadings.TYPE_K))),
                readings,
                events,
                List.of(),
                index % 4 == 0
                        ? Optional.of("test tiles, numbered mixes " + index + " to " + (index + 5))
                        : Optional.empty(),
                index % 6 == 1 ? Optional.of("Iron Moth ran on the planters") : Optional.empty(),
                (long) (lengthMin * MINUTE));
    }

    private static double along(double[][] corners, double minutes) {
        for (int i = 1; i < corners.length; i++) {
            if (minutes < corners[i][0]) {
                double gone = Math.max(0, minutes - corners[i - 1][0]);
                double share = gone / (corners[i][0] - corners[i - 1][0]);
                return corners[i - 1][1] + share * (corners[i][1] - corners[i - 1][1]);
            }
        }
        return corners[corners.length - 1][1];
    }

    private static Segment.Ramp ramp(double kelvinPerHour, double celsius, int holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(kelvinPerHour),
                Temperature.ofCelsius(celsius),
                Duration.ofMinutes(holdMinutes));
    }
}
