package org.kilnside.chart;

import static org.assertj.core.api.Assertions.assertThat;

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
    void theWholeFiringGoesDownToWhereTheWareIsUnloadedAndTheLidCrackedAtTheLatest() {
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
            assertThat(last.medianC())
                    .isLessThanOrEqualTo(snapshot.thresholds().unload().celsius() + 0.1);
            Forecast.When crack = snapshot.findings()
                    .forecast()
                    .flatMap(live -> live.below(snapshot.thresholds().crack()))
                    .flatMap(Forecast.Below::when)
                    .orElseThrow();
            assertThat(last.elapsedMs()).isGreaterThanOrEqualTo(Math.round(Math.max(unload.atS(), crack.toS()) * 1000));
            assertThat(last.elapsedMs()).isLessThanOrEqualTo(content.whole().toMs());
        }
    }
}
