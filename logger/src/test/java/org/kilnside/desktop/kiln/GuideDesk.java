package org.kilnside.desktop.kiln;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Preferences;
import org.kilnside.wording.Words;

/** The first steps without a display, a wire or a disk, and a person at them. */
abstract class GuideDesk {
    protected static final Words WORDS = Words.of(Locale.UK, Preferences.of(Locale.UK));

    protected final HandWorld world = HandWorld.plugged();
    protected int begun;
    protected long nowMs = 1_000_000;

    protected GuideModel guide() {
        GuideModel guide = new GuideModel(world, world, new AtOnce(), () -> begun++);
        guide.tick(nowMs);
        return guide;
    }

    /** With a port chosen and the kiln cold. */
    protected GuideModel listening() {
        GuideModel guide = guide();
        choose(guide, "/dev/ttyUSB0");
        if (guide.stop() == Stop.COLD) {
            choose(guide, "It is cold: connect");
        }
        return guide;
    }

    protected void after(GuideModel guide, long ms) {
        nowMs += ms;
        guide.tick(nowMs);
    }

    protected static GuideStep step(GuideModel guide) {
        return GuideSteps.step(guide, WORDS);
    }

    protected static List<String> labels(GuideModel guide) {
        return step(guide).options().stream().map(GuideStep.Option::label).toList();
    }

    protected static void choose(GuideModel guide, String label) {
        int index = labels(guide).indexOf(label);
        assertThat(index).as("%s among %s", label, labels(guide)).isNotNegative();
        GuideSteps.choose(guide, WORDS, index);
    }

    protected static Wire.Answer answer(Wire.Outcome outcome) {
        return new Wire.Answer(outcome, Optional.of(Temperature.ofCelsius(19)), Optional.empty());
    }

    /** Runs every chore at once, as if the disk took no time. */
    protected static final class AtOnce implements Chores {
        @Override
        public <T> void run(Callable<T> work, Consumer<T> found, Consumer<Exception> failed) {
            T result;
            try {
                result = work.call();
            } catch (Exception e) {
                failed.accept(e);
                return;
            }
            found.accept(result);
        }
    }
}
