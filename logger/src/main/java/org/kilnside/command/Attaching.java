package org.kilnside.command;

import java.io.IOException;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import org.kilnside.host.Places;
import org.kilnside.link.LinkNotation;
import org.kilnside.link.share.LanWire;
import org.kilnside.link.share.RecorderPlace;
import org.kilnside.link.share.ShareFiles;
import org.kilnside.link.share.Token;
import org.kilnside.wording.Words;
import picocli.CommandLine.Option;

/** Following a recorder on another computer (a mixin). */
final class Attaching {
    private static final int TRIES = 3;

    @Option(
            names = "--attach",
            paramLabel = "HOST[:PORT]",
            description = "Follows the Kilnside that records on another computer and shares it (record --share=lan)."
                    + " The token is asked for once and kept; KILNSIDE_TOKEN in the environment does as well.")
    private Optional<String> attach = Optional.empty();

    /**
     * The recorder the person named with {@code --attach}, or as a link.
     *
     * @param link the link given with {@code --from}; empty when none was
     */
    Optional<LinkNotation.Attach> recorder(Optional<String> link) {
        Optional<String> named =
                attach.map(name -> name.toLowerCase(Locale.ROOT).startsWith("attach:") ? name : "attach:" + name);
        if (named.isEmpty() && link.isEmpty()) {
            return Optional.empty();
        }
        return LinkNotation.parse(named.orElseGet(link::orElseThrow)) instanceof LinkNotation.Attach found
                ? Optional.of(found)
                : Optional.empty();
    }

    /**
     * Where the recorder is, with the token for it: the one kept, or one asked for and tried. A token is kept once the
     * recorder has taken it, or cannot be reached to try it.
     *
     * @param words in which the place says what goes wrong, as long as it is followed
     * @param ask asks the person a question; empty when there is nobody to ask or no answer
     */
    RecorderPlace place(
            LinkNotation.Attach recorder, Surroundings around, Words words, Function<String, Optional<String>> ask) {
        ShareFiles files = new ShareFiles(Places.settings());
        Optional<Token> known = files.token(recorder.name());
        String before = "";
        for (int i = 0; i < TRIES; i++) {
            Optional<String> typed = i == 0 ? Optional.ofNullable(System.getenv("KILNSIDE_TOKEN")) : Optional.empty();
            if (known.isEmpty() || i > 0 || typed.isPresent()) {
                String question = before + around.words().text("attach.ask_token", recorder.name());
                if (typed.isEmpty()) {
                    typed = ask.apply(question);
                }
                if (typed.isEmpty()) {
                    throw new Complaint(
                            Complaint.ExitCode.INPUT,
                            before + around.words().text("attach.token_needed", recorder.name()));
                }
                try {
                    known = Optional.of(Token.parse(typed.get()));
                } catch (IllegalArgumentException e) {
                    before = capital(e.getMessage()) + ". ";
                    continue;
                }
            }
            try {
                RecorderPlace place =
                        RecorderPlace.onTheNetwork(recorder.host(), recorder.port(), known.orElseThrow(), words);
                tryOnce(place);
                files.keep(recorder.name(), known.get());
                return place;
            } catch (LanWire.RefusedException e) {
                before = around.words()
                                .text(e.wasTold() ? "attach.token_refused" : "attach.token_unknown", recorder.host())
                        + " ";
            } catch (IOException e) {
                throw new Complaint(
                        Complaint.ExitCode.INPUT,
                        around.words().text("attach.token_not_stored", Places.settings(), e.getMessage()));
            }
        }
        throw new Complaint(Complaint.ExitCode.INPUT, before.strip());
    }

    private static void tryOnce(RecorderPlace place) throws LanWire.RefusedException {
        try {
            place.connect().wire().close();
        } catch (LanWire.RefusedException e) {
            throw e;
        } catch (IOException e) {
            // Not there now: it is looked for as long as this copy runs, and rings meanwhile.
            return;
        }
    }

    private static String capital(String text) {
        return text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
