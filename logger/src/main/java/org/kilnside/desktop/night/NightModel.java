package org.kilnside.desktop.night;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.kilnside.firing.Lighting;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.session.Snapshot;
import org.kilnside.wording.LightingWords;
import org.kilnside.wording.PostWords;
import org.kilnside.wording.ProgramCard;
import org.kilnside.wording.Words;

/**
 * All the Night screen says, worked out from a snapshot. Plain values: the views only draw them.
 *
 * @param noted what the record has of the list; empty while it has nothing
 * @param summary the same in words, or that nothing is noted yet
 * @param listOpen whether the list can be written into the record from here now
 * @param card what to key into the controller; empty without a plan
 * @param lastHeard where a test of the night's alarm was last heard, a sentence each
 * @param posts the computers that keep watch
 */
public record NightModel(
        Optional<Lighting> noted,
        String summary,
        boolean listOpen,
        Optional<ProgramCard> card,
        List<String> lastHeard,
        List<PostLines> posts) {
    public NightModel {
        lastHeard = List.copyOf(lastHeard);
        posts = List.copyOf(posts);
    }

    /** One computer, what there is to say of it, and which of that is trouble. */
    public record PostLines(String name, List<String> lines, Set<String> troubles) {
        public PostLines {
            lines = List.copyOf(lines);
            troubles = Set.copyOf(troubles);
        }
    }

    /**
     * @param takesNotes whether what is ticked here is heard by the recorder
     * @param numbers the controller's own, in which the card is
     */
    public static NightModel of(Snapshot snapshot, boolean takesNotes, ControllerNumbers numbers, Words words) {
        LightingWords lighting = new LightingWords(words);
        PostWords posts = new PostWords(words);
        Optional<Lighting> noted = snapshot.lighting();
        return new NightModel(
                noted,
                noted.map(lighting::summary).orElseGet(() -> words.text("night.not_noted")),
                takesNotes,
                snapshot.plan().map(plan -> ProgramCard.of(plan, snapshot.kiln(), numbers, words)),
                posts.lastHeard(snapshot),
                snapshot.posts().stream()
                        .map(post ->
                                new PostLines(posts.name(post), posts.lines(post), Set.copyOf(posts.troubles(post))))
                        .toList());
    }
}
