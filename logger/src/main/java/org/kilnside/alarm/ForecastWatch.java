package org.kilnside.alarm;

import java.util.Optional;
import java.util.function.Supplier;
import org.kilnside.quantity.Temperature;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.Forecast.Reaches;
import org.kilnside.thermal.Forecast.Stage;

/** What the forecasts say that somebody should know: the top is out of reach, the number is false, the time ahead moved. */
final class ForecastWatch {
    /** What is said for this long, and more than once, is believed. */
    private static final long SAID_FOR_MS = 480_000;

    private static final int SAID_OFTEN = 2;

    /** Forecasts settle first; after each word of a move they may rest. */
    private static final double SETTLE_S = 3_600;

    /** A time still far off moves by itself: the part of it that is no news. */
    private static final double SHARE_OF_TIME_LEFT = 0.1;

    private final Supplier<AlarmLimits> limits;
    private final Lasting unreachable = new Lasting();
    private final Lasting moved = new Lasting();
    private int distrusted;
    private Optional<Told> told = Optional.empty();

    ForecastWatch(Supplier<AlarmLimits> limits) {
        this.limits = limits;
    }

    /** Which question, and the answer that was told. */
    private record Told(Question question, Forecast.When when, double firstAskedS) {}

    /** While it heats, when the top is reached; while it cools, when it is below the temperature for the lid. */
    private record Question(Stage stage, Temperature temperature) {
        Measure answered(Forecast.When when) {
            return new Measure.OfPassing(
                    temperature,
                    stage == Stage.COOLING,
                    Math.round(when.fromS() * 1000),
                    Math.round(when.toS() * 1000));
        }
    }

    /** Something that answers say again and again. */
    private static final class Lasting {
        private long sinceMs;
        private int times;

        boolean lasts(boolean so, long nowMs) {
            if (!so) {
                times = 0;
                return false;
            }
            sinceMs = times++ == 0 ? nowMs : sinceMs;
            return times > SAID_OFTEN && nowMs - sinceMs >= SAID_FOR_MS;
        }
    }

    /**
     * Takes an answer.
     *
     * @param boundWaterLeaves whether raw ware may be giving off its bound water now: the power that takes looks like a
     *     kiln too weak, and no answer is believed that says so
     * @param stalls whether the kiln gives all it has and would take hours more at its pace: where the answer is that
     *     nobody can say yet, that is out of reach for who waits for it
     */
    void take(Forecast answer, boolean boundWaterLeaves, boolean stalls, AlarmLedger ledger) {
        long nowMs = Math.round(answer.askedS() * 1000);
        boolean heats = answer.stage() == Stage.HEATING || answer.stage() == Stage.HOLDING;
        boolean no = heats
                && answer.arrival()
                        .filter(arrival ->
                                arrival.reaches() == Reaches.NO || stalls && arrival.reaches() != Reaches.YES)
                        .isPresent();
        if (unreachable.lasts(no && !boundWaterLeaves, nowMs)) {
            Forecast.Arrival arrival = answer.arrival().orElseThrow();
            ledger.raise(
                    AlarmKind.WILL_NOT_REACH_TOP,
                    new Finding(
                            unreachable.sinceMs,
                            0,
                            arrival.topsOut().map(top -> new Measure.OfTemperature(top.at())),
                            Optional.of(new Measure.OfTemperature(arrival.target()))),
                    nowMs);
        } else if (!no
                && (!heats
                        || answer.arrival()
                                .filter(a -> a.reaches() == Reaches.YES)
                                .isPresent())) {
            ledger.clear(AlarmKind.WILL_NOT_REACH_TOP, nowMs);
        }
        boolean lies =
                answer.remarks().stream().anyMatch(remark -> remark.kind().distrustsNumber());
        // Output without heat is what broken elements look like too: while the power is known to be gone, that is it.
        distrusted = lies && !ledger.isActive(AlarmKind.POWER_GONE) ? distrusted + 1 : 0;
        if (distrusted >= SAID_OFTEN) {
            ledger.raise(AlarmKind.SENSOR_LYING, Finding.since(nowMs), nowMs);
        } else if (!lies) {
            ledger.clear(AlarmKind.SENSOR_LYING, nowMs);
        }
        lookForMove(answer, nowMs, ledger);
    }

    private void lookForMove(Forecast answer, long nowMs, AlarmLedger ledger) {
        Optional<Question> asked = question(answer);
        Optional<Forecast.When> at = asked.flatMap(question -> when(question, answer));
        if (at.isEmpty()) {
            return;
        }
        Forecast.When now = at.get();
        Question question = asked.get();
        if (told.isEmpty() || !told.get().question().equals(question)) {
            told = Optional.of(new Told(question, now, answer.askedS()));
            moved.lasts(false, nowMs);
            return;
        }
        Told before = told.get();
        double by = now.atS() - before.when().atS();
        if (answer.askedS() - before.firstAskedS() < SETTLE_S) {
            told = Optional.of(new Told(question, now, before.firstAskedS()));
            return;
        }
        double needed =
                Math.max(limits.get().forecastMoved().toSeconds(), SHARE_OF_TIME_LEFT * (now.atS() - answer.askedS()));
        if (moved.lasts(Math.abs(by) > needed, nowMs)) {
            ledger.tell(
                    AlarmKind.FORECAST_MOVED,
                    Finding.since(nowMs, question.answered(now), question.answered(before.when())),
                    nowMs);
            told = Optional.of(new Told(question, now, answer.askedS()));
            moved.lasts(false, nowMs);
        }
    }

    private Optional<Question> question(Forecast answer) {
        return switch (answer.stage()) {
            case HEATING -> answer.arrival().map(arrival -> new Question(Stage.HEATING, arrival.target()));
            case COOLING -> Optional.of(new Question(Stage.COOLING, limits.get().lid()));
            case WAITING, HOLDING -> Optional.empty();
        };
    }

    private static Optional<Forecast.When> when(Question question, Forecast answer) {
        return question.stage() == Stage.HEATING
                ? answer.arrival().flatMap(Forecast.Arrival::when)
                : answer.below().stream()
                        .filter(below -> below.temperature().equals(question.temperature()))
                        .findFirst()
                        .flatMap(Forecast.Below::when);
    }
}
