package org.kilnside.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.kilnside.thermal.Judged.Room;
import org.kilnside.virtualkiln.Population;

/** Kilns lined with fibre alone, one in ten, which nobody told of: their heating and their curve have to tell. */
class FibreNobodyCalledSoTest {
    private static final int KILNS = 12;
    private static final long UNSEEN_SEED = 37;

    private static List<Judged.Kiln> kilns() {
        return IntStream.range(0, KILNS)
                .mapToObj(i -> new Judged.Kiln(
                        VirtualTrial.of(Population.Family.FIBRE, UNSEEN_SEED, i, 0, false),
                        KilnMemory.none(Optional.empty())))
                .toList();
    }

    private static double median(Judged judged, int askedAtC, double belowC) {
        return Judged.quantile(
                judged.cases(askedAtC, belowC).stream()
                        .map(each -> Math.abs(each.error()))
                        .toList(),
                0.5);
    }

    @Test
    void showsInHowMuchPowerItTookAndHowItFalls() {
        Judged judged = Judged.of(kilns(), true, Room.TOLD);
        assertThat(median(judged, 800, 200)).isLessThan(0.075);
        assertThat(median(judged, 600, 200)).isLessThan(0.03);
        assertThat(judged.coverage()).isGreaterThan(0.9);
    }

    @Test
    void showsLessByTemperatureAloneAndTheIntervalsKnowIt() {
        Judged judged = Judged.of(kilns(), false, Room.TOLD);
        assertThat(median(judged, 600, 200)).isLessThan(0.045);
        assertThat(judged.coverage()).isGreaterThan(0.85);
    }
}
