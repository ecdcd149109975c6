package org.kilnside.command;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.kilnside.files.JsonLines;
import org.kilnside.files.JsonObject;
import org.kilnside.files.LinePatternFiles;
import org.kilnside.link.LinePatternProposal;
import org.kilnside.link.LinkNotation;
import org.kilnside.link.LinkSurroundings;
import org.kilnside.link.Links;
import org.kilnside.link.PortEar;
import org.kilnside.link.SerialPorts;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.Connection;
import org.kilnside.session.ReadingSource;
import org.kilnside.wording.Words;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** The ports of this computer, and what comes out of one. */
@Command(
        name = "ports",
        mixinStandardHelpOptions = true,
        description = "Lists the serial ports; none is opened. With PORT, opens that one, listens for a while, and says"
                + " what it heard. Opening a port can restart a controller whose board is wired that way: do it with"
                + " a cold kiln first.")
public final class PortsCommand implements Callable<Integer> {
    @Mixin
    private Surroundings around;

    @Parameters(arity = "0..1", paramLabel = "PORT", description = "The port to listen to, or any link as for record.")
    private Optional<String> port = Optional.empty();

    @Option(
            names = "--seconds",
            paramLabel = "S",
            defaultValue = "10",
            description = "How long to listen (${DEFAULT-VALUE} s, unless given).")
    private int seconds;

    @Option(names = "--watch", description = "Listen until Ctrl-C, and show what comes.")
    private boolean watch;

    @Option(
            names = "--try-opening",
            description =
                    "With a cold kiln that is not firing: open the port, close it, open it again, say whether that"
                            + " restarted the controller, and remember it. Do this once before the first firing.")
    private boolean tryOpening;

    @Option(names = "--json", description = "One JSON object a port, or one for what was heard.")
    private boolean json;

    @Override
    public Integer call() {
        if (tryOpening) {
            return new PortTrial(around, json)
                    .of(port.orElseThrow(() -> new Complaint(
                            Complaint.ExitCode.USAGE,
                            "--try-opening needs the port to try: \"kilnside ports\" lists the ports there are.")));
        }
        return port.isEmpty() ? list() : listen(port.get());
    }

    private int list() {
        List<SerialPorts.Found> ports = SerialPorts.list();
        if (json) {
            JsonLines lines = new JsonLines(around.out());
            ports.forEach(found ->
                    lines.write(new JsonObject().with("port", found.path()).with("description", found.description())));
            return Complaint.ExitCode.DONE.code();
        }
        if (ports.isEmpty()) {
            around.out().println(around.words().text("ports.none"));
            return Complaint.ExitCode.NOTHING.code();
        }
        List<String[]> rows = new ArrayList<>();
        ports.forEach(found -> rows.add(new String[] {found.path(), found.description()}));
        Table.print(around.out(), rows);
        return Complaint.ExitCode.DONE.code();
    }

