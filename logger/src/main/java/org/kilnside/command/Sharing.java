package org.kilnside.command;

import java.io.IOException;
import java.io.PrintWriter;
import java.security.SecureRandom;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.kilnside.host.Networks;
import org.kilnside.host.Places;
import org.kilnside.link.LinkNotation;
import org.kilnside.link.share.ShareFiles;
import org.kilnside.link.share.ShareKey;
import org.kilnside.link.share.Token;
import org.kilnside.wording.Words;
import picocli.CommandLine.Option;

/** Whether other computers may follow what is recorded here (a mixin). */
final class Sharing {
    @Option(
            names = "--share",
            paramLabel = "lan[,notes]",
            description =
                    "Lets other computers of the network follow that know the token: \"lan\" to look, \"lan,notes\""
                            + " to add notes and acknowledge alarms too. Without it nobody on the network can.")
    private Optional<String> share = Optional.empty();

    @Option(
            names = "--share-port",
            paramLabel = "PORT",
            defaultValue = "" + LinkNotation.SHARE_PORT,
            description = "The port to share on (${DEFAULT-VALUE}, unless given).")
    private int port;

    /** What is opened to the network. */
    record Opened(ShareKey key, boolean takesNotes, int port) {}

    /** What the person asked for; a token is made and shown where there is none yet. Empty when nothing is shared. */
    Optional<Opened> asked(Surroundings around) {
        if (share.isEmpty()) {
            return Optional.empty();
        }
        boolean notes = switch (share.get()) {
            case "lan" -> false;
            case "lan,notes" -> true;
            default ->
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--share takes \"lan\" or \"lan,notes\", found \"" + share.get() + "\".");
        };
        if (port < 1 || port > 65_535) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE, "--share-port takes a port from 1 to 65535, found " + port + ".");
        }
        try {
            ShareFiles files = new ShareFiles(Places.settings());
            Optional<ShareKey> there = files.key();
            if (there.isEmpty() && isService()) {
                throw new Complaint(
                        Complaint.ExitCode.INPUT,
                        "--share needs a token, and a service's log is no place to show one: run \"kilnside share new\""
                                + " once, as the same user.");
            }
            ShareKey key = there.isPresent() ? there.get() : makeNew(files, around.out(), around.words());
            return Optional.of(new Opened(key, notes, port));
        } catch (IOException e) {
            throw new Complaint(Complaint.ExitCode.INPUT, sentence(e));
        }
    }

    /** Makes a key and its token, shows the token this one time, and keeps its sum. */
    static ShareKey makeNew(ShareFiles files, PrintWriter out, Words words) throws IOException {
        SecureRandom chance = new SecureRandom();
        Token token = Token.random(chance);
        ShareKey key = ShareKey.of(token, chance, LocalDate.now(ZoneId.systemDefault()));
        files.save(key);
        out.println(words.text("share.token", token.typed()));
        out.println(words.text("share.token_once"));
        out.flush();
        return key;
    }

    /** Opens a recording to the network as asked, and says how the second computer gets here, or why it does not yet. */
    static void open(Opened opened, Recorder recorder, Surroundings around) {
        recorder.share(opened, around.clock())
                .ifPresentOrElse(
                        why -> {
                            around.err().println("kilnside: " + why + " It is tried again each half minute.");
                            around.err().flush();
                        },
                        () -> sayWhere(opened, around.out(), around.words()));
    }

    /** Says how the second computer gets here. */
    private static void sayWhere(Opened opened, PrintWriter out, Words words) {
        List<String> addresses = Networks.addresses();
        String port = opened.port() == LinkNotation.SHARE_PORT ? "" : ":" + opened.port();
        out.println(
                addresses.isEmpty()
                        ? words.text("share.no_network")
                        : words.text(
                                opened.takesNotes() ? "share.open_notes" : "share.open",
                                addresses.get(0) + port,
                                String.join(", ", addresses)));
        out.flush();
    }

    static String sentence(IOException e) {
        String said = String.valueOf(e.getMessage());
        return said.endsWith(".") ? said : said + ".";
    }

    /** A service manager's log is kept for weeks and read by others. */
    private static boolean isService() {
        return System.console() == null
                && (System.getenv("INVOCATION_ID") != null || System.getenv("JOURNAL_STREAM") != null);
    }
}
