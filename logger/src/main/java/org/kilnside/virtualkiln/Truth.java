package org.kilnside.virtualkiln;

/**
 * What is really so in the kiln at one instant: for tests, never on a wire.
 *
 * @param tipC at the guiding sensor's junction
 * @param wareC mean of each level's ware, top first
 * @param hottestWareC of all ware, cores included
 * @param shellC of the jacket
 * @param boxC in the controller's box
 * @param roomC of the room
 * @param powerW going into the elements
 * @param waterKg pore water still in the ware
 */
public record Truth(
        double tipC,
        double[] wareC,
        double hottestWareC,
        double shellC,
        double boxC,
        double roomC,
        double powerW,
        double waterKg) {}
