package org.kilnside.link;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Reads the notation of a link; every fault is one sentence with what was found and what would do. */
final class LinkNotationParser {
    private static final double FASTEST = 100_000;
    private static final String EXAMPLES =
            "write serial:/dev/ttyUSB0?baud=115200, tcp:host:port, replay:FILE?speed=60, virtual:NAME?speed=600 or attach:host";

    /** What a port path may be made of: the serial library hands it to a shell. */
    private static final String PORT_PATH = "[A-Za-z0-9/._:+@,=-]{1,100}";

    private final String text;
    private final String body;
    private final Map<String, String> options;

    private LinkNotationParser(String text, String body, Map<String, String> options) {
        this.text = text;
        this.body = body;
        this.options = options;
    }

    static LinkNotation parse(String given) {
        String text = given.strip();
        if (text.isEmpty()) {
            throw new BadLinkException("No link is given: " + EXAMPLES + ".");
        }
        int colon = text.indexOf(':');
        String scheme = colon < 0 ? "" : text.substring(0, colon);
        if (text.startsWith("/") || text.matches("(?i)COM\\d{1,3}(\\?.*)?")) {
            return split(text, text).serial();
        }
        String rest = text.substring(colon + 1);
        return switch (scheme) {
            case "serial" -> split(text, rest).serial();
            case "tcp" -> split(text, rest).tcp();
            case "replay" -> split(text, rest).replay();
            case "virtual" -> split(text, rest).virtual();
            case "attach" -> split(text, rest).attach();
            case "" -> throw new BadLinkException("\"" + text + "\" is no link: " + EXAMPLES + ".");
            default ->
                throw new BadLinkException(
                        "\"" + text + "\": there is no kind of link called \"" + scheme + "\"; " + EXAMPLES + ".");
        };
    }

    private static LinkNotationParser split(String text, String rest) {
        int question = rest.lastIndexOf('?');
        String body = question < 0 ? rest : rest.substring(0, question);
        Map<String, String> options = new LinkedHashMap<>();
        if (question >= 0) {
            for (String option : rest.substring(question + 1).split("&", -1)) {
                int equals = option.indexOf('=');
                if (equals < 1 || equals == option.length() - 1) {
                    throw new BadLinkException(
                            "\"" + text + "\": after the ? stand options such as speed=60, found \"" + option + "\".");
                }
                if (options.put(option.substring(0, equals), option.substring(equals + 1)) != null) {
                    throw new BadLinkException(
                            "\"" + text + "\": the option " + option.substring(0, equals) + " is given twice.");
                }
            }
        }
        return new LinkNotationParser(text, body, options);
    }

    private LinkNotation serial() {
        allow("baud", "lines");
        if (body.isEmpty()) {
            throw bad("the port is missing; write serial:/dev/ttyUSB0 (\"kilnside ports\" lists the ports there are)");
        }
        if (!body.matches(PORT_PATH)) {
            throw bad("a port is a path such as /dev/ttyUSB0 or a name such as COM3, found \"" + body + "\"");
        }
        String baud = options.getOrDefault("baud", String.valueOf(LinkNotation.USUAL_BAUD));
        if (!baud.matches("\\d{3,7}") || Integer.parseInt(baud) < 300 || Integer.parseInt(baud) > 4_000_000) {
            throw bad("baud is a whole number from 300 to 4000000, found \"" + baud + "\"");
        }
        return new LinkNotation.Serial(body, Integer.parseInt(baud), Optional.ofNullable(options.get("lines")));
    }

    private LinkNotation tcp() {
        allow("lines");
        int colon = body.lastIndexOf(':');
        String host = colon < 0 ? body : body.substring(0, colon);
        String port = colon < 0 ? "" : body.substring(colon + 1);
        if (host.startsWith("[") && host.endsWith("]")) {
            host = host.substring(1, host.length() - 1);
        }
        if (host.isEmpty() || !host.matches("[A-Za-z0-9._:%-]+")) {
            throw bad("the host is missing or is none; write tcp:studio.local:4403");
        }
        return new LinkNotation.Tcp(host, port(port), Optional.ofNullable(options.get("lines")));
    }

    private LinkNotation attach() {
        allow();
        String host = body;
        String port = String.valueOf(LinkNotation.SHARE_PORT);
        // An IPv6 address has colons of its own and stands in brackets when a port follows.
        if (body.matches("\\[.*\\](:.*)?")) {
            int end = body.lastIndexOf(']');
            host = body.substring(1, end);
            port = end + 1 < body.length() ? body.substring(end + 2) : port;
        } else if (body.indexOf(':') == body.lastIndexOf(':') && body.contains(":")) {
            host = body.substring(0, body.indexOf(':'));
            port = body.substring(body.indexOf(':') + 1);
        }
        if (host.isEmpty() || !host.matches("[A-Za-z0-9._:%-]+")) {
            throw bad("the computer that records is missing or is none; write attach:studio.local");
        }
        return new LinkNotation.Attach(host, port(port));
    }

    private int port(String port) {
        if (!port.matches("\\d{1,5}") || Integer.parseInt(port) < 1 || Integer.parseInt(port) > 65_535) {
            throw bad("after the host stands a port from 1 to 65535, found \"" + port + "\"");
        }
        return Integer.parseInt(port);
    }

    private LinkNotation replay() {
        allow("speed", "lines");
        if (body.isEmpty()) {
            throw bad("the file is missing; write replay:FILE?speed=60");
        }
        return new LinkNotation.Replay(path("file", body), speed("1"), Optional.ofNullable(options.get("lines")));
    }

    private LinkNotation virtual() {
        allow("speed", "plan");
        if (body.isEmpty()) {
            throw bad("the kiln's name is missing; write virtual:demo?speed=600");
        }
        return new LinkNotation.Virtual(body, speed("1"), Optional.ofNullable(options.get("plan")));
    }

    private double speed(String usual) {
        String speed = options.getOrDefault("speed", usual);
        if (speed.equals("max")) {
            return LinkNotation.UNPACED;
        }
        if (!speed.matches("\\d{1,6}(\\.\\d{1,6})?")
                || Double.parseDouble(speed) <= 0
                || Double.parseDouble(speed) > FASTEST) {
            throw bad("speed is a number above 0 and up to 100000, or max, found \"" + speed + "\"");
        }
        return Double.parseDouble(speed);
    }

    private Path path(String what, String value) {
        try {
            return Path.of(value);
        } catch (InvalidPathException e) {
            throw bad("the " + what + " \"" + value + "\" cannot be the name of a file");
        }
    }

    private void allow(String... known) {
        Set<String> unknown = new TreeSet<>(options.keySet());
        unknown.removeAll(Set.of(known));
        if (!unknown.isEmpty()) {
            throw bad("there is no option " + String.join(", ", unknown) + "; this kind of link takes "
                    + (known.length == 0 ? "none" : String.join(" and ", List.of(known))));
        }
    }

    private BadLinkException bad(String what) {
        return new BadLinkException("\"" + text + "\": " + what + ".");
    }
}
