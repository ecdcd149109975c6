package org.kilnside.app;

import static org.kilnside.app.WindowRecordings.plainly;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.command.Surroundings;
import org.kilnside.desktop.kiln.Wire;
import org.kilnside.files.LinePattern;
import org.kilnside.files.PortNotes;
import org.kilnside.link.LinePatternProposal;
import org.kilnside.link.LinkNotation;
import org.kilnside.link.LinkSurroundings;
import org.kilnside.link.Links;
import org.kilnside.link.OpeningTrial;
import org.kilnside.link.PortEar;
import org.kilnside.link.SerialPorts;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.Connection;
import org.kilnside.session.LineView;
import org.kilnside.session.ReadingSource;

/** The ports of this computer, for the window. */
final class WindowWire implements Wire {
    private final Surroundings.Desk desk;

    WindowWire(Surroundings.Desk desk) {
        this.desk = desk;
    }

    @Override
    public List<PortSeen> ports() {
        return plainly(() -> SerialPorts.list().stream()
                .map(found -> new PortSeen(found.path(), found.description()))
                .toList());
    }

    @Override
    public String link(String typed) {
        return plainly(() -> LinkNotation.parse(typed).text());
    }

    @Override
    public Known known(String link) {
        return plainly(() -> notes().of(title(link))
                .map(note -> new Known(
                        note.opening() == PortNotes.Opening.RESTARTS ? Opening.RESTARTS : Opening.GOES_ON,
                        Optional.of(note.seen())))
                .orElse(new Known(Opening.UNKNOWN, Optional.empty())));
    }

    @Override
    public void remember(String link, boolean restarts) {
        plainly(() -> {
            notes().remember(
                            title(link),
                            new PortNotes.Note(
                                    restarts ? PortNotes.Opening.RESTARTS : PortNotes.Opening.GOES_ON,
                                    LocalDate.ofInstant(desk.clock().wallClock(), ZoneId.systemDefault())));
            return link;
        });
    }

    private PortNotes notes() {
        return desk.library().portNotes();
    }

    /** A port goes by the same name as in the notes of its own trial. */
    private static String title(String link) {
        return Links.title(LinkNotation.parse(link));
    }

    private LinkSurroundings around() {
        return LinkSurroundings.of(desk.clock(), desk.library());
    }

    @Override
    public Ears listen(String link) {
        return plainly(() -> {
            Listening listening = new Listening(Links.listen(LinkNotation.parse(link), around()), desk);
            listening.source.start(listening);
            return listening;
        });
    }

    @Override
    public Trial tryOpening(String link) {
        return plainly(() -> Trying.begin(OpeningTrial.of(LinkNotation.parse(link), around())));
    }

    @Override
    public Optional<LinePattern> propose(List<String> lines, OptionalDouble betweenLinesMs) {
        return LinePatternProposal.of(lines, betweenLinesMs).pattern();
    }

    @Override
    public String save(LinePattern pattern) {
        return plainly(() -> desk.library().saveLinePattern(pattern));
    }

    /** Listens on the link's own thread. */
    private static final class Listening implements Ears, ReadingSource.Listener {
        private final PortEar source;
        private Connection connection;
        private Optional<ReadingSource.ControllerHello> hello = Optional.empty();
        private Optional<Temperature> temperature = Optional.empty();
        private long readings;

        Listening(PortEar source, Surroundings.Desk desk) {
            this.source = source;
            this.connection = new Connection(
                    Connection.State.CONNECTING, desk.clock().monotonicMs(), Optional.empty(), Connection.Counts.NONE);
        }

        @Override
        public synchronized void controllerSaidHello(ReadingSource.ControllerHello said) {
            hello = Optional.of(said);
        }

        @Override
        public synchronized void readingArrived(ReadingSource.Arrival arrival) {
            readings++;
            temperature = arrival.channels().get(0).temperature();
        }

        @Override
        public synchronized void connectionChanged(Connection now) {
            connection = now;
        }

        @Override
        public Heard heard() {
            LineView lines = source.lines();
            synchronized (this) {
                return new Heard(connection, lines, hello, readings, temperature);
            }
        }

        @Override
        public void close() {
            source.close();
        }
    }

    /** A trial on a thread of its own. */
    private static final class Trying implements Trial {
        private final Thread thread;
        private volatile Optional<Answer> answer = Optional.empty();

        private Trying(OpeningTrial trial) {
            thread = new Thread(() -> run(trial), "trial");
            thread.setDaemon(true);
        }

        static Trying begin(OpeningTrial trial) {
            Trying trying = new Trying(trial);
            trying.thread.start();
            return trying;
        }

        private void run(OpeningTrial trial) {
            try {
                OpeningTrial.Answer came = trial.run(OpeningTrial.PATIENCE);
                answer = Optional.of(
                        new Answer(Outcome.valueOf(came.outcome().name()), came.temperature(), came.trouble()));
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            } catch (RuntimeException e) {
                answer = Optional.of(
                        new Answer(Outcome.NOT_OPENED, Optional.empty(), Optional.of(String.valueOf(e.getMessage()))));
            }
        }

        @Override
        public Optional<Answer> answer() {
            return answer;
        }

        @Override
        public void close() {
            thread.interrupt();
        }
    }
}
