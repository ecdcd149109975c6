package org.kilnside.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.regex.Pattern;
import org.kilnside.files.JsonObject;
import org.kilnside.sensor.ReferenceFunction;
import org.kilnside.sensor.ThermocoupleType;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The thermocouple's own function, both ways. */
@Command(
        name = "emf",
        mixinStandardHelpOptions = true,
        description = {
            "Gives the voltage of a thermocouple at a temperature, or the temperature of a voltage (ITS-90).",
            "The number \"-\" reads numbers from standard input, one a line."
        })
public final class EmfCommand implements Callable<Integer> {
    private static final Pattern NUMBER =
            Pattern.compile("[+-]?(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?");
    private static final String FROM_INPUT = "-";
    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private final InputStream input;

    @Mixin
    private Surroundings around;

    @Parameters(index = "0", paramLabel = "TYPE", description = "The thermocouple: K, N, S, R, B, J, T or E.")
    private String letter;

    @ArgGroup(multiplicity = "1")
    private Question question;

    @Option(
            names = "--cold",
            paramLabel = "°C",
            description = "The temperature of the other end of the wires (0 °C, unless given).")
    private Optional<String> cold = Optional.empty();

    @Option(names = "--json", description = "One JSON object a value.")
    private boolean json;

    /** A temperature or a voltage, never both. */
    static final class Question {
        @Option(names = "--temp", paramLabel = "°C", description = "The temperature at the tip, in °C.")
        private List<String> temperatures = List.of();

        @Option(names = "--mv", paramLabel = "mV", description = "The voltage, in mV.")
        private List<String> voltages = List.of();
    }

    public EmfCommand() {
        this(System.in);
    }

    /** @param input where numbers come from when "-" is asked for */
    EmfCommand(InputStream input) {
        this.input = input;
    }

    @Override
    public Integer call() {
        ThermocoupleType type = type(letter);
        ReferenceFunction function = ReferenceFunction.of(type);
        double coldC = cold.map(text -> ask("--cold", text)).orElse(0.0);
        double coldMv = coldEmfMv(function, coldC);
        boolean byTemperature = !question.temperatures.isEmpty();
        String option = byTemperature ? "--temp" : "--mv";
        PrintWriter out = around.out();
        for (String text : byTemperature ? question.temperatures : question.voltages) {
            if (text.equals(FROM_INPUT)) {
                answerInput(out, function, byTemperature, coldC, coldMv);
            } else {
                double given = ask(option, text);
                Answer answer = answer(function, byTemperature, given, coldMv);
                if (answer.reason.isPresent()) {
                    throw new Complaint(Complaint.ExitCode.INPUT, option + ": " + answer.reason.get());
                }
                print(out, type, answer, coldC);
            }
        }
        out.flush();
        return Complaint.ExitCode.DONE.code();
    }

    /** A value with its other half, or why there is none. */
    private record Answer(Optional<Double> mv, Optional<Double> celsius, Optional<String> reason) {
        static Answer none(String reason) {
            return new Answer(Optional.empty(), Optional.empty(), Optional.of(reason));
        }
    }

