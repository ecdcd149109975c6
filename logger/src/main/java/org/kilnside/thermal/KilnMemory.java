package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;

/**
 * What earlier firings of the same kiln taught. Not its parameters, which would only repeat the model's own bias, but
 * that bias: each firing's log is asked, at 900, 800 … 150 °C falling, when it would be below some temperatures, and
 * ln(true remaining time / forecast) is kept. Immutable.
 */
public final class KilnMemory {
    /** When something was opened is known no better than this, s. */
    private static final double NOT_NEAR_AN_OPENING_S = 600;

    /** Where on the way down an earlier log is asked, °C. */
    private static final double[] ASKED_AT_C = {900, 800, 700, 600, 500, 400, 300, 200, 150};

    /** What it is asked for, °C, falling. */
    private static final double[] THRESHOLDS_C = {200, 160, 120, 90, 60, 50};

    /** Weight of "no bias" in firings: how far a mean of few is shrunk towards none. */
    private static final double SHRINK = 0.35;

    /** A wall kind ruled out by earlier firings to this part is not fitted any more. */
    private static final double LEAST_WEIGHT = 0.03;

    /** A firing may speak for one kind of wall against another twenty to one, not more: the model is not that good at telling. */
    private static final double MOST_ODDS = 20;

    /** A log that begins this cold, °C, and as near to the room given for today, K, tells its own room. */
    private static final double COLD_START_C = 32;

    private static final double SAME_ROOM_K = 15;

    /** A kiln lit cold is about this much warmer than its room, K (own estimate). */
    private static final double WARMER_THAN_ROOM_K = 0.7;

    /**
     * Firings that had been left alone for times differing by this much, ln, teach one another 0.6 of what like ones do:
     * soon after the top the forecast errs by what load and elements still do, later by wall and leak (own estimate).
     */
    private static final double UNLIKE = 0.5;

    /** A kiln nobody has told or seen anything of: how common the kinds of wall are (common practice). */
    private static final Map<WallKind, Double> USUAL =
            Map.of(WallKind.BRICK, 0.72, WallKind.LAYERED, 0.18, WallKind.FIBRE, 0.1);

    private final Map<WallKind, Double> kinds;
    private final Optional<Kiln> described;
    private final List<Lesson> lessons;
    private final List<FittedKiln> kilns;

    /** ln(true / forecast) of one firing: asked × threshold, NaN where it cannot be known; left alone so long by then. */
    private record Lesson(double[][] bias, double[] leftAloneS) {
        static Lesson empty() {
            double[][] bias = new double[ASKED_AT_C.length][THRESHOLDS_C.length];
            for (double[] row : bias) {
                Arrays.fill(row, Double.NaN);
            }
            return new Lesson(bias, new double[ASKED_AT_C.length]);
        }
    }

    private KilnMemory(
            Map<WallKind, Double> kinds, List<Lesson> lessons, List<FittedKiln> kilns, Optional<Kiln> described) {
        this.described = described;
        this.kinds = kinds;
        this.kilns = List.copyOf(kilns);
        this.lessons = List.copyOf(lessons);
    }

    /** Nothing seen; the kind of wall where its owner said it. */
    public static KilnMemory none(Optional<WallKind> kind) {
        return new KilnMemory(
                kind.map(known -> Map.of(known, 1.0)).orElse(USUAL), List.of(), List.of(), Optional.empty());
    }

    /**
     * Learns from earlier firings of one kiln.
     *
     * @param earlier their curves, oldest first; those that did not cool far enough teach nothing
     * @param kind the kiln's wall, where its owner said it
     * @param ambientC the room, where known; a firing lit cold on another day tells its own
     */
    public static KilnMemory of(List<Trace> earlier, Optional<WallKind> kind, OptionalDouble ambientC) {
        KilnMemory memory = none(kind);
        List<Course> courses = new ArrayList<>();
        for (Trace trace : earlier) {
            if (trace.size() >= 20) {
                Course whole = Course.of(trace);
                Jumps jumps = Jumps.of(ContradictedOutput.isIn(whole) ? whole.withoutOutput() : whole);
                if (!jumps.stays()) {
                    courses.add(jumps.course());
                }
            }
        }
        if (kind.isEmpty()) {
            for (Course course : courses) {
                memory = memory.withKindsOf(course, room(course, ambientC));
            }
        }
        List<Lesson> lessons = new ArrayList<>();
        for (Course course : courses) {
            memory.lesson(course, room(course, ambientC)).ifPresent(lessons::add);
        }
        List<FittedKiln> kilns = new ArrayList<>();
        for (Course course : courses) {
            FiringData data = FiringData.of(course, room(course, ambientC));
            if (!data.free.isEmpty() || !data.powered.isEmpty()) {
                kilns.add(memory.fit(data).get(0).fit());
            }
        }
        return new KilnMemory(memory.kinds, lessons, kilns, Optional.empty());
    }

