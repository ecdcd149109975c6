package org.kilnside.files;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.ZoneId;
import org.kilnside.files.FileRefusedException.Problem;

/**
 * Logs as CSV files, whoever wrote them; what is taken and what is refused is described in docs/logs.md. A bad row never
 * spoils a log: it is left out, counted and said.
 */
public final class CsvLogs {
    private static final String KIND = "a log as CSV text";

    private CsvLogs() {}

    /**
     * Reads a log; times that name no offset are of the computer's own zone.
     *
     * @throws FileRefusedException when the file is missing, unreadable or no log
     */
    public static Log read(Path path) {
        return read(path, ZoneId.systemDefault());
    }

    /**
     * Reads a log.
     *
     * @param zone the zone of times that name no offset
     * @throws FileRefusedException when the file is missing, unreadable or no log
     */
    public static Log read(Path path, ZoneId zone) {
        String file = path.toString();
        if (file.isEmpty()) {
            throw refused("\"\"", "a log's name was expected here and there is none; name a file with " + KIND);
        }
        if (Files.isDirectory(path)) {
            throw refused(file, "this is a folder, expected " + KIND + "; name one of the files in it");
        }
        try (InputStream stream = new BufferedInputStream(Files.newInputStream(path), 65_536)) {
            return read(new InputStreamReader(stream, charset(stream)), file, zone);
        } catch (NoSuchFileException e) {
            throw refused(file, "there is no such file, expected " + KIND + "; check the name and the folder");
        } catch (AccessDeniedException e) {
            throw refused(file, "this file may not be read; ask its owner for permission to read it");
        } catch (IOException e) {
            throw refused(file, "this file cannot be read (" + e.getMessage() + "); check the disk and try again");
        }
    }

    /**
     * Reads a log from text, such as standard input.
     *
     * @param file how the person knows it; begins every message
     * @param zone the zone of times that name no offset
     * @throws FileRefusedException when it is no log
     */
    public static Log read(Reader reader, String file, ZoneId zone) throws IOException {
        return new CsvLogReader(new LineSource(reader, file), file, zone).read();
    }

    /** Spreadsheets save "Unicode text" as UTF-16 with a mark in front; everything else is taken as UTF-8. */
    private static Charset charset(InputStream stream) throws IOException {
        stream.mark(2);
        int first = stream.read();
        int second = stream.read();
        stream.reset();
        boolean wide = (first == 0xFF && second == 0xFE) || (first == 0xFE && second == 0xFF);
        return wide ? StandardCharsets.UTF_16 : StandardCharsets.UTF_8;
    }

    private static FileRefusedException refused(String file, String sentence) {
        return new FileRefusedException(Problem.of(file, sentence));
    }
}
