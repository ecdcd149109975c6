package org.kilnside.virtualkiln;

/**
 * Where the energy of a firing went, J, since its start. What was supplied must be stored or lost.
 *
 * @param suppliedJ by the elements
 * @param storedJ in wire, ware, furniture, air, walls and shell, against the start; negative when colder than then
 * @param throughShellJ by convection and radiation from the shell
 * @param withAirJ carried off by air through leaks, bung and lid
 * @param throughOpeningsJ radiated out through the propped lid
 * @param withWaterJ carried off by water that left the ware
 * @param boundWaterJ taken up where the clay lost its bound water
 */
public record EnergyBalance(
        double suppliedJ,
        double storedJ,
        double throughShellJ,
        double withAirJ,
        double throughOpeningsJ,
        double withWaterJ,
        double boundWaterJ) {
    public double lostJ() {
        return throughShellJ + withAirJ + throughOpeningsJ + withWaterJ + boundWaterJ;
    }

    /** What does not close, as a share of what was supplied or, where nothing was, of what was lost. */
    public double mismatch() {
        return Math.abs(suppliedJ - storedJ - lostJ()) / Math.max(Math.max(suppliedJ, Math.abs(lostJ())), 1);
    }
}
