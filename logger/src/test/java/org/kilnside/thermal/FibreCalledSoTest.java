package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.thermal.Judged.Room;
import org.kilnside.virtualkiln.Population;

/** Kilns lined with fibre alone whose owner says so: blanket of 50 to 100 mm, with other physics than the model's. */
class FibreCalledSoTest {
    private static final int KILNS = 8;
    private static final long UNSEEN_SEED = 31;

    private static Judged judged(boolean withOutput) {
        List<Judged.Kiln> kilns = IntStream.range(0, KILNS)
                .mapToObj(i -> new Judged.Kiln(
                        VirtualTrial.of(Population.Family.FIBRE, UNSEEN_SEED, i, 0, false),
                        KilnMemory.none(Optional.of(WallKind.FIBRE))))
                .toList();
        return Judged.of(kilns, withOutput, Room.TOLD);
    }

    private static double median(Judged judged, int askedAtC) {
        return Judged.quantile(
                judged.cases(askedAtC, 60).stream()
                        .map(each -> Math.abs(each.error()))
                        .toList(),
                0.5);
    }

    @Test
    void coolsAsForecastSoonAfterItsTop() {
        for (boolean withOutput : new boolean[] {true, false}) {
            Judged judged = judged(withOutput);
            assertThat(median(judged, 800)).isLessThan(0.09);
            assertThat(median(judged, 600)).isLessThan(0.05);
            assertThat(judged.coverage()).isGreaterThan(0.9);
        }
    }
}
