package org.kilnside.wording;

import java.time.Duration;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.outlook.PlanWarning;
import org.kilnside.outlook.PlanWarning.AboveLimit;
import org.kilnside.outlook.PlanWarning.CandlingShort;
import org.kilnside.outlook.PlanWarning.CannotFollow;
import org.kilnside.outlook.PlanWarning.CoolsSlower;
import org.kilnside.outlook.PlanWarning.FallsTooFast;
import org.kilnside.outlook.PlanWarning.HoldMayBoil;
import org.kilnside.outlook.PlanWarning.MissesAim;
import org.kilnside.outlook.PlanWarning.Passage;
import org.kilnside.outlook.PlanWarning.TooFast;
import org.kilnside.outlook.PlanWarning.TopOutOfReach;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;

/** Says what in a plan is rash, with its reason and whose word it is. */
public final class WarningWords {
    private static final Temperature BOILING = Temperature.ofCelsius(100);
    private static final Temperature QUARTZ = Temperature.ofCelsius(573);
    private static final Temperature BURN_OUT = Temperature.ofCelsius(650);

    private static final double ROUND_TO_K = 10;

    /** More likely than this it is said as certain. */
    private static final double CERTAIN = 0.9;

    private final Words words;
    private final ConeWords cones;

    public WarningWords(Words words, ConeTable table) {
        this.words = words;
        this.cones = new ConeWords(words, table);
    }

    /** The whole sentence, its segment first. */
    public String line(PlanWarning warning) {
        return words.sentence(words.text("outlook.segment", warning.segment(), reason(warning))) + ".";
    }

    /** What is wrong, why, and whose word it is; without the segment. */
    public String reason(PlanWarning warning) {
        return words.text("outlook.because", what(warning), words.named("outlook.basis", warning.basis()));
    }

    private String what(PlanWarning warning) {
        if (warning instanceof CannotFollow cannot) {
            return words.text(
                    cannot.share() > CERTAIN ? "outlook.cannot_follow" : "outlook.may_not_follow",
                    words.temperature(cannot.from()),
                    words.duration(cannot.late()),
                    tenths(cannot.share()));
        }
        if (warning instanceof TopOutOfReach out) {
            return out.share() > CERTAIN
                    ? words.text(
                            "outlook.top_out",
                            words.temperature(out.wanted()),
                            words.temperature(out.highest().probable()),
                            words.temperature(out.highest().from()),
                            words.temperature(out.highest().to()))
                    : words.text("outlook.may_top_out", words.temperature(out.wanted()), tenths(out.share()));
        }
        if (warning instanceof CoolsSlower slower) {
            return words.text("outlook.cools_slower", words.speed(slower.planned()), about(slower.own()));
        }
        if (warning instanceof FallsTooFast falls) {
            String limit = words.speed(falls.limit());
            String quartz = words.temperature(QUARTZ);
            return falls.share() > CERTAIN
                    ? words.text("outlook.falls_too_fast", about(falls.own()), limit, quartz)
                    : words.text("outlook.may_fall_too_fast", tenths(falls.share()), limit, quartz);
        }
        if (warning instanceof TooFast fast) {
            return words.text(
                    "outlook.too_fast." + fast.passage().name(),
                    words.speed(fast.found()),
                    words.speed(fast.limit()),
                    words.temperature(where(fast.passage())));
        }
        if (warning instanceof CandlingShort candling) {
            return candling.found().equals(Duration.ZERO)
                    ? words.text(
                            "outlook.candling_none",
                            words.duration(candling.wanted()),
                            words.temperature(BOILING),
                            words.degrees(Temperature.ofCelsius(80)),
                            words.temperature(Temperature.ofCelsius(85)))
                    : words.text(
                            "outlook.candling_short",
                            words.duration(candling.found()),
                            words.duration(candling.wanted()),
                            words.temperature(BOILING));
        }
        if (warning instanceof HoldMayBoil hold) {
            return words.text("outlook.hold_may_boil", words.temperature(hold.found()));
        }
        if (warning instanceof AboveLimit above) {
            return words.text(
                    above.basis() == PlanWarning.Basis.KILN_MAKER
                            ? "outlook.above_kiln_limit"
                            : "outlook.above_ware_limit",
                    words.temperature(above.found()),
                    words.temperature(above.limit()));
        }
        MissesAim misses = (MissesAim) warning;
        return words.text(
                misses.cones() > 0 ? "outlook.beyond_aim" : "outlook.short_of_aim",
                cones.cone(misses.aim()),
                words.number(Math.abs(misses.cones()), 1));
    }

    /** A rate the model works out: nobody knows it to the degree. */
    private String about(HeatingRate rate) {
        return words.speed(HeatingRate.ofKelvinPerHour(Math.round(rate.kelvinPerHour() / ROUND_TO_K) * ROUND_TO_K));
    }

    private static Temperature where(Passage passage) {
        return switch (passage) {
            case BOILING, WHOLE_SEGMENT -> BOILING;
            case QUARTZ_RISING, QUARTZ_FALLING -> QUARTZ;
            case BURN_OUT -> BURN_OUT;
        };
    }

    private static String tenths(double share) {
        return String.valueOf(Math.max(1, Math.min(9, Math.round(10 * share))));
    }
}
