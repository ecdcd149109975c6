package org.kilnside.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import org.kilnside.book.Book;
import org.kilnside.book.KilnHistory;
import org.kilnside.files.FileRefusedException;
import org.kilnside.files.JsonObject;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.thermal.ElementStrength;
import org.kilnside.thermal.WallKind;
import org.kilnside.wording.ElementWords;
import org.kilnside.wording.Words;

/**
 * How strong a kiln's elements were in its newest firings. Takes seconds.
 *
 * @param strength as the firings tell
 * @param firings the numbers of the firings looked at, oldest first
 */
public record KilnElements(ElementStrength strength, List<Long> firings) {
    /** Enough to see a slope; older elements are other elements. */
    private static final int MOST_FIRINGS = 8;

    public KilnElements {
        firings = List.copyOf(firings);
    }

    /** Up to and with a firing. */
    static KilnElements until(long firing, KilnHistory history, Optional<Kiln.Wall> wall) {
        SortedMap<Long, Trace> curves =
                history.earlierByNumber(firing == Long.MAX_VALUE ? firing : firing + 1, MOST_FIRINGS);
        return new KilnElements(
                ElementStrength.of(List.copyOf(curves.values()), wall.map(its -> WallKind.valueOf(its.name()))),
                List.copyOf(curves.keySet()));
    }

    /** Of all ended firings a book has of a kiln; empty where it has none, or is none yet. */
    public static Optional<KilnElements> of(Path book, Kiln kiln) {
        if (!Files.exists(book)) {
            return Optional.empty();
        }
        try (Book open = Book.open(book)) {
            return Optional.of(until(Long.MAX_VALUE, open.history(kiln.name()), kiln.wall()))
                    .filter(found -> !found.firings.isEmpty());
        }
    }

    /** What the wall of a kiln named in the book is made of; empty where its file is not there or does not say. */
    static Optional<Kiln.Wall> wall(ProfileLibrary library, Optional<String> kiln) {
        try {
            return kiln.filter(library::knowsKiln)
                    .flatMap(name -> library.kiln(name).wall());
        } catch (FileRefusedException e) {
            // A kiln's file that cannot be read is complained of where it is asked for.
            return Optional.empty();
        }
    }

    public List<String> lines(Words words) {
        return new ElementWords(words)
                .lines(strength, firings).stream()
                        .map(line -> words.sentence(line) + ".")
                        .toList();
    }

    /** What a firing's elements had, where it was compared. */
    Optional<String> line(long firing, Words words) {
        if (strength.firings().size() < 2) {
            return Optional.empty();
        }
        long first = firings.get(strength.firings().get(0).number());
        return strength.firings().stream()
                .skip(1)
                .filter(each -> firings.get(each.number()) == firing)
                .findFirst()
                .map(each -> words.sentence(new ElementWords(words).strength(each, firing, first)) + ".");
    }

    List<JsonObject> objects() {
        List<JsonObject> objects = new ArrayList<>();
        for (ElementStrength.Strength each : strength.firings()) {
            objects.add(new JsonObject()
                    .with("firing", firings.get(each.number()))
                    .with("of_first", each.ofFirst(), 3)
                    .with("from", each.from(), 3)
                    .with("to", each.to(), 3));
        }
        return objects;
    }

    Optional<JsonObject> ageing() {
        return strength.ageing()
                .map(its -> new JsonObject()
                        .with("at", its.lostPerTen(), 3)
                        .with("from", its.from(), 3)
                        .with("to", its.to(), 3));
    }
}
