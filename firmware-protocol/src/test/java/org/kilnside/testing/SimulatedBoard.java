package org.kilnside.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A simulated board with the reference firmware on it, unmodified, in a process of its own: an ATmega328P, a
 * thermocouple amplifier whose temperature the test sets, and a pseudo-terminal as its USB cable. Several may run at
 * once. Times are seconds of the board's own simulated time since it was started; resets do not set them back.
 *
 * <p>What a pseudo-terminal cannot show: DTR and RTS. A board with {@link Builder#dtrWired()} takes each opening of
 * the terminal as DTR raised, which is what a program that does not hold it off does.
 */
public final class SimulatedBoard implements AutoCloseable {
    private static final Pattern CHIP =
            Pattern.compile("CHIP ([0-9.]+) (\\d+) t=(-?\\d+) j=(-?\\d+) f=(\\d+) bytes=([0-9a-f]+)");
    private static final Duration PATIENCE = Duration.ofSeconds(60);

    private final Process process;
    private final PrintStream commands;
    private final List<String> log = new ArrayList<>();
    private final List<ChipFrame> frames = new ArrayList<>();

    private SimulatedBoard(Process process) {
        this.process = process;
        this.commands = new PrintStream(process.getOutputStream(), false, StandardCharsets.US_ASCII);
        Thread listener = new Thread(this::listen, "simulated board");
        listener.setDaemon(true);
        listener.start();
    }

    /** A board with a MAX31855, at real time, on a pseudo-terminal of its own. */
    public static SimulatedBoard start() {
        return with().start();
    }

    /** A board to be described first. */
    public static Builder with() {
        return new Builder();
    }

    /**
     * One frame the amplifier answered in whole.
     *
     * @param seconds when, in simulated time
     * @param number counted from 1
     * @param thermocouple its code, in the amplifier's steps
     * @param coldJunction its code, in the amplifier's steps
     * @param faultBits fault bits as on the wire (bits.csv), 0 = none
     * @param bytes what went over the bus, in hex: other than the codes say where the bus was disturbed
     */
    public record ChipFrame(
            double seconds, long number, int thermocouple, int coldJunction, int faultBits, String bytes) {}

    /** What can be wrong with thermocouple, amplifier or its bus. */
    public enum Fault {
        NONE("none"),
        OPEN_CIRCUIT("open"),
        SHORT_TO_GROUND("ground"),
        SHORT_TO_SUPPLY("supply"),
        OUT_OF_RANGE("range"),
        COLD_JUNCTION_OUT_OF_RANGE("cold-range"),
        INPUT_VOLTAGE("voltage"),
        /** The bus reads all ones: the amplifier is not there. */
        NO_ANSWER("no-answer"),
        /** The bus reads all zeros. */
        STUCK_LOW("stuck-low"),
        /** One bit in about every third byte is wrong. */
        NOISE("noise");

        private final String word;

        Fault(String word) {
            this.word = word;
        }
    }

    /** Describes a board before it starts. */
    public static final class Builder {
        private String firmware = "firmware-max31855.elf";
        private String amplifier = "MAX31855";
        private final List<String> more = new ArrayList<>();

        private Builder() {}

        /** The firmware and the amplifier MAX31856 in place of MAX31855. */
        public Builder max31856() {
            firmware = "firmware-max31856.elf";
            amplifier = "MAX31856";
            return this;
        }

        /** The firmware built to begin 40 s before its uptime wraps. */
        public Builder uptimeAboutToWrap() {
            firmware = "firmware-max31855-wrap.elf";
            return this;
        }

        /** Simulated seconds a second; 0 = as fast as it goes. */
        public Builder speed(double speed) {
            more.add("--speed");
            more.add(Double.toString(speed));
            return this;
        }

        /** A path at which the board makes a link to its pseudo-terminal; it outlives unplugging and plugging in. */
        public Builder link(Path link) {
            more.add("--pty");
            more.add(link.toString());
            return this;
        }

        /** DTR is wired to RESET, as on many boards: each opening of the port restarts the firmware. */
        public Builder dtrWired() {
            more.add("--dtr-wired");
            return this;
        }

        /** Starts the board and waits until its port is there. */
        public SimulatedBoard start() {
            List<String> command = new ArrayList<>();
            command.add(NativeBuild.program("simulated_board").toString());
            command.add(NativeBuild.program(firmware).toString());
            command.add("--amplifier");
            command.add(amplifier);
            command.addAll(more);
            try {
                SimulatedBoard board = new SimulatedBoard(
                        new ProcessBuilder(command).redirectErrorStream(true).start());
                board.await("its port", lines -> lines.stream().anyMatch(line -> line.startsWith("READY ")));
                return board;
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    /** The port: the link if one was asked for, else the pseudo-terminal. After plugging in, the newest. */
    public Path pty() {
        return Path.of(last("READY ").orElseThrow().substring("READY ".length()));
    }

    /** Sets tip and cold junction at once, in °C as the amplifier shows them. */
    public void temperature(double celsius, double coldJunctionCelsius) {
        tell("t " + celsius);
        tell("cj " + coldJunctionCelsius);
    }

    /** Lets the tip move evenly from where it is to a temperature in °C, over a time of the board's own. */
    public void temperatureOver(double celsius, Duration time) {
        tell("t " + celsius + " " + time.toMillis() / 1000.0);
    }

    /** Lets the amplifier itself warm or cool evenly to a temperature in °C, over a time of the board's own. */
    public void coldJunctionOver(double celsius, Duration time) {
        tell("cj " + celsius + " " + time.toMillis() / 1000.0);
    }

    /** Sets tip and cold junction in °C at a moment of the board's own time: a whole curve can be given beforehand. */
    public void temperatureAt(double seconds, double celsius, double coldJunctionCelsius) {
        tell("at " + seconds + " t " + celsius);
        tell("at " + seconds + " cj " + coldJunctionCelsius);
    }

    public void fault(Fault fault) {
        tell("fault " + fault.word);
    }

    /** Presses RESET: RAM keeps what it has. */
    public void reset() {
        tell("reset");
    }

    /** Takes the supply away and gives it back: RAM holds noise. */
    public void cyclePower() {
        tell("power");
    }

    /** Makes the firmware's program stand still, which its watchdog must notice. */
    public void stall() {
        tell("stall");
    }

    /** Raises DTR; on a board with DTR wired to RESET that restarts it. */
    public void raiseDtr() {
        tell("dtr");
    }

    /** Pulls the cable: the pseudo-terminal vanishes; the firmware goes on. */
    public void unplug() {
        tell("unplug");
    }

    /** Plugs the cable in again, at the same link or a new pseudo-terminal, and waits for it. */
    public void plug() {
        long before = count("READY ");
        tell("plug");
        await(
                "its port",
                lines ->
                        lines.stream().filter(line -> line.startsWith("READY ")).count() > before);
    }

    /** Simulated seconds a second from now on; 0 = as fast as it goes. */
    public void speed(double speed) {
        tell("speed " + speed);
    }

    /** The board's process stands still with its cable in: nothing comes, and nothing says why. */
    public void suspend() {
        signal("STOP");
    }

    /** The board's process goes on. */
    public void resume() {
        signal("CONT");
    }

    private void signal(String name) {
        try {
            Process kill = new ProcessBuilder("kill", "-" + name, Long.toString(process.pid())).start();
            assertThat(kill.waitFor()).as("kill -%s", name).isZero();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException("interrupted while signalling the board", e);
        }
    }

    /** Any command, as board/README.md lists them. */
    public void tell(String command) {
        commands.println(command);
        commands.flush();
    }

    /** Every frame the amplifier answered until now. */
    public List<ChipFrame> chipFrames() {
        synchronized (log) {
            return List.copyOf(frames);
        }
    }

    /** How often the firmware was restarted since the board started, by cause: pin, dtr, power, watchdog. */
    public long restarts(String cause) {
        synchronized (log) {
            return log.stream()
                    .filter(line -> line.startsWith("RESET ") && line.endsWith(" " + cause))
                    .count();
        }
    }

    /** How often somebody opened the port. */
    public long openings() {
        return count("OPENED ");
    }

    /** What the board said, but for its chip frames. */
    public List<String> log() {
        synchronized (log) {
            return List.copyOf(log);
        }
    }

    /** Waits until the amplifier has answered so many frames in all; fails after a minute. */
    public void awaitFrames(int count) {
        awaitFrames(count, PATIENCE);
    }

    /** Waits until the amplifier has answered so many frames in all; fails after a time. */
    public void awaitFrames(int count, Duration patience) {
        await(count + " chip frames", lines -> frames.size() >= count, patience);
    }

    /** Waits until a line of the board's log satisfies a condition; fails after a minute. */
    public void awaitLog(String what, Predicate<String> condition) {
        await(what, lines -> lines.stream().anyMatch(condition));
    }

    @Override
    public void close() {
        tell("quit");
        commands.close();
        try {
            if (!process.waitFor(5, TimeUnit.SECONDS)) {
                process.destroyForcibly();
            }
        } catch (InterruptedException e) {
            process.destroyForcibly();
            Thread.currentThread().interrupt();
        }
    }

    private long count(String beginning) {
        synchronized (log) {
            return log.stream().filter(line -> line.startsWith(beginning)).count();
        }
    }

    private Optional<String> last(String beginning) {
        synchronized (log) {
            return log.stream().filter(line -> line.startsWith(beginning)).reduce((earlier, later) -> later);
        }
    }

    private void listen() {
        try (BufferedReader reader =
                new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
            for (String line = reader.readLine(); line != null; line = reader.readLine()) {
                Matcher chip = CHIP.matcher(line);
                synchronized (log) {
                    if (chip.matches()) {
                        frames.add(new ChipFrame(
                                Double.parseDouble(chip.group(1)),
                                Long.parseLong(chip.group(2)),
                                Integer.parseInt(chip.group(3)),
                                Integer.parseInt(chip.group(4)),
                                Integer.parseInt(chip.group(5)),
                                chip.group(6)));
                    } else {
                        log.add(line);
                    }
                    log.notifyAll();
                }
            }
        } catch (IOException e) {
            synchronized (log) {
                log.add("the board's output broke off: " + e.getMessage());
            }
        }
        synchronized (log) {
            log.add("GONE");
            log.notifyAll();
        }
    }

    private void await(String what, Predicate<List<String>> condition) {
        await(what, condition, PATIENCE);
    }

    private void await(String what, Predicate<List<String>> condition, Duration patience) {
        Instant end = Instant.now().plus(patience);
        synchronized (log) {
            while (!condition.test(log)) {
                long left = Duration.between(Instant.now(), end).toMillis();
                assertThat(left)
                        .as("the board did not show %s within %s; it said %s", what, patience, log)
                        .isPositive();
                assertThat(log).as("the board ended before %s", what).doesNotContain("GONE");
                try {
                    log.wait(left);
                } catch (InterruptedException e) {
                    Thread.currentThread().interrupt();
                    throw new IllegalStateException("interrupted while waiting for " + what, e);
                }
            }
        }
    }
}
