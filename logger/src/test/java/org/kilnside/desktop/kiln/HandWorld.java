package org.kilnside.desktop.kiln;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.files.LinePattern;
import org.kilnside.link.LinePatternProposal;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.Amplifier;
import org.kilnside.sensor.Probe;
import org.kilnside.sensor.SensorInPlace;
import org.kilnside.sensor.ThermocoupleType;
import org.kilnside.session.Connection;
import org.kilnside.session.LineView;
import org.kilnside.session.ReadingSource.ControllerHello;
import org.kilnside.wording.SampleSnapshots;

/** A world moved by hand: what is plugged in, what comes, who records. It writes down what was asked of it. */
public final class HandWorld implements Recordings, Wire {
    public Role role = Role.NOBODY;
    public Optional<Wish> here = Optional.empty();
    public Optional<Wish> last = Optional.empty();
    public List<PortSeen> ports = List.of();
    public Known known = Known.NOTHING;
    public Heard heard = nothing();
    Optional<SensorInPlace> told = Optional.empty();
    public Optional<Answer> answer = Optional.empty();
    public Optional<String> refuses = Optional.empty();
    public final List<String> asked = new ArrayList<>();
    public int open;

    /** With one adapter plugged in. */
    public static HandWorld plugged() {
        HandWorld world = new HandWorld();
        world.ports = List.of(new PortSeen("/dev/ttyUSB0", "USB serial adapter"));
        return world;
    }

    public static Heard nothing() {
        return new Heard(
                connection(Connection.State.CONNECTING, 0), LineView.NONE, Optional.empty(), 0, Optional.empty());
    }

    /** Readings at room temperature, by a controller that said who it is. */
    public static Heard readings() {
        return readingsOf(Amplifier.MAX31855);
    }

    /** Good readings of a controller that says which amplifier it has. */
    static Heard readingsOf(Amplifier amplifier) {
        ControllerHello hello = new ControllerHello(
                Optional.of("Rook Lane 1"),
                Optional.of("1.0"),
                List.of(new Probe(ThermocoupleType.K, amplifier)),
                java.util.OptionalInt.of(1000),
                java.util.OptionalLong.of(60_000));
        return new Heard(
                connection(Connection.State.RECEIVING, 900),
                SampleLines.good(),
                Optional.of(hello),
                3,
                Optional.of(Temperature.ofCelsius(19)));
    }

    /** A controller's own lines. */
    public static Heard foreign() {
        return new Heard(
                connection(Connection.State.CONNECTING, 900),
                SampleLines.foreign(),
                Optional.empty(),
                0,
                Optional.empty());
    }

    /** A line at another speed. */
    public static Heard noise() {
        SampleLines sample = new SampleLines();
        for (int i = 0; i < 4; i++) {
            sample.add(
                    LineView.Verdict.STRANGE_BYTE,
                    "\\xF0\\x86\\x9E&\\x1E\\xF8\\x86~\\xE6\\x98f\\xFE\\x00\\x98\\x86x",
                    i);
        }
        return new Heard(
                connection(Connection.State.CONNECTING, 400), sample.view(), Optional.empty(), 0, Optional.empty());
    }

    public static Heard refused(String sentence) {
        return new Heard(
                new Connection(
                        Connection.State.GIVEN_UP,
                        SampleSnapshots.HOST_MS,
                        Optional.of(sentence),
                        Connection.Counts.NONE),
                LineView.NONE,
                Optional.empty(),
                0,
                Optional.empty());
    }

    private static Connection connection(Connection.State state, long bytes) {
        return new Connection(
                state, SampleSnapshots.HOST_MS, Optional.empty(), new Connection.Counts(0, 0, 0, 0, 0, bytes));
    }

    @Override
    public Role role() {
        return role;
    }

    @Override
    public Optional<Wish> here() {
        return here;
    }

    @Override
    public Choices choices() {
        return new Choices(
                last,
                List.of("tall-drum"),
                List.of("bisque", "glaze-6"),
                new Wish("virtual:tall-drum?speed=60&plan=bisque", Optional.of("Tall Drum"), Optional.of("bisque")));
    }

    @Override
    public void begin(Wish wish) {
        told = wish.told();
        refuse();
        asked.add("begin " + wish.from() + " " + wish.kiln().orElse("-") + " "
                + wish.plan().orElse("-"));
        here = Optional.of(wish);
        role = Role.HERE;
    }

    @Override
    public void end() {
        asked.add("end");
        here = Optional.empty();
        role = Role.NOBODY;
    }

    @Override
    public List<PortSeen> ports() {
        return ports;
    }

    @Override
    public String link(String typed) {
        refuse();
        return typed.startsWith("/") ? "serial:" + typed + "?baud=115200" : typed;
    }

    @Override
    public Known known(String link) {
        refuse();
        return known;
    }

    @Override
    public void remember(String link, boolean restarts) {
        asked.add("remember " + link + " " + restarts);
    }

    @Override
    public Ears listen(String link) {
        asked.add("listen " + link);
        open++;
        return new Ears() {
            private boolean closed;

            @Override
            public Heard heard() {
                return heard;
            }

            @Override
            public void close() {
                if (!closed) {
                    closed = true;
                    open--;
                }
            }
        };
    }

    @Override
    public Trial tryOpening(String link) {
        asked.add("try " + link);
        open++;
        return new Trial() {
            @Override
            public Optional<Answer> answer() {
                if (answer.isPresent()) {
                    open--;
                }
                return answer;
            }

            @Override
            public void close() {
                open--;
            }
        };
    }

    @Override
    public Optional<LinePattern> propose(List<String> lines, OptionalDouble betweenLinesMs) {
        return LinePatternProposal.of(lines, betweenLinesMs).pattern();
    }

    @Override
    public String save(LinePattern pattern) {
        asked.add("save " + pattern.name() + " " + pattern.probe().amplifier());
        return "my-controller";
    }

    private void refuse() {
        if (refuses.isPresent()) {
            throw new RefusedException(refuses.get(), null);
        }
    }
}
