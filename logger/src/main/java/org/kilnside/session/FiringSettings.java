package org.kilnside.session;

import java.time.Duration;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;

/**
 * What a person said before the recording.
 *
 * @param kiln the kiln's name
 * @param plan the plan to follow
 * @param planText the plan's file as it was, to the letter
 * @param unload below this the firing counts as ended
 * @param resumeWithin how long the program may have been away and still go on with the same firing
 */
public record FiringSettings(
        Optional<String> kiln,
        Optional<Schedule> plan,
        Optional<String> planText,
        Temperature unload,
        Duration resumeWithin) {
    /** Unload below 50 °C: common practice; the kiln maker's instructions win. */
    public static final Temperature UNLOAD_BY_COMMON_PRACTICE = Temperature.ofCelsius(50);

    /** A firing and its cooling take up to a day and a half; after that, a new recording is a new firing. */
    public static final Duration A_FIRING_LONG = Duration.ofHours(36);

    public static FiringSettings of(Optional<String> kiln, Optional<Schedule> plan, Optional<String> planText) {
        return new FiringSettings(kiln, plan, planText, UNLOAD_BY_COMMON_PRACTICE, A_FIRING_LONG);
    }
}
