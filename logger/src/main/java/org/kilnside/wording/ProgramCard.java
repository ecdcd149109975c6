package org.kilnside.wording;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.kilnside.quantity.Temperature;
import org.kilnside.schedule.Schedule;
import org.kilnside.schedule.Segment;
import org.kilnside.sensor.ControllerNumbers;

/**
 * What to key into the controller for a plan, step by step: a ramp's rate and target, then its hold, in the unit the
 * controller is set to. For paper as for the screen; whoever keys it in reads it back against the same card.
 *
 * @param title the plan's name
 * @param kiln the kiln it is for; empty for any
 * @param unit the unit every number of it is in, in words
 * @param heads the columns' names: step, rate, target, hold
 * @param steps in the order they are keyed in
 * @param remarks what else there is to know, one sentence each
 */
public record ProgramCard(
        String title, Optional<String> kiln, String unit, List<String> heads, List<Step> steps, List<String> remarks) {
    /** From here on a rate's rounding would show: 0.5 in 20 is 2.5 %. */
    private static final double WHOLE_FROM = 20;

    /** Where a first ramp begins; between here and 30 °C no rate changes. */
    private static final Temperature COLD = Temperature.ofCelsius(20);

    public ProgramCard {
        heads = List.copyOf(heads);
        steps = List.copyOf(steps);
        remarks = List.copyOf(remarks);
    }

    /**
     * One line of the controller's program.
     *
     * @param number counted from 1, as most controllers do
     * @param cools whether it goes down: the rate is keyed in as the controller wants it for cooling
     */
    public record Step(int number, String rate, String target, String hold, boolean cools) {}

    /**
     * The card of a plan, in the person's unit.
     *
     * @param numbers the controller's own: a plan's temperatures are true ones, and these are what has to be keyed in
     */
    public static ProgramCard of(Schedule plan, Optional<String> kiln, ControllerNumbers numbers, Words words) {
        TemperatureUnit unit = words.preferences().unit();
        List<Step> steps = new ArrayList<>();
        boolean cools = false;
        Optional<Temperature> beyond = Optional.empty();
        Temperature from = COLD;
        for (int number = 1; number <= plan.segments().size(); number++) {
            if (plan.segments().get(number - 1) instanceof Segment.Ramp ramp) {
                boolean down = plan.isControlledCooling(number);
                cools |= down;
                Optional<Temperature> target = numbers.at(ramp.to());
                beyond = beyond.isEmpty() && target.isEmpty() ? Optional.of(ramp.to()) : beyond;
                steps.add(new Step(
                        number,
                        rate(unit.of(numbers.rate(ramp.rate(), from, ramp.to())), words) + " " + unit.symbol() + "/"
                                + words.text("unit.hour"),
                        target.map(words::temperature).orElse("—"),
                        hold(ramp.hold(), words),
                        down));
                from = ramp.to();
            }
        }
        List<String> remarks = new ArrayList<>();
        numbers.otherThan(plan.top())
                .ifPresent(shown -> remarks.add(words.text(
                        "card.controllers_numbers", words.temperature(shown), words.temperature(plan.top()))));
        beyond.ifPresent(target -> remarks.add(words.text("card.beyond_chip", words.temperature(target))));
        remarks.add(words.text("card.unit_check", unit.symbol()));
        if (cools) {
            remarks.add(words.text("card.cooling"));
        }
        remarks.add(words.text(plan.endsInFreeCooling() || !cools ? "card.then_off" : "card.then_end"));
        plan.aimsFor().ifPresent(cone -> remarks.add(words.text("card.aims", cone)));
        remarks.add(words.text("card.read_back"));
        return new ProgramCard(
                plan.name(),
                kiln,
                words.text("card.unit", unit.symbol()),
                List.of(
                        words.text("card.step"),
                        words.text("card.rate"),
                        words.text("card.target"),
                        words.text("card.hold")),
                steps,
                remarks);
    }

    private static String rate(double perHour, Words words) {
        boolean whole = perHour >= WHOLE_FROM || perHour == Math.rint(perHour);
        return words.number(perHour, whole ? 0 : 1);
    }

    /** Hours and minutes as controllers count them: {@code 0:15}. */
    private static String hold(Duration hold, Words words) {
        if (hold.isZero()) {
            return words.text("card.no_hold");
        }
        long minutes = Math.round(hold.toSeconds() / 60.0);
        // Held in whole minutes; a hold of seconds is still a hold.
        long shown = Math.max(1, minutes);
        return String.format(words.language().locale(), "%d:%02d", shown / 60, shown % 60);
    }
}
