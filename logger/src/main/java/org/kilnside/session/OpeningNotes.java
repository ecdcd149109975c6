package org.kilnside.session;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.kilnside.firing.FiringEvent;
import org.kilnside.thermal.Ventilated;
import org.kilnside.thermal.Ventilated.How;

/**
 * What a person's notes say of bung, vent and lid, in the words of the window's buttons and those near them, in any of
 * its languages: who pulled the bung should not have to say it twice. A note that says no such thing says nothing here.
 */
public final class OpeningNotes {
    private static final Pattern BUNG =
            words("bungs?|plugs?|peep-?holes?|spy-?holes?|prop|proppen|stop|kijkgat|stopfen|schauloch");
    private static final Pattern VENT = words("vent|vents|fan|afzuiging|ventilator|abzug|lüftung|lüfter");
    private static final Pattern LID = words("lid|door|deksel|deur|deckel|tür|kiln|oven|ofen");
    private static final Pattern OPENED = words(
            "propped|cracked|ajar|open|opened|up|kier|open|geopend|omhoog|hoch|angelehnt|offen|auf|geöffnet|spalt");
    private static final Pattern OUT = words("out|pulled|off|open|eruit|uit|open|raus|heraus|gezogen|offen");
    private static final Pattern ON = words("on|aan|an|ein");
    private static final Pattern SHUT =
            words("shut|closed|close|back|in|again|dicht|gesloten|erin|weer|zu|geschlossen|rein|drin|wieder");
    private static final Pattern OFF = words("off|uit|aus");
    private static final Pattern NOT = words(
            "not|no|don't|later|soon|if|when|tomorrow|wenn|morgen|als|niet|nog|geen|nicht|noch|kein|keine|will|werd");

    private OpeningNotes() {}

    private static Pattern words(String alternatives) {
        return Pattern.compile("(?<![\\p{L}'])(?:" + alternatives + ")(?![\\p{L}'])");
    }

    /** What the notes among these events say was done, in their order. */
    static List<Ventilated> in(List<FiringEvent> events) {
        List<Ventilated> done = new ArrayList<>();
        for (FiringEvent event : events) {
            if (event.kind() == FiringEvent.Kind.NOTE) {
                event.text()
                        .flatMap(OpeningNotes::how)
                        .ifPresent(how -> done.add(new Ventilated(event.elapsedMs() / 1000.0, how)));
            }
        }
        return done;
    }

    /**
     * Whether the lid stood open at a moment, as far as notes say.
     *
     * @param elapsedMs on the recording's clock
     */
    public static boolean isLidOpen(List<FiringEvent> events, long elapsedMs) {
        return in(events).stream()
                .filter(each -> each.sinceS() * 1000 <= elapsedMs)
                .filter(each -> each.how() == How.LID_PROPPED || each.how() == How.SHUT)
                .reduce((before, after) -> after)
                .filter(last -> last.how() == How.LID_PROPPED)
                .isPresent();
    }

    /** What a note says was done; empty when it says no such thing, or that it was not. */
    static Optional<How> how(String note) {
        String text = note.toLowerCase(Locale.ROOT);
        if (has(NOT, text)) {
            return Optional.empty();
        }
        boolean lid = has(LID, text);
        boolean bung = has(BUNG, text);
        boolean vent = has(VENT, text);
        if (lid && has(OPENED, text)) {
            return Optional.of(How.LID_PROPPED);
        }
        if (bung && has(OUT, text)) {
            return Optional.of(How.BUNG_OUT);
        }
        if ((lid || bung) && has(SHUT, text) || vent && has(OFF, text)) {
            return Optional.of(How.SHUT);
        }
        return vent && has(ON, text) ? Optional.of(How.VENT_ON) : Optional.empty();
    }

    private static boolean has(Pattern words, String text) {
        return words.matcher(text).find();
    }
}
