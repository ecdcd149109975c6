package org.kilnside.wording;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Supplier;
import org.kilnside.Once;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.firing.WallClockLine;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Share;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.TemperatureDifference;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.SensorFault;
import org.kilnside.sensor.SensorUncertainty;
import org.kilnside.session.Connection;
import org.kilnside.session.Findings;
import org.kilnside.session.FiringBook;
import org.kilnside.session.ForecastRequest;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.ModelForecaster;
import org.kilnside.session.Snapshot;
import org.kilnside.tracking.PlanPosition;

/** A bisque firing of "Tall Drum" at Rook Lane Pottery, as the session would show it at some moments. */
public final class SampleSnapshots {
    public static final Instant BEGAN = Instant.parse("2026-11-25T06:30:00Z");

    /** The host's monotonic clock when the newest reading came, ms. */
    public static final long HOST_MS = 50_000_000;

    public static final Schedule BISQUE = new Schedule(
            "Bisque",
            Optional.of("cone 06"),
            Optional.empty(),
            Optional.empty(),
            List.of(ramp(60, 120, 60), ramp(100, 600, 0), ramp(150, 998, 15), new Segment.FreeCooling()));

    private static final long MINUTE = 60_000;

    // Forecasts take their time and snapshots never change.
    private static final Supplier<Snapshot> HEATING_FORECAST =
            Once.of(() -> new Moment().workedOut().build());
    private static final Supplier<Snapshot> HOLDING_FORECAST =
            Once.of(() -> holdingMoment().workedOut().build());
    private static final Supplier<Snapshot> COOLING_FORECAST =
            Once.of(() -> coolingMoment().workedOut().build());
    private static final Supplier<Snapshot> HOLDING_LARGE_CONES = Once.of(() -> {
        Moment moment = holdingMoment();
        moment.series = ConeSeries.LARGE;
        return moment.workedOut().build();
    });

    private SampleSnapshots() {}

    /** On the second ramp, six minutes behind, at 412 °C. */
    public static Snapshot heating() {
        return new Moment().build();
    }

    /** The same with cone and forecast. */
    public static Snapshot heatingForecast() {
        return HEATING_FORECAST.get();
    }

    /** At the top, twelve minutes of hold left. */
    public static Snapshot holding() {
        return holdingMoment().build();
    }

    /** The same with cone and forecast. */
    public static Snapshot holdingForecast() {
        return HOLDING_FORECAST.get();
    }

    /** The same by the large cones that stand in the kiln. */
    public static Snapshot holdingLargeCones() {
        return HOLDING_LARGE_CONES.get();
    }

    private static Moment holdingMoment() {
        Moment moment = new Moment();
        moment.minutes = 655;
        moment.stage = Snapshot.Stage.HOLDING;
        moment.leg = PlanPosition.Leg.HOLD;
        moment.segment = 3;
        moment.holdLeft = Optional.of(Duration.ofMinutes(12));
        return moment;
    }

    /** The elements are off since three hours. */
    public static Snapshot cooling() {
        return coolingMoment().build();
    }

    /** The same with cone and forecast. */
    public static Snapshot coolingForecast() {
        return COOLING_FORECAST.get();
    }

    private static Moment coolingMoment() {
        Moment moment = new Moment();
        moment.minutes = 845;
        moment.stage = Snapshot.Stage.COOLING;
        moment.leg = PlanPosition.Leg.FREE_COOLING;
        moment.segment = 4;
        return moment;
    }

    /** All is over: 46 °C. */
    public static Snapshot ended() {
        Moment moment = new Moment();
        moment.minutes = 1900;
        moment.stage = Snapshot.Stage.ENDED;
        moment.leg = PlanPosition.Leg.DONE;
        moment.segment = 4;
        return moment.workedOut().build();
    }

    /** The thermocouple has broken. */
    public static Snapshot faulted() {
        Moment moment = new Moment();
        moment.faults = List.of(SensorFault.OPEN_CIRCUIT);
        return moment.build();
    }

    public static Snapshot waiting() {
        Moment moment = new Moment();
        moment.minutes = 20;
        moment.stage = Snapshot.Stage.WAITING_TO_START;
        moment.leg = PlanPosition.Leg.WAITING;
        moment.segment = 1;
        return moment.build();
    }

    /** Nothing has come yet. */
    public static Snapshot nothingYet(Connection.State state) {
        return new Snapshot(
                1,
                OptionalLong.empty(),
                Optional.of("Tall Drum"),
                "serial:/dev/ttyUSB0?baud=115200",
                1,
                Snapshot.Stage.NO_READING_YET,
                Optional.empty(),
                Optional.empty(),
                new Connection(state, HOST_MS, Optional.empty(), Connection.Counts.NONE),
                Optional.empty(),
                Snapshot.Rates.UNKNOWN,
                Optional.of(BISQUE),
                Optional.empty(),
                Optional.empty(),
                List.of(),
                Trace.EMPTY,
                Findings.NONE,
                List.of(),
                Optional.empty(),
                Kiln.Thresholds.COMMON_PRACTICE,
                List.of(),
                new FiringBook.DiskState(OptionalLong.empty(), 0, Optional.empty()));
    }

