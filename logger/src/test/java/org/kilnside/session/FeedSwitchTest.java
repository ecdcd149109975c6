package org.kilnside.session;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Lighting;

class FeedSwitchTest {
    private final Plain first = new Plain("first");
    private final Plain second = new Plain("second");
    private final FeedSwitch feed = new FeedSwitch(first);
    private final List<String> told = new ArrayList<>();

    @Test
    void whoeverIsSubscribedIsToldOfTheOtherFiringAtOnceAndOfNothingMoreFromTheFirst() {
        feed.subscribe(snapshot -> told.add(snapshot.kiln().orElseThrow()));
        first.publish("first, again");
        feed.turnTo(second);
        Consumer<Snapshot> late = first.wasListening;
        late.accept(snapshot("first, too late"));
        second.publish("second, again");

        assertThat(told).containsExactly("first, again", "second", "second, again");
        assertThat(first.listeners).isEmpty();
        assertThat(feed.latest().kiln()).contains("second, again");
    }

    @Test
    void whatAPersonSaysGoesToTheFiringThatIsShown() {
        feed.note("one");
        feed.turnTo(second);
        feed.note("two");
        feed.firingBegins();
        assertThat(first.said).containsExactly("one");
        assertThat(second.said).containsExactly("two", "begins");
    }

    private static Snapshot snapshot(String kiln) {
        return Snapshot.before(
                Optional.of(kiln),
                new Connection(Connection.State.CONNECTING, 0, Optional.empty(), Connection.Counts.NONE));
    }

    /** A feed that says what it is told. */
    private static final class Plain implements LiveFeed {
        private final List<Consumer<Snapshot>> listeners = new ArrayList<>();
        private final List<String> said = new ArrayList<>();
        private Consumer<Snapshot> wasListening = snapshot -> {};
        private Snapshot latest;

        Plain(String kiln) {
            latest = snapshot(kiln);
        }

        void publish(String kiln) {
            latest = snapshot(kiln);
            List.copyOf(listeners).forEach(listener -> listener.accept(latest));
        }

        @Override
        public Snapshot latest() {
            return latest;
        }

        @Override
        public Subscription subscribe(Consumer<Snapshot> listener) {
            listeners.add(listener);
            wasListening = listener;
            return () -> listeners.remove(listener);
        }

        @Override
        public LineView lines() {
            return LineView.NONE;
        }

        @Override
        public void note(String text) {
            said.add(text);
        }

        @Override
        public void acknowledge(String alarmId) {
            said.add("acknowledge " + alarmId);
        }

        @Override
        public void lighting(Lighting list) {
            said.add("lighting");
        }

        @Override
        public void firingBegins() {
            said.add("begins");
        }

        @Override
        public void firingEnds() {
            said.add("ends");
        }
    }
}
