package org.kilnside.desktop.kiln;

import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.kilnside.files.LinePattern;
import org.kilnside.sensor.Amplifier;
import org.kilnside.session.LineView;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The first steps, from no kiln yet to the first reading: which port, is the kiln cold, what comes, does opening restart
 * the controller, what is the kiln called. Knows where it stands and what leads on; {@link GuideSteps} says it.
 */
final class GuideModel {
    private static final Logger LOG = LoggerFactory.getLogger(GuideModel.class);

    private final Recordings recordings;
    private final Wire wire;
    private final Runnable begun;
    private Runnable changed = () -> {};

    private Stop stop = Stop.LOADING;
    private Optional<Recordings.Choices> choices = Optional.empty();
    private List<Wire.PortSeen> ports = List.of();
    private Wire.Known lastKnown = Wire.Known.NOTHING;
    private Optional<String> trouble = Optional.empty();
    private String typed = "";
    private String name = "";
    private final OpenPort port;
    private Wire.Known known = Wire.Known.NOTHING;
    private boolean cold;
    private long sinceMs;
    private final Understanding lines = new Understanding();
    private Optional<Wire.Trial> trial = Optional.empty();
    private Optional<Wire.Answer> answer = Optional.empty();
    private long nowMs;
    private final Asking asking;

    /** @param begun told when the recording has begun */
    GuideModel(Recordings recordings, Wire wire, Chores chores, Runnable begun) {
        this.recordings = recordings;
        this.wire = wire;
        this.port = new OpenPort(chores);
        this.asking = new Asking(chores, () -> changed.run(), this::fault, this::late);
        this.begun = begun;
        restart();
    }

    /** Tells when a chore has brought something to show. */
    void whenChanged(Runnable listener) {
        changed = listener;
    }

    /** Lets go of whatever is open and goes back to the beginning. */
    void restart() {
        letGo();
        trouble = Optional.empty();
        lines.forgetPattern();
        answer = Optional.empty();
        cold = false;
        if (choices.isEmpty()) {
            stop = Stop.LOADING;
        } else {
            stop = Stop.START;
        }
        asking.ask(
                () -> {
                    Recordings.Choices found = recordings.choices();
                    Wire.Known past = found.last().isPresent()
                            ? wire.known(found.last().get().from())
                            : Wire.Known.NOTHING;
                    return new Start(found, wire.ports(), past);
                },
                start -> {
                    choices = Optional.of(start.choices);
                    ports = start.ports;
                    lastKnown = start.lastKnown;
                    stop = Stop.START;
                });
    }

    private record Start(Recordings.Choices choices, List<Wire.PortSeen> ports, Wire.Known lastKnown) {}

    private void letGo() {
        asking.turnAway();
        port.letGo();
        trial.ifPresent(Wire.Trial::close);
        trial = Optional.empty();
    }

    /** Brought when nobody waits for it any more. */
    private void late(Object result) {
        if (result instanceof Wire.Ears ears) {
            port.close(ears);
        }
    }

    private void fault(Exception failure) {
        if (failure instanceof RefusedException) {
            trouble = Optional.of(failure.getMessage());
        } else {
            LOG.error("a fault in the first steps", failure);
            trouble = Optional.of(String.valueOf(failure));
        }
        if (stop == Stop.BEGINNING) {
            stop = choices.isPresent() && port.link().isEmpty() ? Stop.START : Stop.ABOUT;
        } else if (stop == Stop.LISTEN || stop == Stop.TRIAL) {
            stop = Stop.START;
        }
    }

    /** The last recording once more, or the virtual kiln. */
    void beginAtOnce(Recordings.Wish wish) {
        port.choose("");
        begin(wish);
    }

    /** Records from what was chosen. */
    void beginChosen(Optional<String> plan) {
        Optional<String> kiln = name.isBlank() ? Optional.empty() : Optional.of(name.strip());
        begin(new Recordings.Wish(port.link(), kiln, plan, lines.told()));
    }

    private void begin(Recordings.Wish wish) {
        letGo();
        trouble = Optional.empty();
        stop = Stop.BEGINNING;
        asking.ask(
                () -> {
                    recordings.begin(wish);
                    return wish;
                },
                done -> {
                    begun.run();
                    restart();
                });
    }

    void toTyping() {
        trouble = Optional.empty();
        stop = Stop.TYPE;
    }

    /** Takes what a person types into the field of this step. */
    void type(String text) {
        if (stop == Stop.TYPE) {
            typed = text;
        } else {
            name = text;
        }
    }

    /** A port of the list, or the text that was typed. */
    void choose(String typedPort) {
        trouble = Optional.empty();
        asking.ask(
                () -> {
                    String full = wire.link(typedPort);
                    if (recordings.role() == Recordings.Role.HERE) {
                        // It holds its port, and this program records one kiln at a time.
                        recordings.end();
                    }
                    return new Chosen(full, wire.known(full));
                },
                chosen -> {
                    port.choose(chosen.link);
                    lines.forget();
                    known = chosen.known;
                    if (chosen.link.startsWith("virtual:") || chosen.link.startsWith("replay:")) {
                        stop = Stop.ABOUT;
                    } else if (known.opening() == Wire.Opening.GOES_ON) {
                        listen();
                    } else {
                        stop = Stop.COLD;
                    }
                });
    }

    private record Chosen(String link, Wire.Known known) {}

