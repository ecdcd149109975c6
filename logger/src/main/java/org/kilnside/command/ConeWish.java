package org.kilnside.command;

import java.time.Duration;
import java.util.Optional;
import java.util.function.Function;
import org.kilnside.files.JsonObject;
import org.kilnside.files.UnitText;
import org.kilnside.heatwork.Cone;
import org.kilnside.heatwork.ConePosition;
import org.kilnside.heatwork.ConeTable;
import org.kilnside.heatwork.HeatWork;
import org.kilnside.heatwork.PlanHeat;
import org.kilnside.quantity.HeatingRate;
import org.kilnside.quantity.Temperature;
import org.kilnside.sensor.ControllerNumbers;
import org.kilnside.wording.ConeWords;
import org.kilnside.wording.SensorWords;
import org.kilnside.wording.Words;
import picocli.CommandLine.Option;

/** A cone that is to come down, and what brings it down (a mixin). */
final class ConeWish {
    /** No ramp that anybody writes is slower or faster. */
    private static final double SLOWEST_K_PER_H = 1;

    private static final double FASTEST_K_PER_H = 2000;

    @Option(
            names = "--reach",
            paramLabel = "CONE",
            description = "In place of a log: a cone to bring down, such as 06 or 6. The answer is the top it needs.")
    private Optional<String> reach = Optional.empty();

    @Option(
            names = "--rate",
            paramLabel = "RATE",
            description = "With --reach: the rate of the last ramp, such as \"100 °C/h\" (60 °C/h, unless given).")
    private Optional<String> rate = Optional.empty();

    @Option(
            names = "--hold",
            paramLabel = "TIME",
            description = "With --reach: the hold at the top, such as \"10 min\" (none, unless given).")
    private Optional<String> hold = Optional.empty();

    @Option(
            names = "--top",
            paramLabel = "TEMPERATURE",
            description = "With --reach: a top, such as \"1210 °C\"; the answer is then the hold it needs.")
    private Optional<String> top = Optional.empty();

    boolean isThere() {
        return reach.isPresent();
    }

