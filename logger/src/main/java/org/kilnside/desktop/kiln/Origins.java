package org.kilnside.desktop.kiln;

import org.kilnside.wording.Words;

/** Where lines come from, in a potter's words. */
final class Origins {
    private Origins() {}

    /** A port by its own name; a virtual kiln or a replay by what it is. */
    static String name(String link, Words words) {
        String kind = link.replaceAll(":.*", "");
        return switch (kind) {
            case "virtual" -> words.text("kiln.from.virtual");
            case "replay" -> words.text("kiln.from.replay");
            default -> link.replaceFirst("^(serial|tcp):", "").replaceAll("\\?.*", "");
        };
    }
}
