package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.kilnside.firing.Trace;
import org.kilnside.thermal.TrialPopulation.Family;
import org.kilnside.thermal.TrialPopulation.Habit;

/** What the earlier firings of a kiln say of its wall. Trial kilns are independent: they share nothing with the model. */
class KilnMemoryTest {
    private static Map<WallKind, Double> kinds(List<Trace> earlier) {
        return KilnMemory.of(earlier, Optional.empty(), OptionalDouble.empty()).kinds();
    }

    /** Whatever it says, the next firing can still say otherwise: a kind of wall left out is never looked at again. */
    @ParameterizedTest
    @EnumSource(
            value = Family.class,
            names = {"BRICK", "FIBRE", "LAYERED"})
    void oneFiringSpeaksForAKindOfWallTwentyToOneAtMost(Family family) {
        Map<WallKind, Double> before = kinds(List.of());
        for (int number = 1; number <= 3; number++) {
            Trace firing = TrialPopulation.of(family, number, 1, Habit.FREE_COOLING)
                    .firings()
                    .get(0)
                    .log;
            Map<WallKind, Double> after = kinds(List.of(firing));
            for (WallKind one : WallKind.values()) {
                for (WallKind other : WallKind.values()) {
                    double spoken = after.get(one) / after.get(other) / (before.get(one) / before.get(other));
                    assertThat(spoken)
                            .as("%s %d %s/%s", family, number, one, other)
                            .isBetween(1 / 20.01, 20.01);
                }
            }
        }
    }

    @ParameterizedTest
    @EnumSource(
            value = Family.class,
            names = {"BRICK", "FIBRE"})
    void threeFiringsAlikeLeaveLittleDoubtOfTheWall(Family family) {
        List<Trace> earlier = TrialPopulation.of(family, 2, 3, Habit.FREE_COOLING).firings().stream()
                .map(each -> each.log)
                .toList();
        assertThat(kinds(earlier).get(WallKind.valueOf(family.name()))).isGreaterThan(0.9);
    }
}
