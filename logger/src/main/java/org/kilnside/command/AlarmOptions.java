package org.kilnside.command;

import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.session.FiringSettings;
import picocli.CommandLine.Option;

/** From where on something is an alarm, beyond what the kiln's file says (a mixin). */
final class AlarmOptions {
    private static final double COLDEST_C = 100;
    private static final double HOTTEST_C = 1500;

    @Option(
            names = "--ware-max",
            paramLabel = "C",
            description = "The hottest that clay and glazes of this load stand, °C: an alarm above it.")
    private Optional<Double> wareMaximum = Optional.empty();

    /** The settings with these limits. */
    FiringSettings applied(FiringSettings settings) {
        if (wareMaximum.isEmpty()) {
            return settings;
        }
        double celsius = wareMaximum.get();
        if (!(celsius >= COLDEST_C && celsius <= HOTTEST_C)) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--ware-max: found " + celsius + ", expected 100 to 1500 °C; check the number");
        }
        return settings.withAlarmLimits(settings.alarmLimits().forWare(Temperature.ofCelsius(celsius)));
    }
}
