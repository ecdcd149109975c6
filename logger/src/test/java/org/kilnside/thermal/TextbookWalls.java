package org.kilnside.thermal;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.hipparchus.special.Erf;

/** Walls of which textbooks know the answer, worked out by the lines that run the kiln model. */
final class TextbookWalls {
    private static final double TAU_S = 10_000;

    private TextbookWalls() {}

    /** What was found beside what is right, in the same unit. */
    record Found(double value, double right) {
        /** How far it is off, %. */
        double percent() {
            return 100 * Math.abs(value / right - 1);
        }

        double off() {
            return Math.abs(value - right);
        }
    }

    /** A thick wall suddenly heated: the largest error of its temperatures, K, and the heat it has taken. */
    record SuddenlyHeated(double worstK, Found heat) {}

    static KilnParameters textbook(double biot, double phi, double lambda, double ambientC) {
        return new KilnParameters(TAU_S, biot, phi, lambda, 0, 1, 1, 0, 0, 0, ambientC);
    }

    /** The rows of the table of plane walls: name, Bi, …, ζ₁, C₁. */
    static List<String> planeWalls() {
        try (BufferedReader reader = new BufferedReader(new InputStreamReader(
                Objects.requireNonNull(TextbookWalls.class.getResourceAsStream("wall-coefficients.csv")),
                StandardCharsets.UTF_8))) {
            return reader.lines().filter(line -> line.startsWith("wall,")).toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * A plane wall let go into still air of constant heat transfer: θ = C₁ exp(−ζ₁² Fo) at its middle, where no heat
     * passes, for Fo > 0.2. Published: Çengel, Heat Transfer: A Practical Approach, 2nd ed. 2003, Table 4-2; the rows
     * for Bi ≥ 20 solve ζ tan ζ = Bi (independent).
     */
    static Found coolingPlaneWall(String row) {
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
        return new Found(slab.chamberC(), 1000 * c1 * Math.exp(-zeta * zeta * fo));
    }

    /**
     * A thick wall whose face is suddenly hot: T = Ts + (Ti − Ts) erf(x / 2√(αt)), and the heat it has taken is
     * 2 (Ts − Ti) √(Fo/π). Published: Incropera & DeWitt, Fundamentals of Heat and Mass Transfer, semi-infinite solid
     * with constant surface temperature.
     */
    static SuddenlyHeated semiInfiniteSolid() {
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 60);
        slab.use(textbook(1, 1, 0, 20));
        slab.startUniform(20);
        double fo = 0.03;
        for (int i = 0; i < 3000; i++) {
            slab.drive(fo * TAU_S / 3000, 1000);
        }
        double worstK = 0;
        for (int i = 0; i < slab.cells(); i++) {
            double right = 1000 + (20 - 1000) * Erf.erf(slab.middle(i) / (2 * Math.sqrt(fo)));
            worstK = Math.max(worstK, Math.abs(slab.temperatureC(i) - right));
        }
        return new SuddenlyHeated(worstK, new Found(slab.intoWall(), 2 * 980 * Math.sqrt(fo / Math.PI)));
    }

    /**
     * Soil at 20 °C, its surface at −15 °C for 60 days, freezes to 0.68 m. Published: Incropera & DeWitt, Example 5.6
     * (k 0.52, ρ 2050, c 1840 SI); exact 0.6766 m. A layer of 5 m stands for the ground.
     */
    static Found frostInSoilM() {
        double depthM = 5;
        double diffusivity = 0.52 / (2050.0 * 1840);
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 60);
        slab.use(new KilnParameters(depthM * depthM / diffusivity, 1e-9, 1, 0, 0, 1, 1, 0, 0, 0, 20));
        slab.startUniform(20);
        for (int i = 0; i < 6000; i++) {
            slab.drive(60 * 86400 / 6000.0, -15);
        }
        return new Found(depthOf(slab, 0) * depthM, 0.6766);
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

    /**
     * A 0.45 m brick wall at 295 K, far face insulated, near face suddenly 900 K: the far face is 375 K after 19.7 h
     * (19.8 h with the full series). Published: Coulson & Richardson, Chemical Engineering vol. 1, Example 9.4
     * (α = 4.2e-7 m²/s; thickness inferred).
     */
    static Found brickWallH() {
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 60);
        slab.use(new KilnParameters(0.45 * 0.45 / 4.2e-7, 1e-12, 1, 0, 0, 1, 1, 0, 0, 0, 22));
        slab.startUniform(295 - 273.0);
        double hours = 0;
        while (slab.shellC() < 375 - 273.0) {
            slab.drive(36, 900 - 273.0);
            hours += 0.01;
        }
        return new Found(hours, 19.8);
    }

    /** With hardly any resistance inside, wall and load cool as one lump: exp(−Bi t / (τ (1 + φ))). Closed form. */
    static Found oneLumpC() {
        WallSlab slab = new WallSlab(WallShape.TEXTBOOK_SLAB, 12);
        double biot = 0.002;
        slab.use(textbook(biot, 0.5, 0, 0));
        slab.startUniform(100);
        for (int i = 0; i < 2000; i++) {
            slab.run(3_000, 0);
        }
        return new Found(slab.chamberC(), 100 * Math.exp(-biot * 2000 * 3000 / (TAU_S * 1.5)));
    }

    /**
     * Two layers in series, steady: the heat through them is the difference over the sum of the resistances. Closed
     * form, as in Coulson & Richardson vol. 1, Example 9.3.
     */
    static Found twoLayers() {
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
        return new Found(flux, 1000 / (0.75 + 0.25 / 0.2 + 1 / 4.0));
    }

    /** A whole firing and cooling: held and lost beside what the elements gave. Conservation. */
    static Found heatOfAFiring(WallKind kind) {
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
        return new Found(slab.fromShell() + slab.leaked() + kept, slab.supplied());
    }

    /** Half the steps, a twentieth of them, four times the cells: a cooling's time beside the usual one's. Own output. */
    static List<Found> finer(WallKind kind) {
        double usual = coolingS(kind, WallSlab.USUAL_CELLS, 1);
        List<Found> found = new ArrayList<>();
        found.add(new Found(coolingS(kind, WallSlab.USUAL_CELLS, 0.5), usual));
        found.add(new Found(coolingS(kind, WallSlab.USUAL_CELLS, 0.05), usual));
        found.add(new Found(coolingS(kind, 4 * WallSlab.USUAL_CELLS, 1), usual));
        return found;
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
}