    public static Segment.Ramp ramp(double rate, double to, long holdMinutes) {
        return new Segment.Ramp(
                HeatingRate.ofKelvinPerHour(rate), Temperature.ofCelsius(to), Duration.ofMinutes(holdMinutes));
    }

    /** The kiln's temperature a number of minutes into the firing: six minutes behind the plan from the first hold on. */
    public static double kilnC(double minutes) {
        double wobble = 0.7 * Math.sin(minutes / 2.3) + 0.12 * Math.sin(minutes / 0.37);
        if (minutes < 30) {
            return 14 + wobble * 0.05;
        }
        double heating = minutes - 30;
        if (heating < 106) {
            return 14 + heating * 1.0 + wobble * 0.3;
        }
        if (heating < 172) {
            return 121 + wobble * 0.6;
        }
        if (heating < 460) {
            return 120 + (heating - 172) * 100 / 60 + wobble;
        }
        if (heating < 621) {
            return 600 + (heating - 460) * 2.475 + wobble;
        }
        if (heating < 637) {
            return 998 + wobble;
        }
        return 12 + 986 * Math.exp(-(heating - 637) / 370) + wobble * 0.2;
    }

    /** The share of time the elements are on: losses rise with the temperature, and heating takes its own. */
    private static double output(double minutes) {
        double heating = minutes - 30;
        if (heating < 0 || heating >= 637) {
            return 0;
        }
        double ratePerHour = heating < 106 ? 60 : heating < 172 ? 0 : heating < 460 ? 100 : heating < 621 ? 148 : 0;
        return Math.min(1, 0.02 + 0.00045 * (kilnC(minutes) - 14) + 0.0018 * ratePerHour);
    }

    /** A moment of the firing whose parts a test may change before building it. */
    public static final class Moment {
        public double minutes = 377;
        public Snapshot.Stage stage = Snapshot.Stage.HEATING;
        public PlanPosition.Leg leg = PlanPosition.Leg.RAMP;
        public int segment = 2;
        public Optional<Duration> behind = Optional.of(Duration.ofMinutes(6));
        public Optional<Duration> holdLeft = Optional.empty();
        public List<SensorFault> faults = List.of();
        public String link = "serial:/dev/ttyUSB0?baud=115200";
        public double speed = 1;
        public double outputPercent = 62;
        public Connection.State connection = Connection.State.RECEIVING;
        public Optional<Schedule> plan = Optional.of(BISQUE);
        public double stepSeconds = 5;
        public Optional<String> bookTrouble = Optional.empty();
        /** Whether cone and forecast are worked out of the curve as the session does. */
        private boolean workedOut;

        public List<Findings.Doubt> doubts = List.of();
        public ConeSeries series = ConeSeries.SELF_SUPPORTING;

        /** With cone and forecast. */
        public Moment workedOut() {
            workedOut = true;
            return this;
        }

        public Snapshot build() {
            Trace.Builder curve = new Trace.Builder();
            long untilMs = Math.round(minutes * MINUTE);
            double peakC = -300;
            long peakMs = 0;
            for (long at = 0; at <= untilMs - (faults.isEmpty() ? 0 : 60_000); at += Math.round(stepSeconds * 1000)) {
                double celsius = kilnC(at / (double) MINUTE);
                if (celsius > peakC) {
                    peakC = celsius;
                    peakMs = at;
                }
                curve.add(
                        at,
                        celsius,
                        workedOut ? OptionalDouble.of(output(at / (double) MINUTE)) : OptionalDouble.empty(),
                        OptionalDouble.empty());
            }
            Trace trace = curve.view();
            double nowC = trace.isEmpty() ? 20 : trace.temperatureC(trace.size() - 1);
            boolean hot = stage == Snapshot.Stage.HEATING || stage == Snapshot.Stage.HOLDING;
            Temperature planned = Temperature.ofCelsius(stage == Snapshot.Stage.HOLDING ? 998 : nowC + 4);
            TemperatureDifference off = TemperatureDifference.ofKelvin(nowC - planned.celsius());
            return new Snapshot(
                    4711,
                    OptionalLong.of(14),
                    Optional.of("Tall Drum"),
                    link,
                    speed,
                    stage,
                    Optional.of(BEGAN),
                    Optional.of(WallClockLine.from(BEGAN)),
                    new Connection(
                            connection,
                            HOST_MS - 4_000_000,
                            Optional.empty(),
                            new Connection.Counts(4500, 0, 0, 0, 0, 300_000)),
                    Optional.of(new Snapshot.Latest(
                            untilMs,
                            HOST_MS,
                            faults.isEmpty() ? Optional.of(Temperature.ofCelsius(nowC)) : Optional.empty(),
                            Optional.empty(),
                            Optional.of(Temperature.ofCelsius(19.4)),
                            faults,
                            hot
                                    ? new ControllerReport(
                                            Optional.of(Share.ofPercent(outputPercent)),
                                            Optional.of(planned),
                                            OptionalInt.of(segment))
                                    : ControllerReport.NONE,
                            false,
                            10_000)),
                    rates(),
                    plan,
                    plan.map(written -> position(written, planned, off, hot)),
                    Optional.of(new Snapshot.Peak(Temperature.ofCelsius(peakC), peakMs)),
                    events(),
                    trace,
                    findings(trace, plan.map(written -> position(written, planned, off, hot))),
                    List.of(),
                    Optional.empty(),
                    Kiln.Thresholds.COMMON_PRACTICE,
                    List.of(),
                    new FiringBook.DiskState(OptionalLong.of(Math.max(0, untilMs - 400)), 1, bookTrouble));
        }