    private int listen(String notation) {
        if (seconds < 1) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE, "--seconds takes a whole number from 1 on, found " + seconds + ".");
        }
        Ear ear = new Ear();
        Optional<LinePatternProposal> proposal = Optional.empty();
        try (PortEar source = Links.listen(
                LinkNotation.parse(notation),
                LinkSurroundings.of(around.clock(), around.library()).saying(around.words()))) {
            source.start(ear);
            if (watch) {
                ear.over.await();
            } else {
                ear.over.await(seconds, TimeUnit.SECONDS);
            }
            if (!ear.heardAny()) {
                proposal = source.proposal();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        boolean readable = proposal.flatMap(LinePatternProposal::pattern).isPresent();
        if (json) {
            ear.writeJson(notation, proposal);
        } else {
            proposal.ifPresent(this::propose);
            ear.sayAll(readable, proposal.isEmpty());
        }
        return ear.heardAny() || readable ? Complaint.ExitCode.DONE.code() : Complaint.ExitCode.INPUT.code();
    }

    /** Shows how a controller's own lines could be read, as the file to save for it. */
    private void propose(LinePatternProposal proposal) {
        PrintWriter out = around.out();
        out.println(proposal.sentence());
        proposal.pattern().ifPresent(pattern -> {
            out.println();
            out.println("# Save this as my-controller.toml, check it, and add lines=my-controller.toml to the link.");
            out.println(LinePatternFiles.text(pattern));
        });
        out.flush();
    }

    /** Hears what comes; its methods are called on the link's thread. */
    private final class Ear implements ReadingSource.Listener {
        private final Words words = around.words();
        private final CountDownLatch over = new CountDownLatch(1);
        private Optional<ReadingSource.ControllerHello> hello = Optional.empty();
        private Optional<ReadingSource.Arrival> last = Optional.empty();
        private Optional<Connection> connection = Optional.empty();
        private long readings;

        @Override
        public synchronized void controllerSaidHello(ReadingSource.ControllerHello said) {
            if (watch && !hello.equals(Optional.of(said))) {
                print(hello(said));
            }
            hello = Optional.of(said);
        }

        @Override
        public synchronized void readingArrived(ReadingSource.Arrival arrival) {
            readings++;
            last = Optional.of(arrival);
            if (watch) {
                print(reading(arrival) + "  " + connection.map(this::counts).orElse(""));
            }
        }

        @Override
        public synchronized void connectionChanged(Connection now) {
            boolean news = connection.isEmpty() || !connection.get().detail().equals(now.detail());
            boolean worse = spoilt(now) > connection.map(Ear::spoilt).orElse(0L);
            connection = Optional.of(now);
            if (watch && news) {
                now.detail().ifPresent(this::print);
            }
            if (watch && worse) {
                // Good lines bring the counts with them; where none come, bad ones must show all the same.
                print(counts(now));
            }
            switch (now.state()) {
                case FINISHED, GIVEN_UP, CLOSED -> over.countDown();
                case CONNECTING, RECEIVING, SILENT, LOST -> {
                    // It may still speak.
                }
            }
        }

        private static long spoilt(Connection connection) {
            Connection.Counts counts = connection.counts();
            return counts.badChecksum() + counts.malformed() + counts.unknown() + counts.lost();
        }

        private void print(String line) {
            PrintWriter out = around.out();
            out.println(line);
            out.flush();
        }

        synchronized boolean heardAny() {
            return readings > 0;
        }

        private String hello(ReadingSource.ControllerHello said) {
            StringBuilder probes = new StringBuilder();
            said.probes()
                    .forEach(probe -> probes.append(probes.isEmpty() ? "" : ", ")
                            .append(probe.type())
                            .append(" (")
                            .append(probe.amplifier())
                            .append(')'));
            return words.text(
                    "ports.hello", said.device().orElse("?"), said.firmware().orElse("?"), probes.toString());
        }

        private String reading(ReadingSource.Arrival arrival) {
            return arrival.channels()
                    .get(0)
                    .temperature()
                    .map(words::temperature)
                    .orElse(words.text("ports.no_temperature"));
        }

        private String counts(Connection now) {
            Connection.Counts counts = now.counts();
            return words.text(
                    "ports.counts",
                    counts.lines(),
                    counts.badChecksum(),
                    counts.malformed(),
                    counts.unknown(),
                    counts.lost(),
                    counts.bytes());
        }

        synchronized void sayAll(boolean readable, boolean unexamined) {
            hello.ifPresent(said -> print(hello(said)));
            last.ifPresent(arrival -> print(words.text("ports.reading", readings, reading(arrival))));
            connection.ifPresent(now -> print(counts(now)));
            if (readings == 0 && !readable) {
                long strange = connection.map(now -> now.counts().malformed()).orElse(0L);
                if (unexamined && strange > 0) {
                    print(words.text("ports.too_few", strange, 4 * seconds));
                }
                String why = connection.flatMap(Connection::detail).orElse(words.text("ports.silent", seconds));
                around.err().println("kilnside: " + why);
                around.err().flush();
            }
        }

        synchronized void writeJson(String notation, Optional<LinePatternProposal> proposal) {
            Connection.Counts counts = connection.map(Connection::counts).orElse(Connection.Counts.NONE);
            new JsonLines(around.out())
                    .write(new JsonObject()
                            .with("port", notation)
                            .with("state", connection, now -> now.state().name().toLowerCase(Locale.ROOT))
                            .with("detail", connection.flatMap(Connection::detail), detail -> detail)
                            .with("device", hello.flatMap(ReadingSource.ControllerHello::device), name -> name)
                            .with("firmware", hello.flatMap(ReadingSource.ControllerHello::firmware), name -> name)
                            .with("readings", readings)
                            .with(
                                    "temp_c",
                                    last.flatMap(
                                            arrival -> arrival.channels().get(0).temperature()),
                                    Temperature::celsius)
                            .with("lines", counts.lines())
                            .with("bad_checksum", counts.badChecksum())
                            .with("malformed", counts.malformed())
                            .with("unknown", counts.unknown())
                            .with("lost", counts.lost())
                            .with("bytes", counts.bytes())
                            .with("proposal", proposal, LinePatternProposal::sentence)
                            .with("pattern", proposal.flatMap(LinePatternProposal::pattern), LinePatternFiles::text));
        }
    }
}