    private void answerInput(
            PrintWriter out, ReferenceFunction function, boolean byTemperature, double coldC, double coldMv) {
        long asked = 0;
        long answered = 0;
        try (BufferedReader lines = new BufferedReader(new InputStreamReader(input, StandardCharsets.UTF_8))) {
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                Optional<Double> given = number(line);
                Answer answer = given.isPresent()
                        ? answer(function, byTemperature, given.get(), coldMv)
                        : Answer.none(noNumber(line, byTemperature ? "1000" : "41.276"));
                print(out, function.type(), answer, coldC);
                asked++;
                answered += answer.reason.isEmpty() ? 1 : 0;
            }
        } catch (IOException e) {
            throw new Complaint(
                    Complaint.ExitCode.INPUT,
                    "standard input could not be read (" + e.getMessage()
                            + "), expected numbers, one a line; give a file" + " with < or the numbers through a pipe");
        }
        if (answered == 0) {
            out.flush();
            throw new Complaint(
                    Complaint.ExitCode.INPUT,
                    "standard input: found "
                            + (asked == 0
                                    ? "no line at all"
                                    : "nothing to answer in what was read (lines: " + asked + ")")
                            + ", expected numbers, one a line, as UTF-8 text; give a file with < or the numbers through"
                            + " a pipe");
        }
    }

    private static Answer answer(ReferenceFunction function, boolean byTemperature, double given, double coldMv) {
        try {
            return byTemperature
                    ? new Answer(Optional.of(function.emfMv(given) - coldMv), Optional.of(given), Optional.empty())
                    : new Answer(
                            Optional.of(given), Optional.of(function.temperatureC(given + coldMv)), Optional.empty());
        } catch (IllegalArgumentException e) {
            String reason = coldMv == 0
                    ? e.getMessage()
                    : e.getMessage() + " (the cold end's " + String.format(Locale.ROOT, "%.3f", coldMv)
                            + " mV included)";
            return byTemperature
                    ? new Answer(Optional.empty(), Optional.of(given), Optional.of(e.getMessage()))
                    : new Answer(Optional.of(given), Optional.empty(), Optional.of(reason));
        }
    }

    private void print(PrintWriter out, ThermocoupleType type, Answer answer, double coldC) {
        if (json) {
            JsonObject object = new JsonObject()
                    .with("type", type.name())
                    .with("mv", answer.mv, value -> value)
                    .with("temp_c", answer.celsius, value -> value);
            if (cold.isPresent()) {
                object.with("cold_c", coldC);
            }
            answer.reason.ifPresent(reason -> object.with("reason", reason));
            out.println(object);
        } else if (answer.reason.isPresent()) {
            out.println("null  " + answer.reason.get());
        } else {
            out.println(String.format(
                    Locale.ROOT,
                    "type %s  %.3f °C  %.4f mV%s",
                    type,
                    answer.celsius.orElseThrow(),
                    answer.mv.orElseThrow(),
                    cold.isPresent() ? String.format(Locale.ROOT, "  (cold end at %.2f °C)", coldC) : ""));
        }
    }

    private static double coldEmfMv(ReferenceFunction function, double coldC) {
        if (coldC == 0) {
            return 0;
        }
        try {
            return function.emfMv(coldC);
        } catch (IllegalArgumentException e) {
            throw new Complaint(Complaint.ExitCode.INPUT, "--cold: " + e.getMessage());
        }
    }

    private static ThermocoupleType type(String letter) {
        for (ThermocoupleType type : ThermocoupleType.values()) {
            if (type.name().equalsIgnoreCase(letter.strip())) {
                return type;
            }
        }
        throw new Complaint(
                Complaint.ExitCode.USAGE,
                "there is no thermocouple type \"" + letter + "\": name one of K, N, S, R, B, J, T or E");
    }

    private static double ask(String option, String text) {
        return number(text)
                .orElseThrow(() -> new Complaint(
                        Complaint.ExitCode.USAGE,
                        option + ": " + noNumber(text, option.equals("--mv") ? "41.276" : "1000")));
    }

    private static Optional<Double> number(String text) {
        String plain = text.replace(BYTE_ORDER_MARK, "").strip().replace('\u2212', '-');
        if (!NUMBER.matcher(plain).matches()) {
            return Optional.empty();
        }
        double value = Double.parseDouble(plain);
        return Double.isFinite(value) ? Optional.of(value) : Optional.empty();
    }

    private static String noNumber(String text, String example) {
        String shown = text.length() > 40 ? text.substring(0, 40) + "…" : text;
        return "found \"" + shown.replaceAll("\\p{Cntrl}", "?") + "\", expected a number with a decimal point, such as "
                + example;
    }
}
