package org.kilnside.session;

/** Works out what the kiln will do. Takes its time, tens of milliseconds, and so is never asked on the session's thread. */
@FunctionalInterface
public interface FiringForecaster {
    LiveForecast forecast(ForecastRequest request);
}
