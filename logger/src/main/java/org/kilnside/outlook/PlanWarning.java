package org.kilnside.outlook;

import java.time.Duration;
import java.util.OptionalDouble;
import org.kilnside.heatwork.Cone;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;

/** One thing in a plan that is rash, or that this kiln will not do, with its reason. */
public sealed interface PlanWarning {
    /** The segment it belongs to, counted from 1. */
    int segment();

    /** Whose word it is. */
    Basis basis();

    /** Where a warning comes from. */
    enum Basis {
        COMMON_PRACTICE,
        /** The kiln maker's sheet. */
        KILN_MAKER,
        /** The maker of the clay or glaze. */
        WARE_MAKER,
        /** The model of this kiln. */
        MODEL,
        /** The law by which cones bend. */
        HEAT_WORK
    }

    /** Whether the kiln fires it all the same; the ware pays. The other kind: the kiln will do something else. */
    default boolean isAboutWare() {
        return basis() != Basis.MODEL;
    }

    /**
     * The elements cannot follow.
     *
     * @param from where the kiln falls behind
     * @param late how much longer the segment takes
     * @param share how likely it is, 0 … 1
     */
    record CannotFollow(int segment, Temperature from, Duration late, double share) implements PlanWarning {
        @Override
        public Basis basis() {
            return Basis.MODEL;
        }
    }

    /**
     * The top is out of the kiln's reach.
     *
     * @param wanted the plan's top
     * @param highest where the kiln tops out
     * @param share how likely it is, 0 … 1
     */
    record TopOutOfReach(int segment, Temperature wanted, Estimate<Temperature> highest, double share)
            implements PlanWarning {
        @Override
        public Basis basis() {
            return Basis.MODEL;
        }
    }

    /** Controlled cooling that is faster than the kiln cools by itself: it falls behind at a rate of its own. */
    record CoolsSlower(int segment, HeatingRate planned, HeatingRate own, double share) implements PlanWarning {
        @Override
        public Basis basis() {
            return Basis.MODEL;
        }
    }

    /**
     * Left to itself the kiln falls faster through quartz than is good. How it falls is the model's word; that it is too fast,
     * common practice.
     *
     * @param own how fast it most likely falls
     * @param share how likely it is to be too fast, 0 … 1
     */
    record FallsTooFast(int segment, HeatingRate own, HeatingRate limit, double share) implements PlanWarning {
        @Override
        public Basis basis() {
            return Basis.COMMON_PRACTICE;
        }
    }

    /** Faster through something than is good. */
    record TooFast(int segment, Passage passage, HeatingRate found, HeatingRate limit, Basis basis)
            implements PlanWarning {}

    /** Where it matters how fast. */
    enum Passage {
        /** 100 °C: pore water boils, and steam trapped in thick or damp ware bursts it. */
        BOILING,
        /** 573 °C rising: quartz inverts and grows by a step. */
        QUARTZ_RISING,
        /** 573 °C falling. */
        QUARTZ_FALLING,
        /** 650 to 900 °C: organic matter needs time and air. */
        BURN_OUT,
        /** Anywhere: the kiln's own limit. */
        WHOLE_SEGMENT;

        /** The very temperature at which it happens, °C; empty where it is no one temperature. */
        OptionalDouble pointC() {
            return switch (this) {
                case BOILING -> OptionalDouble.of(100);
                case QUARTZ_RISING, QUARTZ_FALLING -> OptionalDouble.of(573);
                case BURN_OUT, WHOLE_SEGMENT -> OptionalDouble.empty();
            };
        }
    }

    /** Raw ware that gets less time below the boiling point than its thickness asks for. */
    record CandlingShort(int segment, Duration found, Duration wanted) implements PlanWarning {
        @Override
        public Basis basis() {
            return Basis.COMMON_PRACTICE;
        }
    }

    /** A hold so near below 100 °C that a controller's overshoot boils the water. */
    record HoldMayBoil(int segment, Temperature found) implements PlanWarning {
        @Override
        public Basis basis() {
            return Basis.COMMON_PRACTICE;
        }
    }

    /** Hotter than the kiln's or the ware's maker allows. */
    record AboveLimit(int segment, Temperature found, Temperature limit, Basis basis) implements PlanWarning {}

    /**
     * The plan does not come to the cone it is meant for.
     *
     * @param aim the cone it says it aims for
     * @param cones how many whole cones beyond it, negative = short
     */
    record MissesAim(int segment, Cone aim, double cones) implements PlanWarning {
        @Override
        public Basis basis() {
            return Basis.HEAT_WORK;
        }
    }
}
