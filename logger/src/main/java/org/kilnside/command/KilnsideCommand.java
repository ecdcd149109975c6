package org.kilnside.command;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.kilnside.book.BookException;
import org.kilnside.files.FileRefusedException;
import org.kilnside.link.BadLinkException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.UnmatchedArgumentException;

/** The root of the command line. */
@Command(
        name = "kilnside",
        mixinStandardHelpOptions = true,
        version = "Kilnside 0.1.0",
        description =
                "The companion of a kiln run by a home-built controller: it listens, keeps the book, and tells you how the firing is going. It never switches anything.",
        footer = {
            "",
            "This program only listens. It is no safety device: the kiln needs its own independent over-temperature cut-out, and the kiln maker's instructions come first."
        })
public final class KilnsideCommand implements Runnable {
    @Spec
    private CommandSpec spec;

    private static final String PARSERS_OWN = "Error: ";

    private static final Pattern NO_NUMBER = Pattern.compile(
            "Invalid value for option '([^']+)'.*?: '(.*)' is not an? (double|int|long)", Pattern.DOTALL);

    private static final Pattern NOT_ONE_OF = Pattern.compile(
            "Invalid value for option '([^']+)'.*?: expected one of \\[(.*)\\] \\(case-insensitive\\) but was '(.*)'",
            Pattern.DOTALL);

    @Override
    public void run() {
        spec.commandLine().usage(spec.commandLine().getOut());
    }

    /**
     * The command line with every command under it, ready to execute.
     *
     * @param commands further commands by name
     */
    public static CommandLine line(Map<String, Object> commands) {
        CommandLine line = new CommandLine(new KilnsideCommand());
        commands.forEach(line::addSubcommand);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.setUsageHelpAutoWidth(true);
        line.setParameterExceptionHandler(KilnsideCommand::sayWhatIsOff);
        line.setExecutionExceptionHandler(KilnsideCommand::sayWhatFailed);
        return line;
    }

    private static int sayWhatIsOff(ParameterException off, String[] arguments) {
        CommandLine line = off.getCommandLine();
        PrintWriter err = line.getErr();
        String name = line.getCommandSpec().qualifiedName();
        String what = off instanceof UnmatchedArgumentException unmatched
                ? "\"" + String.join(" ", unmatched.getUnmatched()) + "\" is nothing that " + name + " knows"
                : inOwnWords(off.getMessage());
        err.println("kilnside: " + what + ". What it knows: " + name + " --help");
        err.flush();
        return Complaint.ExitCode.USAGE.code();
    }

    /**
     * A number that is none, or a word that is none of several, in a person's words; the parser would name the program's own
     * types and constants.
     */
    private static String inOwnWords(String said) {
        Matcher notOneOf = NOT_ONE_OF.matcher(said);
        if (notOneOf.matches()) {
            return notOneOf.group(1) + ": found \"" + notOneOf.group(3) + "\", expected one of "
                    + notOneOf.group(2).toLowerCase(Locale.ROOT);
        }
        Matcher noNumber = NO_NUMBER.matcher(said);
        if (!noNumber.matches()) {
            return said.startsWith(PARSERS_OWN) ? said.substring(PARSERS_OWN.length()) : said;
        }
        boolean whole = !noNumber.group(3).equals("double");
        return noNumber.group(1) + ": found \"" + noNumber.group(2) + "\", expected "
                + (whole ? "a whole number such as 12" : "a number with a decimal point such as 4.5");
    }

    private static int sayWhatFailed(Exception failure, CommandLine line, CommandLine.ParseResult result) {
        PrintWriter err = line.getErr();
        if (failure instanceof Complaint complaint) {
            err.println("kilnside: " + complaint.getMessage());
            err.flush();
            return complaint.exitCode().code();
        }
        if (failure instanceof FileRefusedException
                || failure instanceof BookException
                || failure instanceof BadLinkException) {
            // These say in one sentence what a person can put right.
            err.println("kilnside: " + failure.getMessage());
            err.flush();
            return Complaint.ExitCode.INPUT.code();
        }
        org.slf4j.LoggerFactory.getLogger(KilnsideCommand.class).error("unforeseen", failure);
        err.println("kilnside: something unforeseen went wrong (" + failure + "). Nothing already in the book is lost."
                + " The details are in the log file; please report it.");
        err.flush();
        return Complaint.ExitCode.FAILED.code();
    }
}
