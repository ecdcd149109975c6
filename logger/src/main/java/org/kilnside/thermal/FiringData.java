package org.kilnside.thermal;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.schedule.Schedule;

/** One course made ready for fitting: the drive, the free spans, the stretches of known power. */
final class FiringData {
    /** As many independent things a course says of the kind of wall, at most. */
    static final int INDEPENDENT = 40;

    /** A first reading this warm above ambient is a wall that has been heated before, K. */
    private static final double COLD_START_K = 25;

    /** By so much a kiln that nobody has heated is warmer than its room when it is lit, K. */
    private static final double LIT_ABOVE_ROOM_K = 1.5;

    /**
     * So much of the difference between the first reading and the room somebody gave is laid to the room: both are the room of a
     * moment, the one from memory or another thermometer, the other by the sensor that is asked about (own estimate: 4 and 3 K).
     */
    private static final double LIT_SHARE = 0.6;

    /** A first reading this far above the room given is an earlier firing's warmth, not the room's, K. */
    private static final double STILL_WARM_K = 16;

    /** A room somebody gave is moved by no more than this, K: between lighting and cooling a night may lie. */
    private static final double MOST_SHIFT_K = 5;

    /** A climb shorter than this tells of nothing, s. */
    private static final double SHORTEST_CLIMB_S = 3600;

    /** A log that begins while the kiln cools: nobody saw how the wall was heated. */
    private static final Prior.Soak FALLS_FROM_THE_FIRST = new Prior.Soak(1.0, 0.35);

    /**
     * A span without power.
     *
     * @param beginsAt index into the drive
     * @param modelK what the model may be off by at each point
     * @param readings how many readings a point is the mean of
     * @param readingK standard deviation of one reading
     * @param opened whether the leak is another one than before
     */
    record FreeSpan(
            int beginsAt,
            double[] timeS,
            double[] temperatureC,
            double[] modelK,
            int[] readings,
            double readingK,
            boolean opened) {

        /** Square of what the sensor may be off by at a point, K². */
        double noiseSquare(int point) {
            return readingK * readingK / readings[point];
        }
    }

    /** A stretch of heating with its mean output; from and to are indices into the drive. */
    record Powered(int from, int to, double output, double sigma) {
        Powered lessSure(double times) {
            return new Powered(from, to, output, sigma * times);
        }
    }

    /** What a fit is for: what is believed of a kiln beforehand goes with it. */
    private enum Question {
        ANY,
        COOLING_FROM_ITS_TOP,
        ITS_TOP
    }

    final Course course;
    final Phases phases;
    final Prior.Ambient ambient;
    final boolean ambientGiven;
    final double[] driveS;
    final double[] driveC;
    final List<FreeSpan> free;
    final List<Powered> powered;
    final boolean startsWarm;
    final OptionalDouble guessedFullForS;
    final double nowS;
    final double nowC;
    private final Optional<Prior.Soak> soak;
    private final LastSpan lastSpan;
    private final double powerStepS;
    private final Question question;

    private FiringData(
            Course course,
            Phases phases,
            Prior.Ambient ambient,
            boolean ambientGiven,
            Optional<Prior.Soak> soak,
            LastSpan lastSpan,
            double nowC,
            FiringLayout layout,
            double poweredAboveC) {
        this.course = course;
        this.phases = phases;
        this.ambient = ambient;
        this.ambientGiven = ambientGiven;
        this.soak = soak;
        startsWarm = soak.isPresent();
        this.lastSpan = lastSpan;
        this.nowC = nowC;
        nowS = course.lastS();
        driveS = layout.driveS();
        driveC = layout.driveC();
        free = List.copyOf(layout.free());
        powered = List.copyOf(PoweredStretches.told(course, driveS, driveC, poweredAboveC, coolsForS())
                .stretches());
        guessedFullForS = OptionalDouble.empty();
        powerStepS = Double.POSITIVE_INFINITY;
        question = Question.ANY;
    }

    private FiringData(
            FiringData other,
            List<FreeSpan> free,
            List<Powered> powered,
            OptionalDouble guessedFullForS,
            double powerStepS,
            Question question) {
        course = other.course;
        phases = other.phases;
        ambient = other.ambient;
        ambientGiven = other.ambientGiven;
        soak = other.soak;
        startsWarm = other.startsWarm;
        lastSpan = other.lastSpan;
        nowC = other.nowC;
        nowS = other.nowS;
        driveS = other.driveS;
        driveC = other.driveC;
        this.free = List.copyOf(free);
        this.powered = List.copyOf(powered);
        this.guessedFullForS = guessedFullForS;
        this.powerStepS = powerStepS;
        this.question = question;
    }

    static FiringData of(Course course, OptionalDouble givenAmbientC) {
        return of(course, givenAmbientC, List.of(), PoweredStretches.ABOVE_C);
    }

