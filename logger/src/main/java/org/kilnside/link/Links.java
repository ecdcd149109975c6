package org.kilnside.link;

import java.util.Optional;
import org.kilnside.files.LinePattern;
import org.kilnside.files.ProfileLibrary;
import org.kilnside.session.HostClock;
import org.kilnside.session.ReadingSource;

/** Makes a source of readings from a link's notation. */
public final class Links {
    private Links() {}

    /**
     * A source for the link as a person types it; nothing is opened before it is started.
     *
     * @throws BadLinkException with one sentence when the notation cannot be understood or names a kiln that is not
     *     there; a plan or line pattern that is not there or is wrong says so as its file's reader does
     */
    public static ReadingSource open(String notation, LinkSurroundings around) {
        return open(LinkNotation.parse(notation), around);
    }

    /** A source for a link, with the plans that come with the program; see {@link #open(String, LinkSurroundings)}. */
    public static ReadingSource open(String notation, HostClock clock) {
        return open(notation, LinkSurroundings.of(clock, ProfileLibrary.starters()));
    }

    /** A source for a link; see {@link #open(String, LinkSurroundings)}. */
    public static ReadingSource open(LinkNotation link, LinkSurroundings around) {
        return listen(link, around);
    }

    /** A source that can also say how lines which are none of the protocol could be read. */
    public static PortEar listen(LinkNotation link, LinkSurroundings around) {
        return new LinkReader(link.text(), port(link, around), around, lines(link, around));
    }

    /** What a link's port is called in sentences and in what is remembered of it; opens nothing. */
    public static String title(LinkNotation link) {
        if (link instanceof LinkNotation.Serial serial) {
            return serial.path();
        }
        return link instanceof LinkNotation.Tcp tcp ? tcp.host() + ":" + tcp.port() : link.text();
    }

    static LineReader.Maker lines(LinkNotation link, LinkSurroundings around) {
        Optional<LinePattern> pattern = link.linePattern().map(around.library()::linePattern);
        return pattern.<LineReader.Maker>map(its -> (ears, heard) -> new PatternLines(its, ears, heard))
                .orElseGet(() -> ProtocolLines.saying(around.words()));
    }

    static Port port(LinkNotation link, LinkSurroundings around) {
        if (link instanceof LinkNotation.Serial serial) {
            return new SerialLinePort(serial, around.words());
        }
        if (link instanceof LinkNotation.Tcp tcp) {
            return new TcpPort(tcp, around.words());
        }
        if (link instanceof LinkNotation.Replay replay) {
            return new ReplayPort(replay, around);
        }
        if (link instanceof LinkNotation.Attach) {
            throw new BadLinkException("\"" + link.text()
                    + "\": another Kilnside records there already, and this one can only follow it: use desk or watch"
                    + " with --attach.");
        }
        LinkNotation.Virtual virtual = (LinkNotation.Virtual) link;
        return VirtualPort.of(virtual, around);
    }
}
