package org.kilnside.thermal;

import java.util.List;

/**
 * A kiln in SI units for trying forecasts on: panels of layered refractory whose cross-section grows outwards, ware
 * that exchanges heat with them by radiation, a leak, elements of limited power, a slow noisy sensor. Nothing of it is
 * shared with the model under trial.
 *
 * @param panels side walls, lid, floor; or one for all
 * @param volumeM3 inside
 * @param powerW of the elements, all on
 * @param shellEmissivity of the jacket
 * @param leakWK enthalpy flow of the air leaking through when the inside is 500 K warmer, W/K
 * @param leakExponent 0 = the flow does not depend on temperature (a fan), 0.5 = draught
 * @param elementsToWare which part of the power the ware receives first
 * @param sensorSeesWare weight of the ware in what the sensor sees, the rest is hot face
 * @param sensorLagS time constant of the sensor
 * @param plainWare ware whose heat capacity does not change with temperature
 */
record TrialKiln(
        List<Panel> panels,
        double volumeM3,
        double powerW,
        double shellEmissivity,
        double leakWK,
        double leakExponent,
        double elementsToWare,
        double sensorSeesWare,
        double sensorLagS,
        boolean plainWare) {

    /**
     * @param areaM2 of the hot face
     * @param growthPerM relative growth of the side of the cross-section per metre outwards
     */
    record Panel(double areaM2, double growthPerM, List<Layer> layers) {}

    record Layer(TrialMaterial material, double thicknessM) {}

    /**
     * What stands in it: two lots, thin ware quick, thick ware slow.
     *
     * @param exchange effective emissivity between ware and hot faces
     * @param quartzJKg heat that quartz in a kilogram of it takes as it turns
     */
    record Load(double thinKg, double thickKg, double areaPerKgM2, double exchange, double quartzJKg) {}
}