        /** What the program itself makes of this curve: a doubted number withdraws it all. */
        private Findings findings(Trace trace, Optional<PlanPosition> position) {
            if (!workedOut || trace.isEmpty()) {
                return new Findings(doubts, Optional.empty(), Optional.empty());
            }
            HeatWork work = HeatWork.of(ConeTable.of(series), trace);
            long nowMs = trace.elapsedMs(trace.size() - 1);
            LiveForecast forecast = new ModelForecaster()
                    .forecast(new ForecastRequest(
                            0,
                            trace,
                            plan,
                            position.map(its -> its.aligned().stream()
                                    .filter(point -> point.elapsedMs() > nowMs)
                                    .toList()),
                            work,
                            SensorUncertainty.UNKNOWN,
                            Optional.of(Temperature.ofCelsius(12)),
                            Kiln.Thresholds.COMMON_PRACTICE,
                            Optional.of(Kiln.Wall.BRICK),
                            OptionalDouble.of(5.6)));
            return new Findings(List.of(), Optional.of(work.reached(SensorUncertainty.UNKNOWN)), Optional.empty())
                    .with(stage == Snapshot.Stage.ENDED ? Optional.empty() : Optional.of(forecast));
        }

        private Snapshot.Rates rates() {
            return new Snapshot.Rates(rate(1), rate(10), rate(60));
        }

        private Optional<HeatingRate> rate(double span) {
            return minutes < span
                    ? Optional.empty()
                    : Optional.of(HeatingRate.ofKelvinPerHour((kilnC(minutes) - kilnC(minutes - span)) / span * 60));
        }

        private PlanPosition position(Schedule written, Temperature planned, TemperatureDifference off, boolean hot) {
            return new PlanPosition(
                    segment,
                    written.segments().size(),
                    leg,
                    PlanPosition.KnownFrom.CURVE,
                    hot ? Optional.of(planned) : Optional.empty(),
                    hot ? Optional.of(off) : Optional.empty(),
                    hot ? behind : Optional.empty(),
                    holdLeft,
                    OptionalInt.empty(),
                    Temperature.ofCelsius(998),
                    List.of(
                            point(30, 14),
                            point(136, 120),
                            point(202, 120),
                            point(490, 600),
                            point(649, 998),
                            point(664, 998)));
        }

        private List<FiringEvent> events() {
            List<FiringEvent> all = List.of(
                    event(0, FiringEvent.Kind.RECORDING_BEGAN),
                    event(30, FiringEvent.Kind.FIRING_BEGAN),
                    event(136, FiringEvent.Kind.HOLD_BEGAN),
                    FiringEvent.of(150 * MINUTE, FiringEvent.Kind.NOTE, "Bung out"),
                    event(244, FiringEvent.Kind.CONNECTION_LOST),
                    event(245, FiringEvent.Kind.CONNECTION_BACK),
                    event(651, FiringEvent.Kind.TOP_REACHED),
                    event(651, FiringEvent.Kind.HOLD_BEGAN),
                    event(667, FiringEvent.Kind.COOLING_BEGAN),
                    event(1890, FiringEvent.Kind.FIRING_ENDED));
            return new ArrayList<>(all.stream()
                    .filter(event -> event.elapsedMs() <= minutes * MINUTE)
                    .toList());
        }

        private static FiringEvent event(long minute, FiringEvent.Kind kind) {
            return FiringEvent.of(minute * MINUTE, kind);
        }

        private static PlanPosition.PlanPoint point(long minute, double celsius) {
            return new PlanPosition.PlanPoint(minute * MINUTE, celsius);
        }
    }
}
