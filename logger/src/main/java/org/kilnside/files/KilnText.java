package org.kilnside.files;

import java.util.Locale;
import org.kilnside.firing.ConeSeries;
import org.kilnside.firing.Kiln;

/** A kiln as the text of its file. Reading it back gives the same kiln. */
final class KilnText {
    private KilnText() {}

    static String of(Kiln kiln) {
        StringBuilder text = new StringBuilder();
        PlanText.line(text, "name", kiln.name());
        kiln.volume().ifPresent(volume -> PlanText.line(text, "volume", PlanText.number(volume.litres()) + " l"));
        kiln.power().ifPresent(power -> PlanText.line(text, "power", PlanText.number(power.watts()) + " W"));
        kiln.wall().ifPresent(wall -> PlanText.line(text, "wall", wall.name().toLowerCase(Locale.ROOT)));
        PlanText.line(text, "opening", kiln.opening().name().toLowerCase(Locale.ROOT));
        kiln.isolator().ifPresent(isolator -> PlanText.line(text, "isolator", isolator));
        kiln.tariff()
                .ifPresent(tariff -> PlanText.line(
                        text, "tariff", PlanText.number(tariff.pricePerKwh()) + " " + tariff.currency() + "/kWh"));
        kiln.cutOut()
                .ifPresent(cutOut -> PlanText.line(
                        text,
                        "cut_out",
                        cutOut.at().map(PlanText::temperature).orElse(cutOut.fitted() ? "fitted" : "none")));
        if (kiln.series() != ConeSeries.USUAL) {
            PlanText.line(text, "series", kiln.series().word());
        }
        if (!kiln.limits().equals(Kiln.Limits.UNKNOWN)) {
            text.append("\n[limits]\n");
            kiln.limits()
                    .temperature()
                    .ifPresent(limit -> PlanText.line(text, "temperature", PlanText.temperature(limit)));
            kiln.limits().rate().ifPresent(limit -> PlanText.line(text, "rate", PlanText.rate(limit)));
        }
        if (kiln.thresholds().source() != Kiln.Thresholds.Source.COMMON_PRACTICE) {
            text.append("\n[thresholds]\n");
            PlanText.line(text, "crack", PlanText.temperature(kiln.thresholds().crack()));
            PlanText.line(text, "unload", PlanText.temperature(kiln.thresholds().unload()));
            text.append("from_maker = ")
                    .append(kiln.thresholds().source() == Kiln.Thresholds.Source.MAKER)
                    .append('\n');
        }
        text.append(KilnAlarms.text(kiln.alarms()));
        for (Kiln.Sensor sensor : kiln.sensors()) {
            text.append("\n[[sensor]]\n");
            sensor.place().ifPresent(place -> PlanText.line(text, "place", place));
            PlanText.line(text, "type", sensor.probe().type().name());
            PlanText.line(text, "amplifier", sensor.probe().amplifier().name());
        }
        return text.toString();
    }
}
