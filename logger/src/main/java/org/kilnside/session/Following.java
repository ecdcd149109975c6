package org.kilnside.session;

import java.util.List;
import java.util.Optional;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.ControllerReport;
import org.kilnside.firing.FiringEvent;
import org.kilnside.firing.Reading;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.OutlierFilter;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.session.Snapshot.Stage;
import org.kilnside.tracking.FiringTracker;
import org.kilnside.tracking.PlanPosition;

/**
 * What is worked out from the readings of one firing: curve, rates, highest temperature, place in the plan, heat work,
 * and what happened. All of it follows from the readings alone, in order, so that it comes out the same live, after a restart
 * and when a gap has been filled. Confined to the session's thread.
 */
final class Following implements OutlierFilter.Listener<Reading.Measured> {
    private final Optional<Schedule> plan;
    private final Follower follower;
    private final RateMeter rateMeter = new RateMeter();

    private Trace.Builder curve = new Trace.Builder();
    private Trace view = Trace.EMPTY;
    private OutlierFilter<Reading.Measured> filter = new OutlierFilter<>(this);
    private FiringTracker tracker;
    private final GuidingSensor guide;
    private ConeSeries series;
    private WareWatch ware;
    private Optional<Snapshot.Peak> peak = Optional.empty();

    /** Sees each good reading after it has been followed. */
    interface Follower {
        void good(long elapsedMs, double celsius, ControllerReport controller, FiringTracker tracker, WareWatch ware);
    }

    Following(Optional<Schedule> plan, Optional<SensorInPlace> sensor, ConeSeries series, Follower follower) {
        this.guide = new GuidingSensor(sensor);
        this.series = series;
        this.ware = new WareWatch(guide.inForce(), series);
        this.plan = plan;
        this.follower = follower;
        this.tracker = new FiringTracker(plan);
    }

    /** Takes the next reading of the guiding channel; true when its temperature is not, or not yet, believed. */
    boolean take(Reading reading) {
        Optional<Temperature> truth = guide.truth(reading);
        if (truth.isEmpty() || !(reading instanceof Reading.Measured measured)) {
            return false;
        }
        filter.offer(measured.elapsedMs(), truth.get().celsius(), measured);
        return curve.size() > 0 && filter.withholds();
    }

    @Override
    public void accepted(long elapsedMs, double celsius, Reading.Measured reading) {
        ControllerReport controller = guide.report(reading, celsius);
        curve.add(reading.elapsedMs(), celsius, controller);
        view = curve.view();
        tracker.take(elapsedMs, celsius, controller);
        ware.take(reading, celsius);
        if (peak.isEmpty() || celsius > peak.get().temperature().celsius()) {
            peak = Optional.of(new Snapshot.Peak(Temperature.ofCelsius(celsius), elapsedMs));
        }
        follower.good(elapsedMs, celsius, controller, tracker, ware);
    }

    @Override
    public void rejected(long elapsedMs, double celsius, Reading.Measured reading) {
        // It stays in the book, and goes nowhere else.
    }

    /** Begins with an empty curve, to be judged by other cones. */
    void reset(ConeSeries its) {
        series = its;
        reset();
    }

    /** Begins with an empty curve. */
    void reset() {
        curve = new Trace.Builder();
        view = Trace.EMPTY;
        filter = new OutlierFilter<>(this);
        peak = Optional.empty();
        rateMeter.reset();
        guide.reset();
        tracker = new FiringTracker(plan);
        ware = new WareWatch(guide.inForce(), series);
    }

    /** What stands behind the guiding channel, as the controller says. */
    void probe(Probe said) {
        guide.said(said);
        ware.sensor(guide.inForce());
    }

    /** The book or a person says more of the sensor; true when what was followed so far is to be followed anew. */
    boolean sensor(Optional<SensorInPlace> told) {
        return guide.told(told);
    }

    GuidingSensor guide() {
        return guide;
    }

    WareWatch ware() {
        return ware;
    }

    void beginsByHand() {
        tracker.beginsByHand();
    }

    void endsByHand() {
        tracker.endsByHand();
    }

    /** Whether the kiln has been lit again after this firing. */
    boolean litAgain() {
        return tracker.litAgain();
    }

    boolean hasReadingNear(long elapsedMs, long withinMs) {
        int before = view.indexAt(elapsedMs);
        boolean earlier = before >= 0 && elapsedMs - view.elapsedMs(before) <= withinMs;
        boolean later = before + 1 < view.size() && view.elapsedMs(before + 1) - elapsedMs <= withinMs;
        return earlier || later;
    }

    /** What happened since this was last asked. */
    List<FiringEvent> takeHappened() {
        return tracker.takeHappened();
    }

    Stage stage() {
        return switch (tracker.stage()) {
            case WAITING_TO_START -> Stage.WAITING_TO_START;
            case HEATING -> Stage.HEATING;
            case HOLDING -> Stage.HOLDING;
            case COOLING -> Stage.COOLING;
            case ENDED -> Stage.ENDED;
        };
    }

    Trace curve() {
        return view;
    }

    Snapshot.Rates rates() {
        return rateMeter.after(view);
    }

    Optional<PlanPosition> position() {
        return tracker.position();
    }

    Optional<Snapshot.Peak> peak() {
        return peak;
    }
}
