package org.kilnside.virtualkiln;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.hipparchus.special.Erf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.kilnside.virtualkiln.VirtualKilnSpec.Layer;

/** Conduction by the very lines that run the kiln, against the handbooks. */
class WallTest {
    /** A face held at a temperature: so good a contact that it makes no difference. W/K. */
    private static final double HELD = 1e9;

    private static final double INSULATED = 0;

    private static Wall plane(Layer layer, double intervalM) {
        return new Wall(List.of(layer), 1, 1, 0, intervalM, 0);
    }

    /** Published: Cengel, Heat Transfer, 2nd ed., Table 4-2, one-term coefficients for a plane wall (Bi 0.01 … 100; rows noted "from memory" were not seen in print). */
    @ParameterizedTest
    @CsvFileSource(resources = "wall-coefficients.csv", numLinesToSkip = 3)
    void aPlaneWallCoolsAsTheOneTermTableSays(
            String geometry, String biot, double zetaPrinted, double c1Printed, String zeta, String c1, String note) {
        assertThat(geometry).isEqualTo("wall");
        double lengthM = 0.1;
        double diffusivity = 1e-6;
        Material material = Material.constant("test", 1000, 1, 1000);
        double convection = Double.parseDouble(biot) / lengthM;
        Wall wall = plane(new Layer(material, lengthM), lengthM / 100);
        wall.startAt(100);
        double fourier = 1;
        int steps = 4000;
        for (int i = 0; i < steps; i++) {
            wall.step(fourier * lengthM * lengthM / diffusivity / steps, INSULATED, 0, convection, 0);
        }
        double middle = 100 * c1Printed * Math.exp(-zetaPrinted * zetaPrinted * fourier);
        // The table has four figures: 0.1 °C of 100.
        assertThat(wall.faceC()).isCloseTo(middle, within(0.1));
        assertThat(wall.shellC()).isCloseTo(middle * Math.cos(zetaPrinted), within(0.1));
    }

    /** Published: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, Ex. 5.4: 42.9 °C and −7360 W/m². */
    @Test
    void aPipeWallWarmsAsInIncroperaExample54() {
        Wall wall = plane(new Layer(Material.constant("steel", 7832, 63.9, 434), 0.04), 0.0005);
        wall.startAt(-20);
        for (int i = 0; i < 4800; i++) {
            wall.step(0.1, 500, 60, INSULATED, 0);
        }
        assertThat(wall.shellC()).isCloseTo(42.9, within(0.2));
        assertThat(500 * (wall.faceC() - 60)).isCloseTo(-7360, within(50.0));
        // Independent: the same by the series, 43.02 °C and −7318 W/m².
        assertThat(wall.shellC()).isCloseTo(43.02, within(0.02));
        assertThat(500 * (wall.faceC() - 60)).isCloseTo(-7318, within(7.0));
    }

    /** Published: Incropera & DeWitt, Ex. 5.6: after 60 days 0 °C stands 0.68 m deep. */
    @Test
    void soilFreezesAsInIncroperaExample56() {
        double spacingM = 0.005;
        Wall wall = plane(new Layer(Material.constant("soil", 2050, 0.52, 1840), 10), spacingM);
        wall.startAt(20);
        for (int i = 0; i < 60 * 24; i++) {
            wall.step(3600, HELD, -15, INSULATED, 0);
        }
        double[] nodes = wall.nodesC();
        int node = 0;
        while (nodes[node] < 0) {
            node++;
        }
        double depthM = spacingM * (node - nodes[node] / (nodes[node] - nodes[node - 1]));
        assertThat(depthM).isCloseTo(0.68, within(0.005));
        // Independent: 0.6766 m by the error function.
        assertThat(depthM).isCloseTo(0.6766, within(0.001));
    }

    /** Published: any handbook; T = T_s + (T_i − T_s) erf(x / 2√(αt)), q'' = k (T_s − T_i) / √(παt). */
    @Test
    void aThickWallFollowsTheErrorFunctionAtFirst() {
        Material brick = Material.constant("brick", 490, 0.2, 1000);
        Wall wall = plane(new Layer(brick, 0.5), 0.0005);
        wall.startAt(20);
        double seconds = 3600;
        for (int i = 0; i < 7200; i++) {
            wall.step(0.5, HELD, 1000, INSULATED, 0);
        }
        double diffusivity = 0.2 / (490 * 1000.0);
        double[] nodes = wall.nodesC();
        for (int node = 1; node < 240; node++) {
            double depthM = 0.0005 * node;
            double expected = 1000 - 980 * Erf.erf(depthM / (2 * Math.sqrt(diffusivity * seconds)));
            assertThat(nodes[node]).isCloseTo(expected, within(0.1));
        }
        double flux = 0.2 * (nodes[0] - nodes[1]) / 0.0005;
        assertThat(flux).isCloseTo(0.2 * 980 / Math.sqrt(Math.PI * diffusivity * seconds), within(3.0));
    }

