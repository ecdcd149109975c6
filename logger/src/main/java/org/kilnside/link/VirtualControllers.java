package org.kilnside.link;

/** Where a {@code virtual:} link gets its kiln and controller. */
@FunctionalInterface
public interface VirtualControllers {
    /**
     * A controller with its kiln cold and its firing about to begin.
     *
     * @throws BadLinkException with one sentence when there is no such kiln or plan
     */
    VirtualController begin(LinkNotation.Virtual link);
}
