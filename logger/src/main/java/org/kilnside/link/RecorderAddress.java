package org.kilnside.link;

import java.io.IOException;
import java.net.UnixDomainSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.Optional;

/**
 * Where the recorder of a book is reached on this computer: a socket in a folder that only the same user can enter,
 * named in a small file beside the book. The socket itself does not lie there because its path may have no more than
 * about 100 characters.
 */
public final class RecorderAddress {
    private RecorderAddress() {}

    /**
     * The recorder's own socket, written down beside the book for others to find.
     *
     * @throws IOException when the file or the socket's folder cannot be made
     */
    public static UnixDomainSocketAddress announce(Path book) throws IOException {
        Path socket = folder().resolve(shortHash(book.toRealPath().toString()) + ".socket");
        Files.writeString(beside(book), socket.toString(), StandardCharsets.UTF_8);
        return UnixDomainSocketAddress.of(socket);
    }

    /** The socket that the book's last recorder announced; it may be gone by now. Empty when none ever did. */
    public static Optional<UnixDomainSocketAddress> find(Path book) {
        try {
            return Optional.of(UnixDomainSocketAddress.of(
                    Files.readString(beside(book), StandardCharsets.UTF_8).strip()));
        } catch (IOException | InvalidPathException e) {
            return Optional.empty();
        }
    }

    private static Path beside(Path book) {
        return book.resolveSibling(book.getFileName() + ".stream");
    }

    private static Path folder() throws IOException {
        String runtime = System.getenv("XDG_RUNTIME_DIR");
        Path base = runtime != null && Files.isWritable(Path.of(runtime))
                ? Path.of(runtime)
                : Path.of(System.getProperty("java.io.tmpdir"));
        Path folder = base.resolve("kilnside-" + shortHash(System.getProperty("user.name")));
        if (!Files.isDirectory(folder)) {
            if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
                Files.createDirectories(
                        folder, PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rwx------")));
            } else {
                Files.createDirectories(folder);
            }
        }
        if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")
                && (!Files.getPosixFilePermissions(folder).equals(PosixFilePermissions.fromString("rwx------"))
                        || Files.isSymbolicLink(folder)
                        || !Files.getOwner(folder).getName().equals(System.getProperty("user.name")))) {
            throw new IOException("the folder " + folder
                    + " should be open to its owner alone and is not: remove it, and start Kilnside again");
        }
        return folder;
    }

    private static String shortHash(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest, 0, 8);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }
}