    /**
     * Makes a course ready.
     *
     * @param said what a person noted of the openings, in order
     * @param poweredAboveC from where on the output is held against the curve, °C
     */
    static FiringData of(Course course, OptionalDouble givenAmbientC, List<Ventilated> said, double poweredAboveC) {
        return of(course, Phases.of(course), givenAmbientC, said, poweredAboveC);
    }

    /** The same where it is known from elsewhere where the elements were on. */
    static FiringData of(
            Course course, Phases phases, OptionalDouble givenAmbientC, List<Ventilated> said, double poweredAboveC) {
        double first = course.temperatureC[0];
        Prior.Ambient ambient = ambient(first, givenAmbientC);
        Optional<Prior.Soak> soak = Optional.empty();
        if (first > ambient.celsius() + COLD_START_K) {
            boolean falling =
                    course.line(course.timeS[0], course.timeS[0] + 1800).slopeKS() < 0;
            soak = Optional.of(falling ? FALLS_FROM_THE_FIRST : new Prior.Soak(0.6, 0.3));
        }
        LastSpan lastSpan = LastSpan.of(course, phases, said);
        List<Phases.Span> spans = phases.free();
        double now = course.lastS();
        double freeFrom = spans.isEmpty() || !phases.coolingNow() || phases.drivenNow()
                ? course.timeS[0]
                : course.timeS[spans.get(spans.size() - 1).from()];
        double nowC = course.smoothAt(now, freeFrom, now);
        FiringLayout layout = FiringLayout.of(course, spans, lastSpan, ambient.celsius(), nowC, freeFrom);
        return new FiringData(
                course, phases, ambient, givenAmbientC.isPresent(), soak, lastSpan, nowC, layout, poweredAboveC);
    }

    /**
     * A cold kiln is as warm as its room, or a little warmer; what somebody gives is the room at the moment they looked. An
     * unheated room is a few kelvins off either for most of the hours a kiln cools, so neither is believed to be the room of all of
     * them: between the two, and as wide as they and a day and a night leave it.
     */
    private static Prior.Ambient ambient(double firstC, OptionalDouble given) {
        double lit = firstC - LIT_ABOVE_ROOM_K;
        if (given.isPresent()) {
            double apart = lit - given.getAsDouble();
            double trust = Math.max(0, Math.min(1, (STILL_WARM_K - apart) / (STILL_WARM_K / 2)));
            double shift = Math.max(-MOST_SHIFT_K, Math.min(MOST_SHIFT_K, LIT_SHARE * trust * apart));
            return new Prior.Ambient(given.getAsDouble() + shift, Math.hypot(Prior.GIVEN_AMBIENT_K, shift));
        }
        if (firstC < 32) {
            return new Prior.Ambient(lit, 4);
        }
        return new Prior.Ambient(15, 8);
    }

    /** The same with a guess of the output where the controller gives none. */
    FiringData withGuessedPower(Optional<Schedule> plan) {
        PoweredStretches guessed = PoweredStretches.guessed(course, driveS, driveC, plan);
        return new FiringData(this, free, guessed.stretches(), guessed.fullForS(), powerStepS, question);
    }

    /** The same for how a kiln on its way up will cool once it is there. */
    FiringData forItsCooling() {
        List<Powered> told = PoweredStretches.ofAClimb(course, driveS, driveC);
        return new FiringData(
                this,
                free,
                told.isEmpty() ? powered : told,
                guessedFullForS,
                powerStepS,
                Question.COOLING_FROM_ITS_TOP);
    }

    /** The same for how much a kiln that was seen to cool before holds today; empty where no output is told. */
    Optional<FiringData> forItsLoad() {
        List<Powered> told = PoweredStretches.ofAClimb(course, driveS, driveC);
        return told.isEmpty()
                ? Optional.empty()
                : Optional.of(new FiringData(this, free, told, guessedFullForS, powerStepS, question));
    }

    /** The same, what the output tells less sure so many times. */
    FiringData lessSure(double times) {
        List<Powered> unsure =
                powered.stream().map(each -> each.lessSure(times)).toList();
        return new FiringData(this, free, unsure, guessedFullForS, powerStepS, question);
    }

    /** What was seen of this firing when it had climbed to a temperature, or to its highest; empty where it began no colder. */
    Optional<FiringData> climbUntil(double celsius) {
        double untilC = Math.min(
                celsius,
                Arrays.stream(course.temperatureC, 0, course.size).max().orElseThrow());
        int at = 0;
        while (course.temperatureC[at] < untilC) {
            at++;
        }
        return course.timeS[at] - course.timeS[0] < SHORTEST_CLIMB_S
                ? Optional.empty()
                : Optional.of(of(course.until(course.timeS[at]), OptionalDouble.of(ambient.celsius())));
    }

    /** The same for where a kiln on its way up will get to with the output it tells. */
    FiringData forItsTop() {
        return new FiringData(
                this,
                free,
                PoweredStretches.lately(course, driveS, driveC),
                guessedFullForS,
                powerStepS,
                Question.ITS_TOP);
    }

