package org.kilnside.desktop.kiln;

import java.util.List;
import java.util.Optional;
import org.kilnside.files.KilnSetting;
import org.kilnside.firing.Kiln;
import org.kilnside.thermal.ElementStrength;
import org.kilnside.wording.Words;

/** What is known of the kilns: a port the app fills. Every method waits for the disk. */
public interface KilnShelf {
    /** The names of all kilns. */
    List<String> kilns();

    /**
     * What is known of a kiln; one that nobody has described yet is a kiln of which only the name is known.
     *
     * @throws RefusedException with one sentence when its file cannot be read
     */
    Page open(String kiln, Words words);

    /**
     * How strong its elements were in its newest firings; may take seconds. Empty where the book has none.
     *
     * @throws RefusedException with one sentence when the book cannot be read
     */
    Optional<Elements> elements(Page page);

    /**
     * Writes one setting into the kiln's file.
     *
     * @param value as a person types it, with its unit; empty takes the setting out
     * @throws RefusedException with one sentence when the kiln cannot be so, and nothing is written
     */
    Page set(String kiln, KilnSetting setting, Optional<String> value, Words words);

    /**
     * A kiln as it stands.
     *
     * @param kiln what its file says
     * @param file where that lies
     */
    record Page(Kiln kiln, String file) {}

    /**
     * What a kiln's firings say of its elements.
     *
     * @param firings the numbers of the firings looked at, oldest first
     */
    record Elements(ElementStrength strength, List<Long> firings) {
        public Elements {
            firings = List.copyOf(firings);
        }
    }
}
