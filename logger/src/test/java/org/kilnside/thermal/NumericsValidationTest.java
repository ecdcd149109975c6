package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.kilnside.ValidationPage;
import org.kilnside.thermal.TextbookWalls.Found;

/** Writes what the model's wall and solver come to beside handbooks and NIST into docs/validation.md, or finds it stale. */
class NumericsValidationTest {
    private static String text(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private static double worst(Stream<Found> found) {
        return found.mapToDouble(Found::percent).max().orElseThrow();
    }

    @Test
    void thePageSaysHowTheWallComesOutBesideHandbooks() {
        List<String> lines = new ArrayList<>();
        lines.add("| check | source | ours | theirs | error |");
        lines.add("| --- | --- | --- | --- | --- |");
        for (String row : TextbookWalls.planeWalls()) {
            Found found = TextbookWalls.coolingPlaneWall(row);
            lines.add(text(
                    "| plane wall let cool from 1000, Bi %s, its middle | %s | %.2f | %.2f | %.3f %% |",
                    row.split(",", -1)[1],
                    Double.parseDouble(row.split(",", -1)[1]) < 20
                            ? "Çengel, Table 4-2"
                            : "ζ tan ζ = Bi, the root worked out anew",
                    found.value(),
                    found.right(),
                    found.percent()));
        }
        TextbookWalls.SuddenlyHeated heated = TextbookWalls.semiInfiniteSolid();
        lines.add(text(
                "| thick wall suddenly heated by 980 K: temperatures | error function (Incropera & DeWitt) | | | %.2f K at most |",
                heated.worstK()));
        lines.add(text(
                "| … heat taken | 2 ΔT √(Fo/π) (Incropera & DeWitt) | %.2f | %.2f | %.3f %% |",
                heated.heat().value(), heated.heat().right(), heated.heat().percent()));
        Found frost = TextbookWalls.frostInSoilM();
        lines.add(text(
                "| frost in soil, 60 days, m | Incropera & DeWitt, Ex. 5.6: 0.68; exact %.4f | %.4f | %.4f | %.2f %% |",
                frost.right(), frost.value(), frost.right(), frost.percent()));
        Found brick = TextbookWalls.brickWallH();
        lines.add(text(
                "| brick wall heated from one side, h | Coulson & Richardson vol. 1, Ex. 9.4: 19.7; full series %.1f | %.2f | %.1f | %.2f %% |",
                brick.right(), brick.value(), brick.right(), brick.percent()));
        Found lump = TextbookWalls.oneLumpC();
        lines.add(text(
                "| one lump of wall and load, from 100 | closed form | %.3f | %.3f | %.3f %% |",
                lump.value(), lump.right(), lump.percent()));
        Found layers = TextbookWalls.twoLayers();
        lines.add(text(
                "| two layers in series, steady flux | closed form | %.2f | %.2f | %.4f %% |",
                layers.value(), layers.right(), layers.percent()));
        for (WallKind kind : WallKind.values()) {
            lines.add(text(
                    "| held and lost against supplied, a whole firing, %s | conservation | | | %.4f %% |",
                    kind.name().toLowerCase(Locale.ROOT),
                    TextbookWalls.heatOfAFiring(kind).percent()));
        }
        lines.add(text(
                "| a cooling's time with half the steps, a twentieth of them, four times the cells | own output against itself | | | %.2f %% at most |",
                worst(Arrays.stream(WallKind.values()).flatMap(kind -> TextbookWalls.finer(kind).stream()))));
        ValidationPage.holds("walls", lines);
    }

    @Test
    void thePageSaysHowManyDigitsOfEachCertifiedFitAreFound() {
        List<String> lines = new ArrayList<>();
        lines.add(
                "| set | from NIST's start | parameters | certified digits found | spreads off by | sum of squares off by |");
        lines.add("| --- | --- | --- | --- | --- | --- |");
        for (LeastSquaresTest.Run run : LeastSquaresTest.RUNS) {
            LeastSquaresTest.Found found = LeastSquaresTest.found(run);
            assertThat(found.digits()).isGreaterThan(4);
            // Lanczos1's residuals are rounding: nobody can reproduce its sum of squares, nor its spreads.
            boolean rounding = run.set().equals("Lanczos1");
            lines.add(text(
                    "| %s | %d | %d | %.1f | %s | %s |",
                    run.set(),
                    run.start(),
                    found.parameters(),
                    found.digits(),
                    rounding ? "residuals are rounding" : text("%.1e %%", found.spreadsOffPercent()),
                    rounding ? "residuals are rounding" : text("%.1e %%", found.squaresOffPercent())));
        }
        ValidationPage.holds("fits", lines);
    }
}
