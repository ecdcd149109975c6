package org.kilnside.virtualkiln;

/**
 * What stands in the kiln.
 *
 * @param wareKg dry ware, kg
 * @param furnitureKg shelves and posts, kg
 * @param thicknessM of the ware's walls, m
 * @param waterKg pore water still in the ware, kg; 0 = dry or already fired
 * @param raw whether the clay has not been fired yet and still holds its bound water
 * @param inside share of the ware that stands inside the stack and sees only other ware: 0.2 loosely packed … 0.6 tight
 */
public record Load(double wareKg, double furnitureKg, double thicknessM, double waterKg, boolean raw, double inside) {
    private static final double USUALLY_INSIDE = 0.4;

    public Load {
        if (!(wareKg >= 0) || !(furnitureKg >= 0) || !(waterKg >= 0)) {
            throw new IllegalArgumentException("masses are not negative, found ware " + wareKg + " kg, furniture "
                    + furnitureKg + " kg, water " + waterKg + " kg");
        }
        if (!(inside > 0 && inside < 1)) {
            throw new IllegalArgumentException("between 0 and 1 of the ware stands inside the stack, found " + inside);
        }
        if (!(thicknessM >= 0.002 && thicknessM <= 0.1)) {
            throw new IllegalArgumentException(
                    "ware is between 2 and 100 mm thick, found " + thicknessM * 1000 + " mm");
        }
    }

    /** Ware fired once already, on its way to a glaze firing. */
    public static Load biscuit(double wareKg, double furnitureKg) {
        return new Load(wareKg, furnitureKg, 0.007, 0, false, USUALLY_INSIDE);
    }

    /** Raw ware as a dry studio leaves it: about 1 % water still in the clay (common practice: 1–3 %). */
    public static Load raw(double wareKg, double furnitureKg) {
        return new Load(wareKg, furnitureKg, 0.008, 0.01 * wareKg, true, USUALLY_INSIDE);
    }

    public Load withWater(double kilograms) {
        return new Load(wareKg, furnitureKg, thicknessM, kilograms, raw, inside);
    }

    public Load thick(double metres) {
        return new Load(wareKg, furnitureKg, metres, waterKg, raw, inside);
    }

    public Load packed(double shareInside) {
        return new Load(wareKg, furnitureKg, thicknessM, waterKg, raw, shareInside);
    }
}
