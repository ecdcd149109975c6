package org.kilnside.command;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.kilnside.session.Post;
import org.kilnside.wording.Language;
import org.kilnside.wording.Words;

/**
 * Writes down what stands in the way of an alarm being heard at this computer, each trouble as it begins. Confined to the
 * night watch.
 */
final class UnheardOnRecord {
    private final Words words;
    private final Consumer<String> record;
    private List<String> recorded = List.of();
    private Language recordedIn;

    UnheardOnRecord(Words words, Consumer<String> record) {
        this.words = words;
        this.record = record;
        this.recordedIn = words.language();
    }

    /**
     * @param rung whether anything should have been heard: a board without a loudspeaker is nothing to write down before
     */
    void look(Post post, boolean rung) {
        List<String> troubles = new ArrayList<>();
        if (rung) {
            post.soundTrouble().ifPresent(troubles::add);
        }
        post.commandTrouble().ifPresent(why -> troubles.add(words.text("post.command_failed", why)));
        if (post.awake() == Post.Awake.REFUSED) {
            post.sleepWhy().ifPresent(troubles::add);
        }
        // What is said anew in another language has been written down before.
        if (words.language() == recordedIn || recorded.isEmpty()) {
            troubles.stream().filter(trouble -> !recorded.contains(trouble)).forEach(record);
        }
        recordedIn = words.language();
        recorded = troubles;
    }
}
