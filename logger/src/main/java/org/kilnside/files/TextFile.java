package org.kilnside.files;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.kilnside.files.FileRefusedException.Problem;

/** Small text files: everything that can be wrong with one before its content is looked at. */
final class TextFile {
    /** A plan of a hundred segments is 8 kB; what is larger than this was not written by a person. */
    static final int LARGEST_BYTES = 256 * 1024;

    private TextFile() {}

    /**
     * The file's text, without a byte order mark.
     *
     * @param path the file
     * @param kind what the file should be, with its article: "a plan"
     * @throws FileRefusedException when it is missing, no file, unreadable, too large, empty or no UTF-8 text
     */
    static String read(Path path, String kind) {
        String name = path.toString();
        if (Files.isDirectory(path)) {
            throw refused(name, "this is a folder, expected " + kind + " in a file; name one of the files in it");
        }
        byte[] bytes;
        try (InputStream stream = Files.newInputStream(path)) {
            bytes = stream.readNBytes(LARGEST_BYTES + 1);
        } catch (NoSuchFileException e) {
            throw refused(name, "there is no such file, expected " + kind + "; check the name and the folder");
        } catch (AccessDeniedException e) {
            throw refused(name, "this file may not be read; ask its owner for permission to read it");
        } catch (IOException e) {
            throw refused(name, "this file cannot be read (" + e.getMessage() + "); check the disk and try again");
        }
        if (bytes.length > LARGEST_BYTES) {
            throw refused(
                    name,
                    "this file is larger than " + LARGEST_BYTES / 1024 + " kB, far too large for " + kind
                            + "; check that it is the right file");
        }
        return decode(bytes, name, kind);
    }

    /** The text that bytes hold; the same refusals as for a file. */
    static String decode(byte[] bytes, String name, String kind) {
        if (startsWith(bytes, 0xFF, 0xFE) || startsWith(bytes, 0xFE, 0xFF)) {
            throw refused(name, "this file is UTF-16 text, expected UTF-8; save it again as UTF-8");
        }
        int skip = startsWith(bytes, 0xEF, 0xBB, 0xBF) ? 3 : 0;
        ByteBuffer in = ByteBuffer.wrap(bytes, skip, bytes.length - skip);
        for (int i = skip; i < bytes.length; i++) {
            if (bytes[i] == 0) {
                throw refused(
                        name, "this is a binary file, expected " + kind + " written as text; choose another file");
            }
        }
        String text;
        try {
            text = StandardCharsets.UTF_8.newDecoder().decode(in).toString();
        } catch (CharacterCodingException e) {
            throw notUtf8(bytes, skip, name);
        }
        if (text.isBlank()) {
            throw refused(name, "this file is empty, expected " + kind + "; start from one of the starter files");
        }
        return text;
    }

    /**
     * Writes a file so that a reader, or a power cut, finds the old text or the new one and never half of it.
     *
     * @throws FileRefusedException when it cannot be written
     */
    static void write(Path path, String text) {
        Path folder = path.toAbsolutePath().getParent();
        try {
            Path half = Files.createTempFile(folder, "." + path.getFileName(), ".part");
            try {
                Files.writeString(half, text, StandardCharsets.UTF_8);
                Files.move(half, path, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
            } finally {
                Files.deleteIfExists(half);
            }
        } catch (NoSuchFileException e) {
            throw refused(path.toString(), "there is no folder " + folder + "; make it first, or choose another");
        } catch (AccessDeniedException e) {
            throw refused(path.toString(), "this file may not be written; choose a folder of your own");
        } catch (IOException e) {
            throw refused(
                    path.toString(),
                    "this file cannot be written (" + e.getMessage() + "); check that the disk has room");
        }
    }

    /** Writes a file, and makes its folder where that is missing. */
    static void writeInto(Path path, String text) {
        Path folder = path.toAbsolutePath().getParent();
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw refused(
                    folder.toString(), "this folder cannot be made (" + e.getMessage() + "); check its permissions");
        }
        write(path, text);
    }

    private static boolean startsWith(byte[] bytes, int... start) {
        for (int i = 0; i < start.length; i++) {
            if (i >= bytes.length || (bytes[i] & 0xFF) != start[i]) {
                return false;
            }
        }
        return true;
    }

    private static FileRefusedException notUtf8(byte[] bytes, int skip, String name) {
        ByteBuffer in = ByteBuffer.wrap(bytes, skip, bytes.length - skip);
        CharBuffer out = CharBuffer.allocate(bytes.length);
        StandardCharsets.UTF_8.newDecoder().decode(in, out, true);
        int bad = in.position();
        int line = 1;
        int column = 1;
        for (char c : out.flip().toString().toCharArray()) {
            column = c == '\n' ? 1 : column + 1;
            line = c == '\n' ? line + 1 : line;
        }
        return new FileRefusedException(new Problem(
                name,
                line,
                column,
                String.format(
                        "the byte %02X is no UTF-8 text (a \"°\" from an older editor?); save the file again as UTF-8",
                        bytes[bad] & 0xFF)));
    }

    private static FileRefusedException refused(String file, String sentence) {
        return new FileRefusedException(Problem.of(file, sentence));
    }
}
