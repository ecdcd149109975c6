package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.data.Percentage.withPercentage;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.hipparchus.special.Erf;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The wall against what textbooks know of walls. */
class WallSlabTest {
    private static final double TAU_S = 10_000;

    private static KilnParameters textbook(double biot, double phi, double lambda, double ambientC) {
        return new KilnParameters(TAU_S, biot, phi, lambda, 0, 1, 1, 0, 0, 0, ambientC);
    }

    static List<String> planeWalls() throws IOException {
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(WallSlabTest.class.getResourceAsStream("wall-coefficients.csv")),
                StandardCharsets.UTF_8))) {
            return reader.lines().filter(line -> line.startsWith("wall,")).toList();
        }
    }

    /**
     * A plane wall let go into still air of constant heat transfer: θ = C₁ exp(−ζ₁² Fo) at its middle, where no heat
     * passes, for Fo > 0.2. Published: Çengel, Heat Transfer: A Practical Approach, 2nd ed. 2003, Table 4-2; the rows
     * for Bi ≥ 20 solve ζ tan ζ = Bi (independent).
     */
    @ParameterizedTest
    @MethodSource("planeWalls")
    void coolsAsTheSeriesForAPlaneWallSays(String row) {
        String[] cell = row.split(",", -1);
        double biot = Double.parseDouble(cell[1]);
        double zeta = Double.parseDouble(cell[4]);
        double c1 = Double.parseDouble(cell[5]);
        double fo = Math.min(2.0, 0.25 + 0.7 / (zeta * zeta));
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 80);
        slab.use(textbook(biot, 1e-9, 0, 0));
        slab.startUniform(1000);
        int steps = 4000;
        for (int i = 0; i < steps; i++) {
            slab.run(fo * TAU_S / steps, 0);
        }
        assertThat(slab.chamberC()).isCloseTo(1000 * c1 * Math.exp(-zeta * zeta * fo), withPercentage(0.2));
    }

    /**
     * A thick wall whose face is suddenly hot: T = Ts + (Ti − Ts) erf(x / 2√(αt)), and the heat it has taken is
     * 2 (Ts − Ti) √(Fo/π). Published: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, semi-infinite solid
     * with constant surface temperature.
     */
    @Test
    void warmsAsASemiInfiniteSolidWhileTheHeatHasNotReachedTheShell() {
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 60);
        slab.use(textbook(1, 1, 0, 20));
        slab.startUniform(20);
        double fo = 0.03;
        for (int i = 0; i < 3000; i++) {
            slab.drive(fo * TAU_S / 3000, 1000);
        }
        for (int i = 0; i < slab.cells(); i++) {
            double expected = 1000 + (20 - 1000) * Erf.erf(slab.middle(i) / (2 * Math.sqrt(fo)));
            assertThat(slab.temperatureC(i)).isCloseTo(expected, within(2.0));
        }
        assertThat(slab.intoWall()).isCloseTo(2 * 980 * Math.sqrt(fo / Math.PI), withPercentage(0.5));
    }

    /**
     * Soil at 20 °C, its surface at −15 °C for 60 days, freezes to 0.68 m. Published: Incropera & DeWitt, Example 5.6
     * (k 0.52, ρ 2050, c 1840 SI); exact 0.6766 m. A layer of 5 m stands for the ground.
     */
    @Test
    void freezesSoilAsDeepAsTheWorkedExample() {
        double depthM = 5;
        double diffusivity = 0.52 / (2050.0 * 1840);
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 60);
        slab.use(new KilnParameters(depthM * depthM / diffusivity, 1e-9, 1, 0, 0, 1, 1, 0, 0, 0, 20));
        slab.startUniform(20);
        for (int i = 0; i < 6000; i++) {
            slab.drive(60 * 86400 / 6000.0, -15);
        }
        assertThat(depthOf(slab, 0) * depthM).isCloseTo(0.6766, within(0.01));
    }

    /**
     * A 0.45 m brick wall at 295 K, far face insulated, near face suddenly 900 K: the far face is 375 K after 19.7 h
     * (19.8 h with the full series). Published: Coulson & Richardson, Chemical Engineering vol. 1, Example 9.4
     * (α = 4.2e-7 m²/s; thickness inferred).
     */
    @Test
    void heatsABrickWallThroughAsTheWorkedExample() {
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 60);
        slab.use(new KilnParameters(0.45 * 0.45 / 4.2e-7, 1e-12, 1, 0, 0, 1, 1, 0, 0, 0, 22));
        slab.startUniform(295 - 273.0);
        double hours = 0;
        while (slab.shellC() < 375 - 273.0) {
            slab.drive(36, 900 - 273.0);
            hours += 0.01;
        }
        assertThat(hours).isCloseTo(19.8, within(0.15));
    }

    private static double depthOf(WallSlab slab, double celsius) {
        for (int i = 1; i < slab.cells(); i++) {
            if (slab.temperatureC(i) > celsius) {
                double part = (celsius - slab.temperatureC(i - 1)) / (slab.temperatureC(i) - slab.temperatureC(i - 1));
                return slab.middle(i - 1) + part * (slab.middle(i) - slab.middle(i - 1));
            }
        }
        throw new AssertionError("nowhere " + celsius);
    }

    /** With hardly any resistance inside, wall and load cool as one lump: exp(−Bi t / (τ (1 + φ))). Closed form. */
    @Test
    void coolsAsOneLumpWhenTheShellIsTheOnlyResistance() {
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 12);
        double biot = 0.002;
        slab.use(textbook(biot, 0.5, 0, 0));
        slab.startUniform(100);
        for (int i = 0; i < 2000; i++) {
            slab.run(3_000, 0);
        }
        double expected = 100 * Math.exp(-biot * 2000 * 3000 / (TAU_S * 1.5));
        assertThat(slab.chamberC()).isCloseTo(expected, withPercentage(0.2));
    }

    /**
     * Two layers in series, steady: the heat through them is the difference over the sum of the resistances. Closed
     * form, as in Coulson & Richardson vol. 1, Example 9.3.
     */
    @Test
    void passesThroughTwoLayersWhatTheirResistancesAllow() {
        WallShape layered = new WallShape(WallShape.Quadratic.ONE, WallShape.Quadratic.ONE, 0, true, 0.75, 0.2, 0.3);
        WallSlab slab = new WallSlab(layered, 24);
        slab.use(textbook(4, 1, 0, 20));
        slab.startUniform(20);
        for (int i = 0; i < 400; i++) {
            slab.drive(2_000, 1020);
        }
        double before = slab.intoWall();
        slab.drive(1_000, 1020);
        double flux = (slab.intoWall() - before) * TAU_S / 1_000;
        assertThat(flux).isCloseTo(1000 / (0.75 + 0.25 / 0.2 + 1 / 4.0), withPercentage(0.1));
    }

    /** A whole firing and cooling of each kind of wall: what the elements gave is in wall, load, air. Conservation. */
    @Test
    void keepsItsAccountsOfHeat() {
        for (WallKind kind : WallKind.values()) {
            WallSlab slab = new WallSlab(kind.shape(), WallSlab.USUAL_CELLS);
            slab.use(new KilnParameters(kind.typicalTauS(), 3, 0.6, 0.2, 0.25, 1, 0.8, 0.015, 0.045, 3500, 12));
            slab.startUniform(12);
            for (int i = 0; i < 8 * 3600 / 60; i++) {
                slab.control(60, 12 + 150 * i / 60.0);
            }
            for (int i = 0; i < 20 * 3600 / 60; i++) {
                slab.run(60, 0);
            }
            double kept = slab.wallHolds(12) + slab.loadHolds(12);
            assertThat(slab.fromShell() + slab.leaked() + kept)
                    .as(kind.name())
                    .isCloseTo(slab.supplied(), withPercentage(0.1));
        }
    }

    /** Half the steps, four times the cells: the time a cooling takes hardly changes. Own output against itself. */
    @Test
    void hardlyChangesWithFinerStepsAndCells() {
        for (WallKind kind : WallKind.values()) {
            double usual = coolingS(kind, WallSlab.USUAL_CELLS, 1);
            assertThat(coolingS(kind, WallSlab.USUAL_CELLS, 0.5)).isCloseTo(usual, withPercentage(0.2));
            assertThat(coolingS(kind, WallSlab.USUAL_CELLS, 0.05)).isCloseTo(usual, withPercentage(0.4));
            assertThat(coolingS(kind, 4 * WallSlab.USUAL_CELLS, 1)).isCloseTo(usual, withPercentage(0.4));
        }
    }

    private static double coolingS(WallKind kind, int cells, double ofUsualSteps) {
        double driven = WallSlab.DRIVEN_STEP_S * ofUsualSteps;
        double coasting = WallSlab.COASTING_STEP_S * ofUsualSteps;
        WallSlab slab = new WallSlab(kind.shape(), cells);
        slab.use(new KilnParameters(kind.typicalTauS(), 3, 0.6, 0.2, 0.25, 1, 0.8, 0.015, 0.045, 0, 12));
        slab.startUniform(12);
        for (double time = 0; time < 9 * 3600; time += driven) {
            slab.drive(driven, 12 + 130 * (time + driven) / 3600);
        }
        double time = 0;
        double before = slab.chamberC();
        while (slab.chamberC() > 100) {
            before = slab.chamberC();
            slab.coast(coasting);
            time += coasting;
        }
        return time - coasting * (100 - slab.chamberC()) / (before - slab.chamberC());
    }

    /** Where Bi is meant: a shell about 30 K above ambient. Below ambient the factor stays what it is at ambient. */
    @Test
    void theShellsHeatTransferIsOneAtThirtyKelvin() {
        assertThat(WallSlab.shellFactor(32)).isCloseTo(1, within(0.01));
        assertThat(WallSlab.shellFactor(-5)).isEqualTo(WallSlab.shellFactor(0));
    }
}
