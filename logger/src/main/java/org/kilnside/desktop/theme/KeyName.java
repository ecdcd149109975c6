package org.kilnside.desktop.theme;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.kilnside.wording.Words;

/**
 * Keys as they are called: strokes as {@code KeyStroke} reads them ({@code F6}, {@code ctrl S}), two of which that belong
 * together may be written as one ({@code ctrl LEFT/RIGHT}); and what stands on the keyboard of somebody's language.
 */
public final class KeyName {
    private static final Map<String, String> SIGNS =
            Map.of("LEFT", "←", "RIGHT", "→", "UP", "↑", "DOWN", "↓", "-", "−");

    /** The keys that have a name of their own in each language. */
    private static final Map<String, String> NAMED = Map.of(
            "ctrl", "key.name.ctrl",
            "shift", "key.name.shift",
            "alt", "key.name.alt",
            "ENTER", "key.name.enter",
            "ESCAPE", "key.name.escape",
            "DELETE", "key.name.delete",
            "HOME", "key.name.home",
            "END", "key.name.end",
            "SPACE", "key.name.space");

    private KeyName() {}

    /** As it stands on the keyboard: {@code ctrl S} is Ctrl+S, or Strg+S in German. */
    public static String of(String stroke, Words words) {
        return stroke.isEmpty()
                ? ""
                : Arrays.stream(stroke.split(" ", -1))
                        .map(part -> Arrays.stream(part.split("/", -1))
                                .map(key -> one(key, words))
                                .collect(Collectors.joining(" ")))
                        .collect(Collectors.joining("+"));
    }

    private static String one(String key, Words words) {
        String named = NAMED.get(key);
        return named != null ? words.text(named) : SIGNS.getOrDefault(key, key.toUpperCase(Locale.ROOT));
    }

    /** Each stroke by itself: {@code ctrl LEFT/RIGHT} is {@code ctrl LEFT} and {@code ctrl RIGHT}. */
    public static List<String> strokes(String stroke) {
        int last = stroke.lastIndexOf(' ') + 1;
        List<String> strokes = new ArrayList<>();
        for (String key : stroke.substring(last).split("/", -1)) {
            strokes.add(stroke.substring(0, last) + key);
        }
        return strokes;
    }
}