    /** @throws Complaint when what belongs to it is given without a cone */
    void check() {
        if (reach.isEmpty() && (rate.isPresent() || hold.isPresent() || top.isPresent())) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE, "--rate, --hold and --top belong to --reach: name a cone with it");
        }
    }

    /** Says which top or which hold it takes. */
    void answer(Surroundings around, SensorOptions sensor, ConeTable table, boolean json) {
        Answer answer = new Answer(around, sensor, table, json);
        Cone cone = cone(reach.orElseThrow());
        HeatingRate last =
                rate.map(text -> quantity("--rate", text, UnitText::rate)).orElse(ConeTable.NAMED_AT);
        if (!(last.kelvinPerHour() > 0)) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--rate: found \"" + rate.orElseThrow()
                            + "\", expected a rate above 0: a kiln that does not heat brings no cone down");
        }
        if (last.kelvinPerHour() < SLOWEST_K_PER_H || last.kelvinPerHour() > FASTEST_K_PER_H) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--rate: found \"" + rate.orElseThrow()
                            + "\", expected 1 to 2000 °C/h: the chart's cones are fired at 15 to 300 °C/h; check the number");
        }
        if (table.temperature(cone).isEmpty()) {
            throw new Complaint(
                    Complaint.ExitCode.USAGE,
                    "--reach: " + table.series().word() + " cones are not made as " + cone.number() + ", but from "
                            + table.cones().get(0).number() + " to "
                            + table.cones().get(table.cones().size() - 1).number());
        }
        if (top.isPresent()) {
            if (hold.isPresent()) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE, "--top asks for the hold and --hold for the top: give one of them");
            }
            Temperature at = quantity("--top", top.get(), UnitText::temperature);
            if (at.celsius() > PlanHeat.HIGHEST_TOP_C) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--top: found \"" + top.get() + "\", expected at most 1600 °C: no kiln for cones goes higher");
            }
            answer.holdFor(cone, last, at);
        } else {
            Duration held = hold.map(text -> quantity("--hold", text, UnitText::duration))
                    .orElse(Duration.ZERO);
            if (held.isNegative()) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--hold: found \"" + hold.orElseThrow() + "\", expected a time of 0 or longer");
            }
            if (held.compareTo(PlanHeat.LONGEST_HOLD) > 0) {
                throw new Complaint(
                        Complaint.ExitCode.USAGE,
                        "--hold: found \"" + hold.orElseThrow() + "\", expected at most two days ("
                                + PlanHeat.LONGEST_HOLD.toHours() + " h): check the number");
            }
            answer.topFor(cone, last, held);
        }
    }

    private static Cone cone(String wish) {
        try {
            return Cone.parse(wish);
        } catch (IllegalArgumentException e) {
            throw new Complaint(Complaint.ExitCode.USAGE, "--reach: " + e.getMessage());
        }
    }

    private static <T> T quantity(String option, String text, Function<String, T> reader) {
        try {
            return reader.apply(text);
        } catch (UnitText.NotAQuantityException e) {
            throw new Complaint(Complaint.ExitCode.USAGE, option + ": " + e.getMessage());
        }
    }

    /** One question's answer, in words or as JSON. */
    private record Answer(Surroundings around, SensorOptions sensor, ConeTable table, boolean json) {
        void topFor(Cone cone, HeatingRate last, Duration held) {
            Temperature found = PlanHeat.topFor(table, cone, last, held)
                    .orElseThrow(() -> new Complaint(
                            Complaint.ExitCode.NOTHING,
                            "no top from 350 to 1600 °C brings " + cone + " down so; take another rate or hold"));
            sensor.mustReach(found);
            double half = HeatWork.halfWidthK(table.series(), sensor.uncertainty(), found.celsius());
            Temperature low = Temperature.ofCelsius(found.celsius() - half);
            Temperature high = Temperature.ofCelsius(found.celsius() + half);
            if (json) {
                around.out()
                        .println(wish(cone, last)
                                .with("hold_s", held.toMillis() / 1000.0, 3)
                                .with("top_c", found.celsius(), 2)
                                .with("top_from_c", low.celsius(), 2)
                                .with("top_to_c", high.celsius(), 2)
                                .with(
                                        "top_on_controller_c",
                                        onController(found),
                                        shown -> Math.round(shown.celsius() * 100) / 100.0)
                                .with("with_cooling", ConeCommand.position(cooled(last, found, held)))
                                .with("sensor", ConeCommand.sensor(sensor.uncertainty(), found)));
                return;
            }
            Words words = around.words();
            around.out()
                    .println(words.sentence(words.text(
                                    "cone.reach_top",
                                    new ConeWords(words, table).cone(cone),
                                    words.temperature(found),
                                    words.temperature(low),
                                    words.temperature(high)))
                            + ", "
                            + (held.isZero()
                                    ? words.text("cone.reach_how_no_hold", words.speed(last))
                                    : words.text("cone.reach_how", words.speed(last), words.duration(held)))
                            + ".");
            saySensor(found, words);
            sayCooled(cooled(last, found, held), words);
            sayOnController(found, words);
            around.out().println("  " + words.text("cone.witness_chart"));
        }

        private void saySensor(Temperature top, Words words) {
            around.out().println("  " + words.sentence(SensorWords.alone(sensor.uncertainty(), top, words)) + ".");
        }

        /** The number of a controller that shows another than the truth; else empty. */
        private Optional<Temperature> onController(Temperature truth) {
            return ControllerNumbers.of(sensor.sensor()).otherThan(truth);
        }

        private void sayOnController(Temperature truth, Words words) {
            onController(truth)
                    .ifPresent(shown -> around.out()
                            .println("  "
                                    + words.sentence(words.text("outlook.on_controller", words.temperature(shown)))
                                    + "."));
            if (ControllerNumbers.of(sensor.sensor()).endsBelow(truth)) {
                around.out()
                        .println("  "
                                + words.sentence(words.text("outlook.controller_ends_below", words.temperature(truth)))
                                + ".");
            }
        }

        void holdFor(Cone cone, HeatingRate last, Temperature at) {
            Duration held = PlanHeat.holdFor(table, cone, last, at)
                    .orElseThrow(() -> new Complaint(
                            Complaint.ExitCode.NOTHING,
                            "no hold of up to two days brings " + cone + " down at " + Math.round(at.celsius())
                                    + " °C; take a higher top"));
            sensor.mustReach(at);
            double half = HeatWork.halfWidthK(table.series(), sensor.uncertainty(), at.celsius());
            Duration least = PlanHeat.holdFor(table, cone, last, Temperature.ofCelsius(at.celsius() + half))
                    .orElse(held);
            Optional<Duration> most = PlanHeat.holdFor(table, cone, last, Temperature.ofCelsius(at.celsius() - half));
            if (json) {
                around.out()
                        .println(wish(cone, last)
                                .with("hold_s", held.toMillis() / 1000.0, 3)
                                .with("hold_from_s", least.toMillis() / 1000.0, 3)
                                .with("hold_to_s", most, longest -> longest.toMillis() / 1000.0)
                                .with("top_c", at.celsius(), 2)
                                .with("with_cooling", ConeCommand.position(cooled(last, at, held)))
                                .with("sensor", ConeCommand.sensor(sensor.uncertainty(), at)));
                return;
            }
            Words words = around.words();
            String named = new ConeWords(words, table).cone(cone);
            around.out()
                    .println(words.sentence(
                                    held.isZero()
                                            ? words.text("cone.reach_no_hold", named)
                                            : words.text(
                                                    most.isPresent() ? "cone.reach_hold" : "cone.reach_hold_or_more",
                                                    named,
                                                    words.duration(held),
                                                    words.duration(least),
                                                    words.duration(most.orElse(held))))
                            + " (" + words.temperature(at) + ", " + words.speed(last) + ").");
            saySensor(at, words);
            sayCooled(cooled(last, at, held), words);
            sayOnController(at, words);
            around.out().println("  " + words.text("cone.witness_chart"));
        }

        private ConePosition cooled(HeatingRate last, Temperature at, Duration held) {
            return PlanHeat.cooled(table, last, at, held);
        }

        /** A plan's cone and a firing's have the beginning of the cooling in them, the chart has not. */
        private void sayCooled(ConePosition cooled, Words words) {
            around.out()
                    .println("  "
                            + words.sentence(
                                    words.text("cone.reach_cooled", new ConeWords(words, table).position(cooled)))
                            + ".");
        }

        private JsonObject wish(Cone cone, HeatingRate last) {
            return new JsonObject()
                    .with("cone", cone.number())
                    .with("series", table.series().word())
                    .with("rate_c_per_h", last.kelvinPerHour(), 3);
        }
    }
}
