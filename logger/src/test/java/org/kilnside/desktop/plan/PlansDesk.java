package org.kilnside.desktop.plan;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.kilnside.desktop.plan.PlansModel.Field;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.TemperatureUnit;
import org.kilnside.wording.Words;

/** The Plans screen's model over a library held in the hand: one own plan, one starter plan, one kiln. */
final class PlansDesk {
    static final String BOWLS = """
            name     = "Bisque for bowls"
            aims_for = "cone 06"

            [[segment]]   # until the last damp is out
            rate = "60 °C/h"
            to   = "80 °C"
            hold = "2 h"

            [[segment]]
            rate = "120 °C/h"
            to   = "992 °C"
            hold = "10 min"

            [[segment]]
            cool = "free"
            """;

    final HandShelf shelf = new HandShelf();
    final Deque<Runnable> waiting = new ArrayDeque<>();
    boolean atOnce = true;
    final PlansModel model;

    PlansDesk() {
        shelf.own.put("bowls", BOWLS);
        shelf.starters.put("bisque", BOWLS.replace("Bisque for bowls", "Bisque"));
        model = new PlansModel(shelf, runner(), words(TemperatureUnit.CELSIUS), () -> {});
        model.start();
    }

    static Words words(TemperatureUnit unit) {
        return Words.of(Locale.ENGLISH, Preferences.of(Locale.UK).withUnit(unit));
    }

    /** Runs at once, or when told to. */
    private PlansModel.Runner runner() {
        return new PlansModel.Runner() {
            @Override
            public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
                Runnable errand = () -> {
                    T result;
                    try {
                        result = work.call();
                    } catch (Exception e) {
                        failed.accept(e);
                        return;
                    }
                    found.accept(result);
                };
                if (atOnce) {
                    errand.run();
                } else {
                    waiting.add(errand);
                }
            }
        };
    }

    void type(Field field, int segment, String text) {
        model.typed(new Place(field, segment), text);
    }

    Segment.Ramp ramp(int number) {
        return (Segment.Ramp) model.plan().segments().get(number - 1);
    }

    void drain() {
        while (!waiting.isEmpty()) {
            waiting.poll().run();
        }
    }
}
