package org.kilnside.desktop;

/** Where the window's settings are looked after between two starts. Never called on the Swing thread. */
public interface SettingsStore {
    /** The settings of last time, or what fits this computer. */
    Settings load();

    /** Remembers the settings; a failure is the store's to report, the window goes on. */
    void save(Settings settings);

    /** Settings that last as long as the window. */
    static SettingsStore forgetful(Settings first) {
        return new SettingsStore() {
            @Override
            public Settings load() {
                return first;
            }

            @Override
            public void save(Settings settings) {
                // Forgetting is what this store is for.
            }
        };
    }
}
