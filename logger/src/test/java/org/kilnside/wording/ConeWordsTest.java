package org.kilnside.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Trace;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeReached;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.sensor.SensorUncertainty;

class ConeWordsTest {
    private static final ConeTable TABLE = ConeTable.of(ConeSeries.SELF_SUPPORTING);
    private final ConeWords english = cones(Language.ENGLISH);

    @Test
    void aConeHasItsTemperatureBesideItInTheReadersUnit() {
        assertThat(english.cone(Cone.parse("06"))).isEqualTo("cone 06 (998 °C)");
        assertThat(english.position(ConePosition.at(Cone.parse("6")))).isEqualTo("cone 6 (1222 °C)");
        assertThat(cones(Language.GERMAN).cone(Cone.parse("06"))).isEqualTo("Kegel 06 (998 °C)");
    }

    /** Published: the wall chart has large cone 6 at 2228 °F (60 °C/h), small cone 6 at 2291 °F (300 °C/h). */
    @Test
    void aConeThatIsNotSelfSupportingIsNamedWithItsKind() {
        assertThat(cones(Language.ENGLISH, ConeSeries.LARGE).cone(Cone.parse("6")))
                .isEqualTo("large cone 6 (1220 °C)");
        assertThat(cones(Language.ENGLISH, ConeSeries.SMALL).cone(Cone.parse("6")))
                .isEqualTo("small cone 6 (1255 °C)");
        assertThat(cones(Language.DUTCH, ConeSeries.LARGE).cone(Cone.parse("6")))
                .isEqualTo("grote kegel 6 (1220 °C)");
        assertThat(cones(Language.DUTCH, ConeSeries.SMALL).cone(Cone.parse("6")))
                .isEqualTo("kleine kegel 6 (1255 °C)");
        assertThat(cones(Language.GERMAN, ConeSeries.LARGE).cone(Cone.parse("6")))
                .isEqualTo("Großkegel 6 (1220 °C)");
        assertThat(cones(Language.GERMAN, ConeSeries.SMALL).cone(Cone.parse("6")))
                .isEqualTo("Kleinkegel 6 (1255 °C)");
    }

    @Test
    void theTimeToGoIsSaidOrSaidNotToBeKnown() {
        HeatWork work = new HeatWork(TABLE);
        work.add(0, 600);
        Cone six = Cone.parse("6");
        assertThat(english.timeToGo(six, work.timeToGo(six)))
                .isEqualTo("cone 6 (1222 °C): not yet, the kiln is more than 150 °C below it");
        work.add(3_600_000, 1200);
        assertThat(english.timeToGo(six, work.timeToGo(six))).startsWith("cone 6 (1222 °C) in ");
        work.add(7_200_000, 1200);
        work.add(10_800_000, 1240);
        assertThat(english.timeToGo(six, work.timeToGo(six))).isEqualTo("cone 6 (1222 °C) is down");
        Trace cold = new Trace.Builder().add(14_400_000, 600).view();
        assertThat(english.timeToGo(Cone.parse("14"), work.timeToGo(Cone.parse("14"), cold, 0)))
                .contains("will not go down this way");
    }

    @Test
    void aRangeInWholeConesHoldsTheWholeInterval() {
        Trace curve = new Trace.Builder()
                .add(0, 20)
                .add(27_000_000, 1120)
                .add(33_000_000, 1222)
                .add(40_000_000, 600)
                .view();
        ConeReached reached = HeatWork.ofLine(TABLE, curve).reached(SensorUncertainty.UNKNOWN);
        assertThat(reached.cone().past()).contains(Cone.parse("6"));
        assertThat(english.range(reached))
                .hasValueSatisfying(
                        range -> assertThat(range).endsWith("anywhere from cone 5 (1186 °C) to cone 7 (1239 °C)"));
        Trace cold = new Trace.Builder().add(0, 20).add(3_600_000, 90).view();
        assertThat(english.range(HeatWork.ofLine(TABLE, cold).reached(SensorUncertainty.UNKNOWN)))
                .isEmpty();
    }

    @Test
    void whereTheTopWasNotSeenTheRangeHasNoUpperEnd() {
        Trace cooling = new Trace.Builder()
                .add(0, 1215)
                .add(600_000, 1210)
                .add(7_200_000, 900)
                .add(14_400_000, 600)
                .view();
        ConeReached reached = HeatWork.ofLine(TABLE, cooling).reached(SensorUncertainty.UNKNOWN);
        assertThat(reached.top()).isEqualTo(ConeReached.Top.BEFORE_FIRST_READING);
        assertThat(reached.atMost()).isEmpty();
        assertThat(english.range(reached))
                .hasValueSatisfying(range -> assertThat(range)
                        .contains("it may really be anything from ")
                        .endsWith(" upwards"));
        assertThat(english.nearest(reached)).startsWith("at least ").contains("by sensor and chart from ");
        assertThat(cones(Language.DUTCH).range(reached).orElseThrow()).contains("alles zijn vanaf kegel ");
        assertThat(cones(Language.GERMAN).range(reached).orElseThrow()).contains("alles ab Kegel ");
    }

    private static ConeWords cones(Language language) {
        return cones(language, ConeSeries.SELF_SUPPORTING);
    }

    private static ConeWords cones(Language language, ConeSeries series) {
        return new ConeWords(Words.of(language, Preferences.of(Locale.GERMANY)), ConeTable.of(series));
    }
}
