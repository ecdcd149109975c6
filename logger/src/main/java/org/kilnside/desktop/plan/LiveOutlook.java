package org.kilnside.desktop.plan;

import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;
import org.kilnside.heatwork.Cone;
import org.kilnside.outlook.Outlook;
import org.kilnside.outlook.OutlookQuestion;
import org.kilnside.outlook.Ware;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.thermal.KilnMemory;
import org.kilnside.thermal.LikelyKilns;

/**
 * Asks what the plan will come to whenever something changes, off the Swing thread, the newest question only: what is
 * asked while an answer is worked out waits, and only the last of it is answered.
 */
final class LiveOutlook {
    /** An answer and what it answers. */
    record Answer(OutlookQuestion question, Outlook outlook) {}

    private record Worked(Answer answer, LikelyKilns kilns) {}

    private final PlansModel.Runner runner;
    private final Runnable changed;
    private Optional<String> kilnName = Optional.empty();
    private PlanShelf.KnownKiln known = new PlanShelf.KnownKiln(
            Kiln.named(""), KilnMemory.none(Optional.empty()), 0, SensorInPlace.asSaid(Probe.UNKNOWN));
    private OptionalDouble loadKg = OptionalDouble.empty();
    private Ware ware = Ware.UNKNOWN;
    private Optional<Cone> wanted = Optional.empty();
    private Optional<Temperature> room = Optional.empty();
    private Optional<ConeSeries> series = Optional.empty();
    private Optional<Schedule> plan = Optional.empty();

    private Optional<Answer> answer = Optional.empty();
    private Optional<String> trouble = Optional.empty();
    private Optional<OutlookQuestion> waiting = Optional.empty();
    private boolean working;

    /** The kilns of the last question, and what they were made from: they do not depend on the plan. */
    private Optional<LikelyKilns> kilns = Optional.empty();

    private Optional<OutlookQuestion> kilnsOf = Optional.empty();

    LiveOutlook(PlansModel.Runner runner, Runnable changed) {
        this.runner = runner;
        this.changed = changed;
    }

    /** The newest answer; of an earlier plan while the next is being worked out. */
    Optional<Answer> answer() {
        return answer;
    }

    /** Whether the answer is that to the newest question. */
    boolean isUpToDate() {
        return !working && waiting.isEmpty() && answer.isPresent();
    }

    Optional<String> trouble() {
        return trouble;
    }

    Optional<String> kilnName() {
        return kilnName;
    }

    PlanShelf.KnownKiln known() {
        return known;
    }

    Ware ware() {
        return ware;
    }

    Optional<Cone> wanted() {
        return wanted;
    }

    /** What a person said of the room; empty while the usual one is taken. */
    Optional<Temperature> room() {
        return room;
    }

    /** The cones meant: the kiln's own, unless a person says otherwise of this kiln. */
    ConeSeries series() {
        return series.orElse(known.kiln().series());
    }

    OptionalDouble loadKg() {
        return loadKg;
    }

    void named(String name) {
        if (!kilnName.equals(Optional.of(name))) {
            series = Optional.empty();
        }
        kilnName = Optional.of(name);
    }

    void kiln(String name, PlanShelf.KnownKiln its) {
        if (kilnName.equals(Optional.of(name))) {
            known = its;
        }
    }

    /** @return whether the kiln is described otherwise than before */
    boolean describe(String name, Kiln its) {
        boolean other = kilnName.equals(Optional.of(name)) && !known.kiln().equals(its);
        if (other) {
            known = new PlanShelf.KnownKiln(its, known.memory(), known.firings(), known.sensor());
        }
        return other;
    }

    void load(Optional<Double> kilograms) {
        loadKg = kilograms.map(OptionalDouble::of).orElseGet(OptionalDouble::empty);
        again();
    }

    void thickness(Optional<Double> millimetres) {
        ware = new Ware(
                ware.state(), millimetres.map(OptionalDouble::of).orElseGet(OptionalDouble::empty), ware.limit());
        again();
    }

    void state(Optional<Ware.State> state) {
        ware = new Ware(state, ware.thicknessMm(), ware.limit());
        again();
    }

    void wanted(Optional<Cone> cone) {
        wanted = cone;
        again();
    }

    /** The highest the ware bears. */
    void limit(Optional<Temperature> highest) {
        ware = new Ware(ware.state(), ware.thicknessMm(), highest);
        again();
    }

    void room(Optional<Temperature> its) {
        room = its;
        again();
    }

    void series(ConeSeries meant) {
        series = Optional.of(meant);
        again();
    }

    private void again() {
        plan.ifPresent(this::ask);
    }

    /** Asks about a plan in the kiln, with the load, that are set. */
    void ask(Schedule its) {
        plan = Optional.of(its);
        OutlookQuestion question = OutlookQuestion.about(its, known.kiln())
                .withMemory(known.memory())
                .withSensor(known.sensor())
                .withLoadKg(loadKg)
                .withWare(ware)
                .withRoom(room.orElse(OutlookQuestion.USUAL_ROOM))
                .withSeries(series())
                .withWanted(wanted);
        if (working) {
            waiting = Optional.of(question);
        } else {
            work(question);
        }
    }

    private void work(OutlookQuestion question) {
        working = true;
        Optional<LikelyKilns> made =
                kilnsOf.filter(of -> sameKilns(of, question)).flatMap(of -> kilns);
        runner.run(
                () -> {
                    LikelyKilns its = made.orElseGet(question::kilns);
                    return new Worked(new Answer(question, Outlook.of(question, its)), its);
                },
                worked -> {
                    kilns = Optional.of(worked.kilns());
                    kilnsOf = Optional.of(question);
                    answer = Optional.of(worked.answer());
                    trouble = Optional.empty();
                    next();
                },
                failed -> {
                    trouble = Optional.of(String.valueOf(failed.getMessage()));
                    next();
                });
    }

    private static boolean sameKilns(OutlookQuestion one, OutlookQuestion other) {
        return one.kiln().equals(other.kiln())
                && one.memory() == other.memory()
                && one.room().equals(other.room())
                && one.loadKg().equals(other.loadKg());
    }

    private void next() {
        working = false;
        Optional<OutlookQuestion> newest = waiting;
        waiting = Optional.empty();
        newest.ifPresent(this::work);
        changed.run();
    }
}
