package org.kilnside.app;

import java.io.IOException;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kilnside.book.RookLaneBook;
import org.kilnside.command.KilnsideCommand;
import org.kilnside.host.Places;
import picocli.CommandLine;

/**
 * Runs the commands of the documents one after the other, in one process whose settings and book are its own. The first
 * argument is the folder for the files they name, the rest are the commands. Of each it says on a line of its own whether
 * it was {@code run}, or {@code read} because it needs a controller, a second computer or a person, and the exit code.
 */
final class SnippetRun {
    /** Letters and parts in quotes, up to the next space. */
    private static final Pattern WORD = Pattern.compile("(?:\"[^\"]*\"|[^\\s\"])+");

    /** What goes on until somebody ends it, or rings. */
    private static final Set<String> GOES_ON = Set.of("demo", "desk", "record", "watch", "alarm-test");

    private SnippetRun() {}

    public static void main(String[] arguments) throws IOException {
        Path folder = Path.of(arguments[0]);
        RookLaneBook.write(Places.book(), 12, 60_000);
        for (String file : new String[] {"bisque.csv", "glaze.csv", "firing.csv"}) {
            execute(List.of("book", "export", "2", "--to", folder.resolve(file).toString()), new StringWriter());
        }
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        for (int i = 1; i < arguments.length; i++) {
            List<String> words = words(arguments[i], folder);
            StringWriter said = new StringWriter();
            int exit;
            if (GOES_ON.contains(words.get(0)) || arguments[i].contains("/dev/")) {
                exit = read(words, said);
                out.println("read " + exit + ": " + arguments[i]);
            } else {
                exit = execute(words, said);
                out.println("run " + exit + ": " + arguments[i]);
            }
            if (exit != 0) {
                out.println(said);
            }
        }
        System.exit(0);
    }

    private static CommandLine line(StringWriter said) {
        PrintWriter writer = new PrintWriter(said, true);
        return KilnsideCommand.line(Kilnside.commands()).setOut(writer).setErr(writer);
    }

    private static int execute(List<String> words, StringWriter said) {
        return line(said).execute(words.toArray(String[]::new));
    }

    /** Whether the command line knows the command and each of its words. */
    private static int read(List<String> words, StringWriter said) {
        try {
            line(said).parseArgs(words.toArray(String[]::new));
            return 0;
        } catch (CommandLine.ParameterException off) {
            said.write(String.valueOf(off.getMessage()));
            return 2;
        }
    }

    /** As a shell takes them apart; files that are named lie in the folder, and what is written is not there yet. */
    private static List<String> words(String command, Path folder) throws IOException {
        List<String> words = new ArrayList<>();
        Matcher word = WORD.matcher(command);
        while (word.find()) {
            String plain = word.group().replace("\"", "");
            boolean isFile = plain.matches("(/media/)?[a-z0-9/-]+\\.(csv|html|book)");
            words.add(isFile ? folder.resolve(plain.replaceAll(".*/", "")).toString() : plain);
        }
        int to = words.indexOf("--to");
        if (to >= 0) {
            Files.deleteIfExists(Path.of(words.get(to + 1)));
        }
        if (words.get(0).equals("alarms")) {
            // Every minute of it is judged with a forecast of its own: the first hours are enough here.
            Path whole = Path.of(words.get(1));
            Path part = whole.resolveSibling("part-of-" + whole.getFileName());
            Files.write(part, Files.readAllLines(whole).stream().limit(150).toList());
            words.set(1, part.toString());
        }
        return words;
    }
}
