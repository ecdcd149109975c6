package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class MaterialsTest {
    private static final Map<String, Material> KNOWN = Map.of(
            "L1260 insulating brick", Materials.BRICK_1260,
            "L1400 insulating brick", Materials.BRICK_1400,
            "L1540 insulating brick", Materials.BRICK_1540,
            "JM-23 insulating firebrick (maker)", Materials.BRICK_GRADE_23,
            "JM-26 insulating firebrick (maker)", Materials.BRICK_GRADE_26,
            "Alumino-silicate fibre blanket 128 kg/m3", Materials.FIBRE_128,
            "Fireclay (dense)", Materials.FIRECLAY);

    /** Published: VDI Heat Atlas, 2nd ed., 2010 (one copy); rows "from memory" are just that. */
    @ParameterizedTest
    @CsvFileSource(resources = "firebrick.csv", numLinesToSkip = 2)
    void bricksHaveThePropertiesOfTheTable(
            String name,
            double density,
            Double k400,
            Double k600,
            Double k800,
            Double k1000,
            Double k1200,
            Double cp400,
            Double cp600,
            Double cp800,
            Double cp1000,
            Double cp1200) {
        Material material = KNOWN.get(name);
        if (material == null) {
            assertThat(name).containsAnyOf("L1760", "High-duty", "Mullite", "Corundum", "SiC");
            return;
        }
        assertThat(material.densityKgM3()).isEqualTo(density);
        same(material.conductivity(400), k400);
        same(material.conductivity(600), k600);
        same(material.conductivity(800), k800);
        same(material.conductivity(1000), k1000);
        same(material.conductivity(1200), k1200);
        same(material.heatCapacity(400), cp400);
        same(material.heatCapacity(600), cp600);
        same(material.heatCapacity(800), cp800);
        same(material.heatCapacity(1000), cp1000);
        same(material.heatCapacity(1200), cp1200);
    }

    private static void same(double actual, Double printed) {
        Optional.ofNullable(printed).ifPresent(value -> assertThat(actual).isCloseTo(value, within(1e-9)));
    }

    /** Independent: the enthalpy's slope is the heat capacity, between the grid's points too. */
    @Test
    void enthalpyIsTheIntegralOfHeatCapacity() {
        for (double temperatureC = -20; temperatureC < 1400; temperatureC += 7.3) {
            double slope = (Materials.WARE.enthalpy(temperatureC + 0.01) - Materials.WARE.enthalpy(temperatureC - 0.01))
                    / 0.02;
            assertThat(slope).isCloseTo(Materials.WARE.heatCapacity(temperatureC), within(0.05));
        }
    }
}
