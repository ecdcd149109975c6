package org.kilnside.app;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import org.kilnside.command.RecorderRole;
import org.kilnside.command.Surroundings;
import org.kilnside.desktop.Closing;
import org.kilnside.desktop.Window;
import org.kilnside.desktop.book.BookScreen;
import org.kilnside.desktop.kiln.KilnScreen;
import org.kilnside.desktop.night.NightScreen;
import org.kilnside.desktop.plan.PlansScreen;
import org.kilnside.desktop.week.WeekScreen;
import org.kilnside.files.UnitText;
import org.kilnside.host.Places;
import org.kilnside.quantity.Temperature;
import org.kilnside.wording.Language;

/** The window, for the commands that open it. */
final class DeskWindow implements Surroundings.Window {
    @Override
    public boolean isPossible() {
        return Window.isPossible();
    }

    @Override
    public boolean show(Surroundings.Desk desk) {
        CompletableFuture<Closing.Choice> closed = new CompletableFuture<>();
        Window.open(
                desk.feed(),
                desk.clock(),
                new WindowSettings(settings(), desk.locale(), desk.words()),
                new Closing() {
                    @Override
                    public boolean recordsHere() {
                        return desk.role().filter(RecorderRole::wouldLeaveAHole).isPresent();
                    }

                    @Override
                    public void closed(Choice choice) {
                        closed.complete(choice);
                    }
                },
                screens(desk));
        return closed.join() == Closing.Choice.GO_ON_RECORDING;
    }

    private static Path settings() {
        return Places.settings().resolve("window.properties");
    }

    @Override
    public Optional<Language> lastLanguage() {
        return WindowSettings.lastLanguage(settings());
    }

    /** The screens beside the live one, each with what it needs from the world. */
    private static List<Window.ScreenMaker> screens(Surroundings.Desk desk) {
        WindowRecordings recordings = new WindowRecordings(desk);
        WindowWire wire = new WindowWire(desk);
        return List.of(
                (words, errands) -> new PlansScreen(
                        words, errands, new DeskPlans(Places.settings(), desk.book(), recordings::lastKiln)),
                (words, errands) -> new BookScreen(words, new DeskBook(desk.book(), desk.library()::kilnCalled)),
                (words, errands) -> new KilnScreen(
                        desk.feed()::lines,
                        recordings,
                        wire,
                        new WindowKilns(desk),
                        new WindowSensors(desk.book(), desk.clock()),
                        errands),
                (words, errands) -> new NightScreen(
                        new WindowNight(desk.feed(), desk.book(), desk.clock()),
                        words,
                        errands,
                        DeskWindow::temperature),
                (words, errands) -> new WeekScreen(
                        words,
                        errands,
                        new DeskWeek(Places.settings(), desk.book(), desk.clock(), recordings::lastKiln)));
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
