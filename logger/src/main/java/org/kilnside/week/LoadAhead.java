package org.kilnside.week;

import java.util.Optional;
import org.kilnside.outlook.Outlook;

/**
 * What a load's firing will come to.
 *
 * @param times how long it takes; empty where that cannot be known, so that it cannot be planned
 */
public record LoadAhead(Load load, Outlook outlook, Optional<FiringTimes> times) {}