    /** The same, the elements having had another strength since a moment. */
    FiringData withPowerStep(double sinceS) {
        return new FiringData(this, free, powered, guessedFullForS, sinceS, question);
    }

    /** The same, nothing of it taken for a kiln left alone. */
    FiringData asIfHeldUntilNow() {
        return new FiringData(this, List.of(), powered, guessedFullForS, powerStepS, question);
    }

    /** Whether the newest reading comes without an output. */
    boolean outputUntoldNow() {
        return Double.isNaN(course.output[course.last()]);
    }

    /** Whether no reading tells the output. */
    boolean outputUntold() {
        return Arrays.stream(course.output, 0, course.size).allMatch(Double::isNaN);
    }

    /** Whether the log begins when its heating was over. */
    boolean heatingUnseen() {
        return soak.filter(FALLS_FROM_THE_FIRST::equals).isPresent();
    }

    /** Sets a slab to the log's beginning. */
    void start(WallSlab slab, KilnParameters kiln, double soaked) {
        slab.use(kiln);
        if (startsWarm) {
            slab.startSoaked(driveC[0], soaked);
        } else {
            slab.startUniform(driveC[0]);
        }
    }

    Prior prior(WallKind kind) {
        Prior usual = Prior.of(
                kind,
                ambient,
                !powered.isEmpty(),
                soak,
                lastSpan.anyOpened(),
                !powered.isEmpty() && Double.isFinite(powerStepS),
                seesQuartzTurn(),
                takesBoundWater());
        Prior prior = lastSpan.believed(usual);
        return switch (question) {
            case ANY -> prior;
            case COOLING_FROM_ITS_TOP -> prior.notSeenToCool(kind, !outputUntold());
            case ITS_TOP -> prior.firesAsBuilt(kind);
        };
    }

    /** Whether the power of some stretch may have gone into bound water. */
    private boolean takesBoundWater() {
        return powered.stream().anyMatch(each -> BoundWaterLeaving.mayLeave(driveC[each.from()], driveC[each.to()]));
    }

    /** Whether some free span comes by where the ware's quartz turns. */
    private boolean seesQuartzTurn() {
        return free.stream()
                .map(FreeSpan::temperatureC)
                .anyMatch(span -> span.length > 0 && QuartzTurning.isBetween(span[0], span[span.length - 1]));
    }

    int observations() {
        int count = powered.size();
        for (FreeSpan span : free) {
            count += span.timeS().length;
        }
        return count;
    }

    /** The last point of the drive that any residual needs: what comes after it, free spans have in themselves. */
    int lastUsed() {
        int last = 0;
        for (FreeSpan span : free) {
            last = Math.max(last, span.beginsAt());
        }
        for (Powered stretch : powered) {
            last = Math.max(last, stretch.to());
        }
        return last;
    }

    /** Whether most of a stretch lies after the step of the elements' strength. */
    boolean afterPowerStep(Powered stretch) {
        return (driveS[stretch.from()] + driveS[stretch.to()]) / 2 > powerStepS;
    }

    /** For how long the kiln has been left to cool by now, s; 0 while it is not. */
    private double coolsForS() {
        return phases.coolingNow() && !phases.drivenNow() && !phases.free().isEmpty()
                ? nowS
                        - course.timeS[
                                phases.free().get(phases.free().size() - 1).from()]
                : 0;
    }

    /**
     * Which part of the time since the heating was last seen nobody saw, 0 … 1: a log that falls silent before the elements
     * go off leaves open for how long they went on and how the kiln came down.
     */
    double unseenSinceTop() {
        List<Phases.Span> spans = phases.free();
        if (spans.isEmpty() || phases.drivenNow()) {
            return 0;
        }
        int first = spans.get(spans.size() - 1).from();
        double heated = course.timeS[Math.max(0, first - 1)];
        boolean toldOff = !Double.isNaN(course.output[first]);
        if (toldOff && !course.overlapsGap(heated, course.timeS[first])) {
            return 0;
        }
        double seen = course.afterGaps(heated, course.timeS[first] + FiringLayout.SETTLING_S);
        return seen > heated ? (seen - heated) / Math.max(1, nowS - heated) : 0;
    }

    /** For how long the kiln has been seen left to itself, s; 0 where it is not. */
    double leftAloneForS() {
        List<Phases.Span> spans = phases.free();
        if (spans.isEmpty() || phases.drivenNow()) {
            return 0;
        }
        double begin = course.timeS[spans.get(spans.size() - 1).from()];
        return nowS - course.afterGaps(begin, begin + FiringLayout.SETTLING_S);
    }

    /** Whether something is open now that was shut when the cooling began. */
    boolean openedNow() {
        return lastSpan.openedNow();
    }

    /** When that was opened; only where something is. */
    double openedS() {
        return lastSpan.openedS();
    }
}