    /** The kiln is cold and not firing: it may be looked and tried. */
    void isCold() {
        cold = true;
        listen();
    }

    /** The kiln is firing: the port is opened once, for the recording itself, and not before. */
    void isFiring() {
        cold = false;
        stop = Stop.ABOUT;
    }

    /** Opens the port and looks at what comes. */
    void listen() {
        letGo();
        trouble = Optional.empty();
        stop = Stop.LISTEN;
        sinceMs = nowMs;
        String opened = port.link();
        asking.ask(() -> wire.listen(opened), open -> {
            port.opened(open);
            sinceMs = nowMs;
        });
    }

    void atSpeed(int baud) {
        port.setSpeed(baud);
        listen();
    }

    /** Tries one usual speed after the other until text comes. */
    void trySpeeds() {
        tryNext(port.otherSpeeds());
    }

    private void tryNext(Deque<Integer> speeds) {
        atSpeed(speeds.remove());
        port.toTry(speeds);
    }

    /** Looks at what the open port and the running trial have brought. */
    void tick(long hostMs) {
        nowMs = hostMs;
        if (stop == Stop.LISTEN && port.look(waitedMs())) {
            if (port.triesNext(waitedMs())) {
                tryNext(port.toTry());
            } else {
                arrived();
            }
        } else if (stop == Stop.TRIAL && trial.isPresent()) {
            trial.get().answer().ifPresent(came -> {
                answer = Optional.of(came);
                trial = Optional.empty();
                stop = came.outcome() == Wire.Outcome.NO_UPTIME ? Stop.WATCHED : Stop.TRIED;
            });
        }
    }

    private void arrived() {
        switch (port.look()) {
            case READINGS -> stopListeningAt(Stop.FOUND);
            case FOREIGN -> {
                if (lines.pattern().isEmpty()) {
                    propose();
                }
            }
            case NOISE -> {
                if (!port.isTryingSpeeds() || port.hasText()) {
                    stopListeningAt(Stop.NOISE);
                }
            }
            case REFUSED -> {
                trouble = port.heard().orElseThrow().connection().detail();
                letGo();
                stop = Stop.START;
            }
            case WAITING, SILENT, NO_TEMPERATURE -> {
                // It goes on listening; a person may turn away from it.
            }
        }
    }

    private void stopListeningAt(Stop next) {
        asking.turnAway();
        port.stopListening();
        stop = next;
    }

    private void propose() {
        List<LineView.Line> foreign =
                FirstLines.foreign(port.heard().orElseThrow().lines());
        stopListeningAt(Stop.PROPOSAL);
        asking.ask(
                () -> wire.propose(foreign.stream().map(line -> line.text()).toList(), FirstLines.betweenMs(foreign)),
                lines::propose);
    }

    void patternIsRight() {
        stop = Stop.AMPLIFIER;
    }

    /**
     * Saves the pattern, for the amplifier whose number the controller passes on, and looks again with it; without a
     * pattern it is what the controller's own number is.
     */
    void readSo(Amplifier amplifier) {
        if (lines.pattern().isEmpty()) {
            lines.isShownBy(amplifier, port);
            goOn();
            return;
        }
        LinePattern chosen = lines.named(amplifier);
        stop = Stop.LISTEN;
        asking.ask(() -> wire.save(chosen), saved -> {
            lines.propose(Optional.of(chosen));
            port.readBy(saved);
            listen();
        });
    }

    /** Goes on from what was found: with a cold kiln and a port never tried, the trial comes first. */
    void goOn() {
        trouble = Optional.empty();
        if (lines.isToBeAsked(port)) {
            stop = Stop.AMPLIFIER;
        } else if (cold && known.opening() == Wire.Opening.UNKNOWN) {
            stop = Stop.TRIAL;
            sinceMs = nowMs;
            String tried = port.link();
            asking.ask(() -> wire.tryOpening(tried), going -> trial = Optional.of(going));
        } else {
            toAbout();
        }
    }

    /** What the person saw at the controller itself when the port was opened. */
    void sawRestart(boolean restarted) {
        String opened = port.link();
        known = new Wire.Known(restarted ? Wire.Opening.RESTARTS : Wire.Opening.GOES_ON, Optional.empty());
        asking.ask(
                () -> {
                    wire.remember(opened, restarted);
                    return opened;
                },
                done -> {});
        toAbout();
    }

    void toAbout() {
        letGo();
        if (name.isBlank()) {
            name = choices.flatMap(Recordings.Choices::last)
                    .flatMap(Recordings.Wish::kiln)
                    .orElse("");
        }
        stop = Stop.ABOUT;
    }

    Stop stop() {
        return stop;
    }

    Recordings recordings() {
        return recordings;
    }

    Optional<Recordings.Choices> choices() {
        return choices;
    }

    List<Wire.PortSeen> ports() {
        return ports;
    }

    Wire.Known lastKnown() {
        return lastKnown;
    }

    Wire.Known known() {
        return known;
    }

    Optional<String> trouble() {
        return trouble;
    }

    String typed() {
        return typed;
    }

    String name() {
        return name;
    }

    OpenPort port() {
        return port;
    }

    /** How the controller's lines are understood. */
    Understanding lines() {
        return lines;
    }

    Optional<Wire.Answer> answer() {
        return answer;
    }

    /** How long this step has been waiting, ms. */
    long waitedMs() {
        return Math.max(0, nowMs - sinceMs);
    }

    void begun() {
        begun.run();
    }
}
