package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.data.Percentage.withPercentage;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.kilnside.thermal.TextbookWalls.Found;

/** The wall against what textbooks know of walls; each source stands beside its case in {@link TextbookWalls}. */
class WallSlabTest {
    static List<String> planeWalls() {
        return TextbookWalls.planeWalls();
    }

    @ParameterizedTest
    @MethodSource("planeWalls")
    void coolsAsTheSeriesForAPlaneWallSays(String row) {
        Found found = TextbookWalls.coolingPlaneWall(row);
        assertThat(found.value()).isCloseTo(found.right(), withPercentage(0.2));
    }

    @Test
    void warmsAsASemiInfiniteSolidWhileTheHeatHasNotReachedTheShell() {
        TextbookWalls.SuddenlyHeated found = TextbookWalls.semiInfiniteSolid();
        assertThat(found.worstK()).isLessThan(2.0);
        assertThat(found.heat().value()).isCloseTo(found.heat().right(), withPercentage(0.5));
    }

    @Test
    void freezesSoilAsDeepAsTheWorkedExample() {
        assertThat(TextbookWalls.frostInSoilM().value()).isCloseTo(0.6766, within(0.01));
    }

    @Test
    void heatsABrickWallThroughAsTheWorkedExample() {
        assertThat(TextbookWalls.brickWallH().value()).isCloseTo(19.8, within(0.15));
    }

    @Test
    void coolsAsOneLumpWhenTheShellIsTheOnlyResistance() {
        Found found = TextbookWalls.oneLumpC();
        assertThat(found.value()).isCloseTo(found.right(), withPercentage(0.2));
    }

    @Test
    void passesThroughTwoLayersWhatTheirResistancesAllow() {
        Found found = TextbookWalls.twoLayers();
        assertThat(found.value()).isCloseTo(found.right(), withPercentage(0.1));
    }

    /** A whole firing and cooling of each kind of wall: what the elements gave is in wall, load, air. */
    @Test
    void keepsItsAccountsOfHeat() {
        for (WallKind kind : WallKind.values()) {
            Found found = TextbookWalls.heatOfAFiring(kind);
            assertThat(found.value()).as(kind.name()).isCloseTo(found.right(), withPercentage(0.1));
        }
    }

    @Test
    void hardlyChangesWithFinerStepsAndCells() {
        for (WallKind kind : WallKind.values()) {
            List<Found> finer = TextbookWalls.finer(kind);
            assertThat(finer.get(0).percent()).as(kind.name()).isLessThan(0.2);
            assertThat(finer).as(kind.name()).allMatch(found -> found.percent() < 0.4);
        }
    }

    /** Where Bi is meant: a shell about 30 K above ambient. Below ambient the factor stays what it is at ambient. */
    @Test
    void theShellsHeatTransferIsOneAtThirtyKelvin() {
        assertThat(WallSlab.shellFactor(32)).isCloseTo(1, within(0.01));
        assertThat(WallSlab.shellFactor(-5)).isEqualTo(WallSlab.shellFactor(0));
    }
}
