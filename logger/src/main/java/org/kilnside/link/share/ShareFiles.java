package org.kilnside.link.share;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.Properties;

/**
 * What two copies that share a recording keep, in the person's settings folder: the recorder the key and the token's
 * sum, the other copy the token, as it needs it again whenever it comes back.
 */
public final class ShareFiles {
    private final Path shared;
    private final Path attached;

    /** The files of a settings folder. */
    public ShareFiles(Path settings) {
        shared = settings.resolve("share.properties");
        attached = settings.resolve("attached.properties");
    }

    /**
     * The recorder's key; empty when none was made.
     *
     * @throws IOException with a sentence when there is one that cannot be read
     */
    public Optional<ShareKey> key() throws IOException {
        if (!Files.exists(shared)) {
            return Optional.empty();
        }
        try {
            return Optional.of(ShareKey.read(PrivateFile.read(shared)));
        } catch (IOException | IllegalArgumentException e) {
            throw new IOException(
                    "The key for sharing in " + shared + " cannot be read (" + e.getMessage()
                            + "): make a new one with \"kilnside share new\", and type its token on the other computers.",
                    e);
        }
    }

    /** Puts a key in the place of any before it: the tokens before it open nothing any more. */
    public void save(ShareKey key) throws IOException {
        PrivateFile.write(
                shared, key.written(), "Kilnside: the key other copies follow this one under. Keep it to yourself.");
    }

    /** Takes the key away; true when there was one. */
    public boolean forget() throws IOException {
        return Files.deleteIfExists(shared);
    }

    /** The token once typed for a recorder. */
    public Optional<Token> token(String recorder) {
        if (!Files.exists(attached)) {
            return Optional.empty();
        }
        try {
            return Optional.ofNullable(PrivateFile.read(attached).getProperty(recorder))
                    .map(Token::parse);
        } catch (IOException | IllegalArgumentException e) {
            // A file spoilt by hand: the token is asked for again, and the file made anew.
            return Optional.empty();
        }
    }

    /** Keeps the token for a recorder. */
    public void keep(String recorder, Token token) throws IOException {
        Properties properties = new Properties();
        if (Files.exists(attached)) {
            try {
                properties = PrivateFile.read(attached);
            } catch (IOException e) {
                properties = new Properties();
            }
        }
        properties.setProperty(recorder, token.typed());
        PrivateFile.write(attached, properties, "Kilnside: the tokens of recorders this computer follows.");
    }
}
