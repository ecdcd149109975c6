package org.kilnside.app;

import static org.kilnside.app.WindowRecordings.plainly;

import java.util.List;
import java.util.Optional;
import org.kilnside.command.KilnElements;
import org.kilnside.command.Surroundings;
import org.kilnside.desktop.kiln.KilnShelf;
import org.kilnside.desktop.screen.SwingThread;
import org.kilnside.files.KilnFile;
import org.kilnside.files.KilnSetting;
import org.kilnside.wording.Words;

/** The kilns' files and what the book knows of their sensors, for the window. */
final class WindowKilns implements KilnShelf {
    private final Surroundings.Desk desk;

    WindowKilns(Surroundings.Desk desk) {
        this.desk = desk;
    }

    @Override
    public List<String> kilns() {
        SwingThread.isNotHere();
        return plainly(() -> desk.library().kilnNames().stream()
                .map(name -> desk.library().kiln(name).name())
                .distinct()
                .toList());
    }

    @Override
    public Page open(String kiln, Words words) {
        SwingThread.isNotHere();
        return plainly(() -> page(desk.library().kilnFile(kiln)));
    }

    @Override
    public Page set(String kiln, KilnSetting setting, Optional<String> value, Words words) {
        SwingThread.isNotHere();
        return plainly(() -> {
            KilnFile after = desk.library().kilnFile(kiln).with(setting, value);
            after.write();
            return page(after);
        });
    }

    @Override
    public Optional<Elements> elements(Page page) {
        return plainly(() ->
                KilnElements.of(desk.book(), page.kiln()).map(its -> new Elements(its.strength(), its.firings())));
    }

    private static Page page(KilnFile file) {
        return new Page(file.kiln(), file.path().toString());
    }
}
