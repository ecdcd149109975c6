package org.kilnside.wording;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.session.Post;
import org.kilnside.session.Snapshot;

/** Says how the computers that keep watch stand: whether an alarm would be heard. */
public final class PostWords {
    private final Words words;

    public PostWords(Words words) {
        this.words = words;
    }

    /** What stands in the way of hearing an alarm from a computer, one sentence each; empty when nothing does. */
    public List<String> troubles(Post post) {
        List<String> troubles = new ArrayList<>();
        if (post.awake() == Post.Awake.REFUSED) {
            troubles.add(words.text("post.may_sleep", post.sleepWhy().orElse("")));
        }
        post.soundTrouble().ifPresent(why -> troubles.add(words.text("post.no_sound", why)));
        post.commandTrouble().ifPresent(why -> troubles.add(words.text("post.command_failed", why)));
        if (post.waiting() > 0) {
            troubles.add(words.text("post.waiting", post.waiting()));
        }
        if (post.tooLate() > 0) {
            troubles.add(words.text("post.too_late", post.tooLate()));
        }
        return troubles;
    }

    /** All there is to say of a computer, a sentence or two each line. */
    public List<String> lines(Post post) {
        List<String> lines = new ArrayList<>(troubles(post));
        if (post.awake() != Post.Awake.REFUSED) {
            lines.add(words.named("post.awake", post.awake()));
        }
        if (post.sounds() && post.soundTrouble().isEmpty()) {
            lines.add(words.text("post.sounds"));
        } else if (!post.sounds()) {
            lines.add(words.text("post.silent"));
        }
        if (post.commandTrouble().isEmpty()) {
            lines.add(words.text(post.hasCommand() ? "post.command" : "post.no_command"));
        }
        lines.add(tested(post.testedAt()));
        post.heard().forEach(where -> lines.add(heard(where)));
        if (post.followers().isPresent()) {
            lines.add(words.text("post.followers", post.followers().getAsInt()));
        }
        return lines;
    }

    private String heard(Post.Heard where) {
        return words.text("post.heard", where.computer(), words.day(where.at()) + " " + words.time(where.at()));
    }

    /** Where the test of the night's alarm was last heard, for the list before lighting: a sentence each. */
    public List<String> lastHeard(Snapshot snapshot) {
        List<String> said = new ArrayList<>();
        for (Post post : snapshot.posts()) {
            post.testedAt()
                    .ifPresent(at -> said.add(
                            post.role() == Post.Role.RECORDER
                                    ? words.text("post.heard_recorder", words.day(at) + " " + words.time(at))
                                    : words.text("post.heard_copy", words.day(at) + " " + words.time(at))));
            post.heard().forEach(where -> said.add(heard(where)));
        }
        return said.isEmpty() ? List.of(words.text("lighting.never_heard")) : said;
    }

    /** When an alarm was last tested and heard. */
    public String tested(Optional<Instant> at) {
        return at.map(when -> words.text("post.tested", words.day(when) + " " + words.time(when)))
                .orElseGet(() -> words.text("post.never_tested"));
    }

    /** Which computer it is. */
    public String name(Post post) {
        return words.named("post.role", post.role());
    }

    /** The first thing in the way of hearing an alarm, and of which computer; empty when nothing is. */
    public Optional<String> firstTrouble(Snapshot snapshot) {
        return snapshot.posts().stream()
                .filter(Post::hasTrouble)
                .findFirst()
                .map(post -> words.text("post.of", name(post), troubles(post).get(0)));
    }
}
