package org.kilnside.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import org.kilnside.command.Surroundings;
import org.kilnside.desktop.Closing;
import org.kilnside.desktop.Window;
import org.kilnside.desktop.book.BookScreen;
import org.kilnside.desktop.kiln.KilnScreen;
import org.kilnside.desktop.night.NightScreen;
import org.kilnside.desktop.plan.PlansScreen;
import org.kilnside.files.UnitText;
import org.kilnside.host.Places;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.HostClock;
import org.kilnside.session.LiveFeed;

/** The window, for the commands that open it. */
final class DeskWindow implements Surroundings.Window {
    @Override
    public boolean isPossible() {
        return Window.isPossible();
    }

    @Override
    public boolean show(LiveFeed feed, HostClock clock, Locale locale, Path book, boolean recordsHere) {
        CompletableFuture<Closing.Choice> closed = new CompletableFuture<>();
        Window.open(
                feed,
                clock,
                new WindowSettings(Places.settings().resolve("window.properties"), locale),
                new Closing() {
                    @Override
                    public boolean recordsHere() {
                        return recordsHere;
                    }

                    @Override
                    public void closed(Choice choice) {
                        closed.complete(choice);
                    }
                },
                screens(feed, book));
        return closed.join() == Closing.Choice.GO_ON_RECORDING;
    }

    /** The screens beside the live one, each with what it needs from the world. */
    private static List<Window.ScreenMaker> screens(LiveFeed feed, Path book) {
        return List.of(
                (words, errands) -> new PlansScreen(words, errands, new DeskPlans(Places.settings(), book)),
                (words, errands) -> new BookScreen(words, new DeskBook(book)),
                (words, errands) -> new KilnScreen(feed::lines),
                (words, errands) -> new NightScreen(feed, words, errands, DeskWindow::temperature));
    }

    private static Temperature temperature(String typed) {
        try {
            return UnitText.temperature(typed);
        } catch (UnitText.NotAQuantityException e) {
            throw new IllegalArgumentException(e.getMessage(), e);
        }
    }

    @Override
    public Optional<String> ask(String question) {
        CompletableFuture<Optional<String>> answer = new CompletableFuture<>();
        Window.ask(question, answer::complete);
        return answer.join();
    }
}
