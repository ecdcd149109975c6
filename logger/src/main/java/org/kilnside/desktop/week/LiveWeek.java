package org.kilnside.desktop.week;

import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import org.kilnside.firing.Kiln;
import org.kilnside.week.PlannedFiring;
import org.kilnside.week.Week;
import org.kilnside.week.WeekPlan;

/**
 * Has the week planned whenever something changes and as time goes by, off the Swing thread, the newest question only:
 * what is asked while an answer is worked out waits, and only the last of it is answered.
 */
final class LiveWeek {
    /** A plan older than this is made anew. */
    private static final Duration LONGEST = Duration.ofMinutes(15);

    private final WeekShelf shelf;
    private final WeekModel.Runner runner;
    private final Runnable changed;
    private boolean working;
    private Optional<Question> waiting = Optional.empty();
    private Optional<Question> asked = Optional.empty();
    private Optional<Answer> answer = Optional.empty();
    private Optional<String> trouble = Optional.empty();

    /** What is asked: the week as written, what its kiln does just now, and the moment. */
    private record Question(Week week, KilnTaken taken, Instant at) {}

    /**
     * A plan.
     *
     * @param wanted the week it is of, as written
     * @param planned the same as it was planned: without a kiln that is being fired until it is cool
     * @param at when it was asked for; nothing is planned before
     */
    record Answer(Week wanted, Week planned, KilnTaken taken, Instant at, Kiln kiln, WeekPlan plan) {
        /** The firing of the load of that name, as written when it was asked. */
        Optional<PlannedFiring> firing(String load) {
            return plan.firings().stream()
                    .filter(firing -> planned.loads().get(firing.load()).name().equals(load))
                    .findFirst();
        }

        /** The first firing whose time to light has gone by. */
        Optional<PlannedFiring> goneBy(Instant now) {
            return plan.firings().stream()
                    .filter(firing -> firing.light().isBefore(now))
                    .findFirst();
        }
    }

    LiveWeek(WeekShelf shelf, WeekModel.Runner runner, Runnable changed) {
        this.shelf = shelf;
        this.runner = runner;
        this.changed = changed;
    }

    /** The newest plan; of the week as it was when it was asked for. */
    Optional<Answer> answer() {
        return answer;
    }

    /** Why the newest question has no answer; empty where it has one, or may still get it. */
    Optional<String> trouble() {
        return trouble;
    }

    boolean isWorking() {
        return working;
    }

    /** Whether there is a plan of this very week. */
    boolean isOf(Week week) {
        return answer.filter(its -> its.wanted().equals(week)).isPresent();
    }

    void ask(Week week, KilnTaken taken, Instant at) {
        Question question = new Question(week, taken, at);
        asked = Optional.of(question);
        if (working) {
            waiting = Optional.of(question);
        } else {
            work(question);
        }
    }

    /** Nothing is wanted any more. */
    void forget() {
        waiting = Optional.empty();
        asked = Optional.empty();
        answer = Optional.empty();
        trouble = Optional.empty();
    }

    /** Whether time, or the kiln, has gone on so far that the last question has to be asked again. */
    boolean isOutOfDate(KilnTaken taken, Instant now) {
        return !working
                && asked.filter(last -> last.taken().isOtherThan(taken)
                                || !now.isBefore(last.at().plus(LONGEST))
                                || now.isBefore(last.at())
                                || answer.flatMap(its -> its.goneBy(now)).isPresent() && now.isAfter(last.at()))
                        .isPresent();
    }

    private void work(Question question) {
        working = true;
        Week planned = question.taken()
                .until()
                .map(until -> WeekDraft.changed(
                        question.week(),
                        draft -> draft.kilnFree = Optional.of(draft.kilnFree
                                .filter(free -> free.isAfter(until))
                                .orElse(until))))
                .orElse(question.week());
        runner.run(
                () -> shelf.plan(planned, question.at()),
                found -> {
                    if (asked.isPresent()) {
                        answer = Optional.of(new Answer(
                                question.week(), planned, question.taken(), question.at(), found.kiln(), found.plan()));
                        trouble = Optional.empty();
                    }
                    next();
                },
                failed -> {
                    if (asked.isPresent()) {
                        answer = Optional.empty();
                        trouble = Optional.of(String.valueOf(failed.getMessage()));
                    }
                    next();
                });
    }

    private void next() {
        working = false;
        Optional<Question> newest = waiting;
        waiting = Optional.empty();
        newest.ifPresent(this::work);
        changed.run();
    }
}
