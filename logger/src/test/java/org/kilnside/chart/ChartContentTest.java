package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.junit.jupiter.api.Test;
import org.kilnside.session.Snapshot;
import org.kilnside.thermal.Forecast;
import org.kilnside.thermal.ForecastFan;
import org.kilnside.wording.SampleSnapshots;

class ChartContentTest {
    @Test
    void theWholeFiringGoesDownToWhereTheWareIsUnloaded() {
        for (Snapshot snapshot : List.of(SampleSnapshots.coolingForecast(), SampleSnapshots.heatingForecast())) {
            ChartContent content = ChartContent.of(
                    snapshot,
                    OptionalLong.of(snapshot.latest().orElseThrow().elapsedMs()),
                    true,
                    false,
                    Optional.empty());
            Forecast.When unload = snapshot.findings()
                    .forecast()
                    .flatMap(live -> live.below(snapshot.thresholds().unload()))
                    .flatMap(Forecast.Below::when)
                    .orElseThrow();
            assertThat(content.whole().toMs()).isGreaterThanOrEqualTo(Math.round(unload.atS() * 1000));
            ForecastFan.Point last = content.fan().get(content.fan().size() - 1);
            assertThat(last.medianC()).isCloseTo(snapshot.thresholds().unload().celsius(), within(0.1));
            assertThat(last.elapsedMs()).isLessThanOrEqualTo(content.whole().toMs());
        }
    }
}
