package org.kilnside.link;

import java.util.Optional;
import org.kilnside.session.ReadingSource;

/** A source that also remembers what it did not understand. */
public interface PortEar extends ReadingSource {
    /** How the lines that came could be read, when none of them was of the protocol; empty while there are too few. */
    Optional<LinePatternProposal> proposal();
}