    private static OptionalDouble room(Course course, OptionalDouble todayC) {
        double first = course.temperatureC[0];
        return todayC.isPresent() && first < COLD_START_C && Math.abs(first - todayC.getAsDouble()) < SAME_ROOM_K
                ? OptionalDouble.of(first - WARMER_THAN_ROOM_K)
                : todayC;
    }

    /** The same with its owner's description, for as long as no earlier firing says more. */
    public KilnMemory describedAs(Kiln kiln) {
        return new KilnMemory(kinds, lessons, kilns, Optional.of(kiln));
    }

    /** As its owner describes it; empty where its firings say more, or nobody has. */
    Optional<Kiln> described() {
        return described.filter(kiln -> kilns.isEmpty());
    }

    /** How many earlier firings taught something. */
    public int firings() {
        return lessons.size();
    }

    /** Whether no earlier firing said anything of the kiln. */
    public boolean isEmpty() {
        return kilns.isEmpty();
    }

    /** How probable each kind of wall is. */
    Map<WallKind, Double> kinds() {
        return kinds;
    }

    /** What each earlier firing said of the kiln, oldest first. */
    List<FittedKiln> kilns() {
        return kilns;
    }

    /** The last earlier firing whose output is known. */
    Optional<FittedKiln> lastWithPower() {
        FittedKiln last = null;
        for (FittedKiln each : kilns) {
            last = each.prior().hasPower() ? each : last;
        }
        return Optional.ofNullable(last);
    }

    /** Fits a firing with every kind of wall that is still possible. */
    List<FiringFit.Weighted> fit(FiringData data) {
        List<WallKind> possible = new ArrayList<>();
        List<Double> weights = new ArrayList<>();
        for (WallKind kind : WallKind.values()) {
            double weight = kinds.getOrDefault(kind, 0.0);
            if (weight >= LEAST_WEIGHT) {
                possible.add(kind);
                weights.add(weight);
            }
        }
        return FiringFit.all(
                data,
                possible,
                weights.stream().mapToDouble(Double::doubleValue).toArray());
    }

    private KilnMemory withKindsOf(Course course, OptionalDouble ambientC) {
        FiringData data = FiringData.of(course, ambientC);
        if (data.free.isEmpty()) {
            return this;
        }
        List<FiringFit.Weighted> fits = fit(data);
        double most = fits.stream().mapToDouble(this::likelihood).max().orElseThrow();
        Map<WallKind, Double> learned = new EnumMap<>(WallKind.class);
        for (FiringFit.Weighted each : fits) {
            WallKind kind = each.fit().kind();
            learned.put(kind, kinds.get(kind) * Math.max(likelihood(each), most / MOST_ODDS));
        }
        double sum = learned.values().stream().mapToDouble(Double::doubleValue).sum();
        learned.replaceAll((kind, weight) -> weight / sum);
        return new KilnMemory(learned, lessons, kilns, described);
    }

    /** How well a kind of wall explains the firing it was fitted to, up to a factor they all have. */
    private double likelihood(FiringFit.Weighted fit) {
        return fit.weight() / kinds.get(fit.fit().kind());
    }

    private Optional<Lesson> lesson(Course whole, OptionalDouble ambientC) {
        Course course = untilOpened(whole);
        Phases phases = Phases.of(course);
        if (!phases.coolingNow() || phases.drivenNow() || phases.free().isEmpty()) {
            return Optional.empty();
        }
        Phases.Span span = phases.free().get(phases.free().size() - 1);
        Lesson lesson = Lesson.empty();
        boolean any = false;
        for (int a = 0; a < ASKED_AT_C.length; a++) {
            double asked = firstBelow(course, span, ASKED_AT_C[a]);
            if (Double.isNaN(asked) || asked < course.timeS[span.from()] + 900) {
                continue;
            }
            FiringData data = FiringData.of(course.until(asked), ambientC);
            if (!data.phases.coolingNow() || data.phases.drivenNow() || data.free.isEmpty()) {
                continue;
            }
            lesson.leftAloneS()[a] = data.leftAloneForS();
            Spread[] remaining = CoolingForecast.remaining(data, fit(data), THRESHOLDS_C, Optional.empty());
            for (int i = 0; i < THRESHOLDS_C.length; i++) {
                double truth = firstBelow(course, span, THRESHOLDS_C[i]) - asked;
                if (truth > 300 && THRESHOLDS_C[i] < ASKED_AT_C[a] - 20 && remaining[i].isKnown()) {
                    lesson.bias()[a][i] = Math.log(truth) - remaining[i].mean();
                    any = true;
                }
            }
        }
        return any ? Optional.of(lesson) : Optional.empty();
    }

