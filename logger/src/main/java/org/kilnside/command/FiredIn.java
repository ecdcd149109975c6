package org.kilnside.command;

import java.util.Optional;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import org.kilnside.files.FileRefusedException;
import org.kilnside.firing.Kiln;
import org.kilnside.session.FiringSettings;

/**
 * A firing's settings, and the kiln's file they come from: it may be changed in mid-firing.
 *
 * @param plain what is known without the kiln's file
 * @param file reads the kiln's file; empty when the kiln has none
 * @param typed adds what the command line says, which goes before the file
 */
record FiredIn(FiringSettings plain, Supplier<Optional<Kiln>> file, UnaryOperator<FiringSettings> typed) {
    /** The settings in this kiln. */
    FiringSettings settings(Optional<Kiln> kiln) {
        return typed.apply(kiln.map(plain::knowing).orElse(plain));
    }

    /**
     * The settings as the kiln's file is now.
     *
     * @throws FileRefusedException when that cannot be read
     */
    FiringSettings settings() {
        return settings(file.get());
    }

    /** The same with more that the command line says. */
    FiredIn saying(UnaryOperator<FiringSettings> more) {
        return new FiredIn(plain, file, settings -> more.apply(typed.apply(settings)));
    }
}
