package org.kilnside.desktop.week;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.kilnside.session.LiveForecast;
import org.kilnside.session.Snapshot;

/**
 * Whether the week's kiln is being fired just now.
 *
 * @param isFired whether it is
 * @param until when it is cool enough to unload, by the late end of the live forecast; empty where that cannot be said
 */
record KilnTaken(boolean isFired, Optional<Instant> until) {
    static final KilnTaken FREE = new KilnTaken(false, Optional.empty());

    /** A forecast that moves by less moves nothing that is planned in quarters of an hour. */
    private static final Duration LEAST = Duration.ofMinutes(10);

    /** A kiln whose time runs faster is no real one. */
    private static final double REAL_SPEED = 1e-9;

    static KilnTaken of(Snapshot snapshot, String kiln, List<WeekShelf.KilnChoice> kilns) {
        boolean isHot = switch (snapshot.stage()) {
            case HEATING, HOLDING, COOLING -> true;
            case NO_READING_YET, WAITING_TO_START, ENDED -> false;
        };
        boolean isReal = Math.abs(snapshot.speed() - 1) < REAL_SPEED;
        boolean isIt = snapshot.kiln().filter(name -> isSame(name, kiln, kilns)).isPresent();
        return isHot && isReal && isIt ? new KilnTaken(true, until(snapshot)) : FREE;
    }

    /** A week names a kiln by its file or by what it is called inside; a recording by either. */
    private static boolean isSame(String one, String other, List<WeekShelf.KilnChoice> kilns) {
        return file(one, kilns).equals(file(other, kilns));
    }

    private static String file(String name, List<WeekShelf.KilnChoice> kilns) {
        return kilns.stream()
                .filter(kiln -> kiln.title().equals(name))
                .map(WeekShelf.KilnChoice::shortName)
                .findFirst()
                .orElseGet(() -> name.strip().toLowerCase(Locale.ROOT).replace(' ', '-'));
    }

    private static Optional<Instant> until(Snapshot snapshot) {
        return snapshot.findings()
                .forecast()
                .flatMap((LiveForecast live) -> live.below(live.thresholds().unload()))
                .flatMap(below -> below.when())
                .flatMap(when -> {
                    long elapsedMs = Math.round(when.toS() * 1000);
                    return snapshot.zeroFor(elapsedMs).map(zero -> zero.plusMillis(elapsedMs));
                });
    }

    /** Whether a plan that counted with the other has to be made anew. */
    boolean isOtherThan(KilnTaken other) {
        return isFired != other.isFired
                || until.isPresent() != other.until.isPresent()
                || until.isPresent()
                        && Duration.between(until.get(), other.until.get())
                                        .abs()
                                        .compareTo(LEAST)
                                > 0;
    }
}
