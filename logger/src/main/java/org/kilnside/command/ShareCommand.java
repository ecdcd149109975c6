package org.kilnside.command;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.kilnside.host.Networks;
import org.kilnside.host.Places;
import org.kilnside.link.share.ShareFiles;
import org.kilnside.link.share.ShareKey;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** The token other computers follow this one with. */
@Command(
        name = "share",
        mixinStandardHelpOptions = true,
        subcommands = {ShareCommand.New.class, ShareCommand.Show.class, ShareCommand.Forget.class},
        description = "Makes, looks at or takes back the token with which other computers follow a recording.")
public final class ShareCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Override
    public Integer call() {
        around.usage();
        return Complaint.ExitCode.USAGE.code();
    }

    /** A new token. */
    @Command(
            name = "new",
            mixinStandardHelpOptions = true,
            description = "Makes a new token and shows it this one time. Tokens made before open nothing any more.")
    static final class New implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Override
        public Integer call() {
            try {
                Sharing.makeNew(new ShareFiles(Places.settings()), around.out(), around.words());
                around.out().println(around.words().text("share.new_from_next"));
                return Complaint.ExitCode.DONE.code();
            } catch (IOException e) {
                throw new Complaint(Complaint.ExitCode.INPUT, Sharing.sentence(e));
            }
        }
    }

    /** Whether there is one. */
    @Command(
            name = "show",
            mixinStandardHelpOptions = true,
            description = "Says whether there is a token, since when, and this computer's addresses. The token itself"
                    + " is not kept and cannot be shown again.")
    static final class Show implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Override
        public Integer call() {
            Words words = around.words();
            try {
                Optional<ShareKey> key = new ShareFiles(Places.settings()).key();
                around.out()
                        .println(
                                key.isPresent()
                                        ? words.text("share.there", key.get().since())
                                        : words.text("share.none"));
                List<String> addresses = Networks.addresses();
                around.out()
                        .println(
                                addresses.isEmpty()
                                        ? words.text("share.no_network")
                                        : words.text("share.addresses", String.join(", ", addresses)));
                return Complaint.ExitCode.DONE.code();
            } catch (IOException e) {
                throw new Complaint(Complaint.ExitCode.INPUT, Sharing.sentence(e));
            }
        }
    }

    /** No token any more. */
    @Command(
            name = "forget",
            mixinStandardHelpOptions = true,
            description = "Takes the token back: no other computer can follow from the next recording on.")
    static final class Forget implements Callable<Integer> {
        @Mixin
        private Surroundings around;

        @Override
        public Integer call() {
            try {
                boolean any = new ShareFiles(Places.settings()).forget();
                around.out().println(around.words().text(any ? "share.forgotten" : "share.none"));
                return Complaint.ExitCode.DONE.code();
            } catch (IOException e) {
                throw new Complaint(Complaint.ExitCode.INPUT, Sharing.sentence(e));
            }
        }
    }
}