    /** Published: Coulson & Richardson, Chemical Engineering Vol. 1, Ex. 9.3: 961 W/m², 1063 K at the first joint. */
    @Test
    void threeBricksPassAsMuchHeatAsInCoulsonAndRichardson93() {
        Wall wall = new Wall(
                List.of(
                        new Layer(Material.constant("firebrick", 2000, 1.4, 1000), 0.20),
                        new Layer(Material.constant("insulating brick", 500, 0.21, 1000), 0.10),
                        new Layer(Material.constant("building brick", 1800, 0.7, 1000), 0.20)),
                1,
                1,
                0,
                0.01,
                0);
        wall.startAt(100);
        double hotC = 1200 - 273.15;
        double coldC = 330 - 273.15;
        for (int i = 0; i < 400; i++) {
            wall.step(86_400, HELD, hotC, HELD, coldC);
        }
        double[] nodes = wall.nodesC();
        assertThat(1.4 * (nodes[0] - nodes[1]) / 0.01).isCloseTo(961, within(1.0));
        assertThat(nodes[20] + 273.15).isCloseTo(1063, within(0.5));
    }

    /** Published: Coulson & Richardson Vol. 1, Ex. 9.4: 19.7 h (thickness inferred); 19.8 h by the full series. */
    @Test
    void theFarFaceWarmsAsLateAsInCoulsonAndRichardson94() {
        double heat = 1e6;
        Wall wall = plane(new Layer(Material.constant("brick", 1000, 4.2e-7 * heat, heat / 1000), 0.45), 0.005);
        wall.startAt(295 - 273.15);
        double hours = 0;
        while (wall.shellC() < 375 - 273.15) {
            wall.step(30, HELD, 900 - 273.15, INSULATED, 0);
            hours += 30 / 3600.0;
        }
        assertThat(hours).isCloseTo(19.7, within(0.15));
        assertThat(hours).isCloseTo(19.8, within(0.05));
    }

    /** Independent: round a cylinder q = 2πkl ΔT / ln(r₂/r₁) (any handbook). */
    @Test
    void aRoundJacketPassesHeatAsACylinderDoes() {
        double inner = 0.2;
        double outer = 0.3;
        Wall wall = new Wall(
                List.of(new Layer(Material.constant("brick", 500, 0.2, 1000), outer - inner)),
                2 * Math.PI * inner,
                2 * Math.PI * outer,
                0,
                0.002,
                0);
        wall.startAt(20);
        for (int i = 0; i < 300; i++) {
            wall.step(86_400, HELD, 1000, 50, 20);
        }
        double lost = 50 * (wall.shellC() - 20);
        double resistance = Math.log(outer / inner) / (2 * Math.PI * 0.2);
        assertThat(lost).isCloseTo(980 / (resistance + 1 / 50.0), within(0.3));
    }

    /** Independent: steady flux through conductivity k(T) is ∫k dT over the thickness. */
    @Test
    void conductivityThatRisesWithHeatPassesItsIntegral() {
        Wall wall = plane(new Layer(Materials.BRICK_1260, 0.075), 0.0015);
        wall.startAt(500);
        for (int i = 0; i < 300; i++) {
            wall.step(86_400, HELD, 1200, HELD, 400);
        }
        double[] nodes = wall.nodesC();
        double flux = Materials.BRICK_1260.conductivity((nodes[0] + nodes[1]) / 2) * (nodes[0] - nodes[1]) / 0.0015;
        // 0.14 … 0.22 W/(m K) between 400 and 1200 °C, a straight line (VDI Heat Atlas): 0.18 on average.
        assertThat(flux).isCloseTo(0.18 * 800 / 0.075, within(1.0));
    }

    @Test
    void whatComesInAtTheHotFaceIsStoredOrLeavesAtTheShell() {
        Wall wall = new Wall(
                List.of(new Layer(Materials.BRICK_1400, 0.06), new Layer(Materials.FIBRE_128, 0.025)),
                0.7,
                1.0,
                3000,
                0.0015,
                0.18);
        wall.startAt(15);
        double startJ = wall.storedJ();
        double in = 0;
        double out = 0;
        for (int second = 0; second < 8 * 3600; second++) {
            double hotC = 15 + 1200 * Math.min(1, second / 14_400.0);
            wall.step(1, 200, hotC, 12, 15);
            in += 200 * (hotC - wall.faceC());
            out += 12 * (wall.shellC() - 15);
        }
        assertThat((wall.storedJ() - startJ + out) / in).isCloseTo(1, within(1e-4));
    }
}
