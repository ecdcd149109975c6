package org.kilnside.link;

import java.nio.file.Path;
import java.util.Optional;

/**
 * A link as a person types it:
 *
 * <pre>
 * serial:/dev/ttyUSB0?baud=115200     a serial port; the bare path or COM3 will do
 * tcp:studio.local:4403               a serial-over-network adapter
 * replay:FILE?speed=60                a captured stream, 60 times as fast; speed=max without pauses
 * virtual:NAME?speed=600&amp;plan=FILE    the virtual kiln; a plan of the library by its short name
 * attach:studio.local                 another Kilnside that records, on another computer; a port may follow
 * </pre>
 *
 * Serial, tcp and replay also take {@code lines=FILE}, a line pattern for a controller that prints lines of its own;
 * one of the library by its short name.
 */
public sealed interface LinkNotation {
    /** As fast as the program can. */
    double UNPACED = Double.POSITIVE_INFINITY;

    int USUAL_BAUD = 115_200;

    /** The port a recorder shares on, unless told otherwise. */
    int SHARE_PORT = 4417;

    /** The link in its full notation. */
    String text();

    /** The pattern of the controller's own lines, by its short name or its file; empty for the protocol's lines. */
    default Optional<String> linePattern() {
        return Optional.empty();
    }

    /**
     * Reads a link.
     *
     * @throws BadLinkException with one sentence on what is wrong
     */
    static LinkNotation parse(String text) {
        return LinkNotationParser.parse(text);
    }

    /** How much faster than life it tells of its kiln: times of day mean something only at 1. */
    default double speed() {
        return 1;
    }

    /** {@link #speed()} of a link as a book has it. */
    static double speedOf(String text) {
        try {
            return parse(text).speed();
        } catch (BadLinkException e) {
            // A book may come from elsewhere, with a link this version does not know: it was a real one then.
            return 1;
        }
    }

    /** A serial port, 8N1. */
    record Serial(String path, int baud, Optional<String> linePattern) implements LinkNotation {
        @Override
        public String text() {
            return "serial:" + path + "?baud=" + baud + lines(linePattern, "&");
        }
    }

    /** A serial-over-network adapter. */
    record Tcp(String host, int port, Optional<String> linePattern) implements LinkNotation {
        @Override
        public String text() {
            return "tcp:" + (host.contains(":") ? "[" + host + "]" : host) + ":" + port + lines(linePattern, "?");
        }
    }

    /** A captured stream. */
    record Replay(Path file, double speed, Optional<String> linePattern) implements LinkNotation {
        @Override
        public String text() {
            return "replay:" + file + "?speed=" + written(speed) + lines(linePattern, "&");
        }
    }

    /**
     * The virtual kiln under a name, firing a plan given by its short name or its file; a bisque where none is given.
     */
    record Virtual(String name, double speed, Optional<String> plan) implements LinkNotation {
        @Override
        public String text() {
            return "virtual:" + name + "?speed=" + written(speed)
                    + plan.map(file -> "&plan=" + file).orElse("");
        }
    }

    /** Another Kilnside on the network, which records. */
    record Attach(String host, int port) implements LinkNotation {
        @Override
        public String text() {
            return "attach:" + name();
        }

        /** The recorder as a person names it: {@code studio.local:4417}. */
        public String name() {
            return (host.contains(":") ? "[" + host + "]" : host) + ":" + port;
        }
    }

    private static String lines(Optional<String> pattern, String joint) {
        return pattern.map(file -> joint + "lines=" + file).orElse("");
    }

    private static String written(double speed) {
        if (speed == UNPACED) {
            return "max";
        }
        return speed == Math.rint(speed) ? String.valueOf((long) speed) : String.valueOf(speed);
    }
}
