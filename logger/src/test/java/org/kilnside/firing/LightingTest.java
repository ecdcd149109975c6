package org.kilnside.firing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.kilnside.firing.Lighting.Item;
import org.kilnside.quantity.Temperature;

class LightingTest {
    @Test
    void whatIsTickedComesBackFromTheBookAsItWas() {
        Lighting list = Lighting.OPEN
                .with(Item.PROGRAM, true)
                .with(Item.CUT_OUT, true)
                .withCutOut(Optional.of(Temperature.ofCelsius(1260)))
                .withAttends(Optional.of("Mara = until 02:00 cut-out=1C"));
        assertThat(list.text())
                .isEqualTo("list ticked=program,cut-out cut-out=1260.0C attends=Mara = until 02:00 cut-out=1C");
        assertThat(Lighting.parse(list.text())).hasValue(list);
        assertThat(Lighting.parse(Lighting.SKIPPED.text())).hasValue(Lighting.SKIPPED);
        assertThat(Lighting.parse(list.skip().text())).hasValue(list.skip());
        assertThat(Lighting.parse(Lighting.OPEN.text())).hasValue(Lighting.OPEN);
    }

    @Test
    void anItemOfALaterVersionIsLeftOutAndOtherTextIsNoList() {
        assertThat(Lighting.parse("list ticked=cones,moon").orElseThrow().ticked())
                .containsExactly(Item.CONES);
        assertThat(Lighting.parse("Bung out")).isEmpty();
        assertThat(Lighting.parse("list cut-out=1.2.3C")).isEmpty();
    }

    @Test
    void itIsCompleteWhenEveryItemIsTicked() {
        Lighting list = Lighting.OPEN;
        for (Item item : Item.values()) {
            assertThat(list.isComplete()).isFalse();
            list = list.with(item, true);
        }
        assertThat(list.isComplete()).isTrue();
        assertThat(list.with(Item.VENT, false).isComplete()).isFalse();
    }

    @Test
    void tickingAfterSkippingMakesUpForIt() {
        assertThat(Lighting.SKIPPED.with(Item.CONES, true).skipped()).isFalse();
    }

    @Test
    void aNameOnSeveralLinesIsOneLineInTheBook() {
        assertThat(Lighting.OPEN.withAttends(Optional.of(" Mara\nand Jo ")).attends())
                .hasValue("Mara and Jo");
        assertThat(Lighting.OPEN.withAttends(Optional.of("  ")).attends()).isEmpty();
    }
}