    /** What was opened on the way teaches nothing of a shut kiln; what went before does. */
    private static Course untilOpened(Course course) {
        Phases phases = Phases.of(course);
        return phases.bends().stream()
                .filter(bend -> Kinks.lasts(
                        course, phases.free().get(phases.free().size() - 1).from(), bend))
                .findFirst()
                .map(bend -> course.until(course.timeS[bend.at()] - NOT_NEAR_AN_OPENING_S))
                .orElse(course);
    }

    private static double firstBelow(Course course, Phases.Span span, double celsius) {
        if (course.temperatureC[span.from()] <= celsius) {
            return Double.NaN;
        }
        for (int i = span.from() + 1; i <= span.to(); i++) {
            if (course.temperatureC[i] < celsius) {
                double part =
                        (course.temperatureC[i - 1] - celsius) / (course.temperatureC[i - 1] - course.temperatureC[i]);
                return course.timeS[i - 1] + part * (course.timeS[i] - course.timeS[i - 1]);
            }
        }
        return Double.NaN;
    }

    /**
     * What to add to ln of a forecast's remaining time.
     *
     * @param askedAtC the temperature now
     * @param leftAloneForS for how long the elements have been off
     * @param thresholdC the one asked for
     */
    Correction correction(double askedAtC, double leftAloneForS, double thresholdC) {
        List<Taught> all = lessons.stream()
                .map(lesson -> taught(lesson, askedAtC, leftAloneForS, thresholdC))
                .flatMap(Optional::stream)
                .toList();
        double firings = all.stream().mapToDouble(Taught::weight).sum();
        double sum =
                all.stream().mapToDouble(each -> each.weight() * each.bias()).sum();
        double mean = sum / Math.max(1e-9, firings);
        double squares = all.stream()
                .mapToDouble(each -> each.weight() * (each.bias() - mean) * (each.bias() - mean))
                .sum();
        return new Correction(sum / (firings + SHRINK), firings, squares);
    }

    /**
     * What earlier firings correct.
     *
     * @param firings how many it is learned from; one that was not quite like this counts for less than one
     * @param squares sum of the squares by which they differ from their mean
     */
    record Correction(double log, double firings, double squares) {
        static final Correction NONE = new Correction(0, 0, 0);
    }

    /** What one lesson says to a question, and how much that is worth. */
    private record Taught(double bias, double weight) {}

    /** Between the questions a lesson was asked: linear in both temperatures, the nearest where one is missing. */
    private static Optional<Taught> taught(Lesson lesson, double askedAtC, double leftAloneForS, double thresholdC) {
        int upper = 0;
        while (upper + 1 < ASKED_AT_C.length - 1 && ASKED_AT_C[upper + 1] > askedAtC) {
            upper++;
        }
        double above = atThreshold(lesson.bias()[upper], thresholdC);
        double below = atThreshold(lesson.bias()[upper + 1], thresholdC);
        if (Double.isNaN(above) && Double.isNaN(below)) {
            return Optional.empty();
        }
        double part = (ASKED_AT_C[upper] - askedAtC) / (ASKED_AT_C[upper] - ASKED_AT_C[upper + 1]);
        part = Double.isNaN(above) ? 1 : Double.isNaN(below) ? 0 : Math.max(0, Math.min(1, part));
        double bias = (part == 1 ? 0 : (1 - part) * above) + (part == 0 ? 0 : part * below);
        double then = (part == 1 ? 0 : (1 - part) * Math.log(lesson.leftAloneS()[upper]))
                + (part == 0 ? 0 : part * Math.log(lesson.leftAloneS()[upper + 1]));
        double unlike = (Math.log(Math.max(1, leftAloneForS)) - then) / UNLIKE;
        return Optional.of(new Taught(Math.max(-0.4, Math.min(0.4, bias)), Math.exp(-0.5 * unlike * unlike)));
    }

    private static double atThreshold(double[] bias, double thresholdC) {
        int nearest = -1;
        for (int i = 0; i < THRESHOLDS_C.length; i++) {
            if (!Double.isNaN(bias[i])
                    && (nearest < 0
                            || Math.abs(THRESHOLDS_C[i] - thresholdC) < Math.abs(THRESHOLDS_C[nearest] - thresholdC))) {
                nearest = i;
            }
        }
        if (nearest < 0) {
            return Double.NaN;
        }
        int other = thresholdC > THRESHOLDS_C[nearest] ? nearest - 1 : nearest + 1;
        if (other < 0
                || other >= THRESHOLDS_C.length
                || Double.isNaN(bias[other])
                || thresholdC == THRESHOLDS_C[nearest]) {
            return bias[nearest];
        }
        double part = (THRESHOLDS_C[nearest] - thresholdC) / (THRESHOLDS_C[nearest] - THRESHOLDS_C[other]);
        return bias[nearest] + part * (bias[other] - bias[nearest]);
    }
}
