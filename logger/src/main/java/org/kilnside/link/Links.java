package org.kilnside.link;

import org.kilnside.session.ReadingSource;

/** Makes a source of readings from a link's notation. */
public final class Links {
    private Links() {}

    /**
     * A source for the link as a person types it; nothing is opened before it is started.
     *
     * @throws BadLinkException with one sentence when the notation cannot be understood or names a kiln or plan that
     *     is not there
     */
    public static ReadingSource open(String notation, Surroundings around) {
        return open(LinkNotation.parse(notation), around);
    }

    /** A source for a link; see {@link #open(String, Surroundings)}. */
    public static ReadingSource open(LinkNotation link, Surroundings around) {
        return new LinkReader(link.text(), port(link, around), around, ProtocolLines::new);
    }

    private static Port port(LinkNotation link, Surroundings around) {
        if (link instanceof LinkNotation.Serial serial) {
            return new SerialLinePort(serial);
        }
        if (link instanceof LinkNotation.Tcp tcp) {
            return new TcpPort(tcp);
        }
        if (link instanceof LinkNotation.Replay replay) {
            return new ReplayPort(replay, around);
        }
        LinkNotation.Virtual virtual = (LinkNotation.Virtual) link;
        return new VirtualPort(virtual, around.virtualControllers().begin(virtual), around);
    }
}
