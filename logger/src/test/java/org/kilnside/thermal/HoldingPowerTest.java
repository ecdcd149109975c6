package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** The power that holds a soaked kiln, against a textbook's slab and against the model's own wall left at it for days. */
class HoldingPowerTest {
    private static KilnParameters kiln(double lambda, double faceFilm) {
        return new KilnParameters(20_000, 2.7, 0.5, lambda, 0.25, 0.82, 0.75, faceFilm, 0.045, 0, 18);
    }

    /** Resistances in series, L / k and 1 / h (any handbook of heat transfer): ψ = (T − room) / (1 + 1 / Bi). */
    @Test
    void ofASlabWithConstantPropertiesIsThatOfResistancesInSeries() {
        double psiC = HoldingPower.psiC(kiln(1e-12, 1e-12), WallShape.TEXTBOOK_SLAB, 1018);
        assertThat(psiC).isCloseTo(1000 / (1 + 1 / 2.7), within(1e-3));
    }

    @Test
    void growsByWhatLeaks() {
        KilnParameters leaky = kiln(0.4, 0.015);
        double more = HoldingPower.psiC(leaky, WallShape.TEXTBOOK_SLAB, 1018)
                - HoldingPower.psiC(kiln(1e-12, 0.015), WallShape.TEXTBOOK_SLAB, 1018);
        assertThat(more).isCloseTo(leaky.leakAt(1018) * 1000, within(1e-6));
    }

    /** Independent of the closed form: the slab of ten cells run at that power until nothing changes any more. */
    @ParameterizedTest
    @EnumSource(WallKind.class)
    void holdsTheModelsOwnWallWhereItIsSaidTo(WallKind kind) {
        KilnParameters kiln = kiln(0.3, 0.015);
        WallSlab slab = new WallSlab(kind.shape(), WallSlab.USUAL_CELLS);
        slab.use(kiln.withPsiC(HoldingPower.psiC(kiln, kind.shape(), 1230)));
        slab.startUniform(1000);
        for (int hour = 0; hour < 400; hour++) {
            slab.run(3600, 1);
        }
        assertThat(slab.chamberC()).as("°C, ten cells").isCloseTo(1230, within(6.0));
    }
}
