package org.kilnside.desktop.plan;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.kilnside.desktop.plan.FieldText.Typed;
import org.kilnside.desktop.plan.PlansModel.Place;
import org.kilnside.desktop.plan.PlansModel.Rejected;
import org.kilnside.schedule.PlanLimits;
import org.kilnside.schedule.Segment;
import org.kilnside.wording.Words;

/** Takes what is typed into the fields: what is a value changes the plan or the question, what is none stays to be mended. */
final class PlanTyping {
    private final PlansModel model;
    private final Map<Place, Rejected> rejected = new LinkedHashMap<>();

    PlanTyping(PlansModel model) {
        this.model = model;
    }

    /** What stands in a field now. */
    void typed(Place place, String text, Words words) {
        FieldText fields = new FieldText(words);
        int number = place.segment();
        switch (place.field()) {
            case NAME ->
                take(place, text, fields.name(text), name -> model.edit(place, PlanEdits.named(model.plan(), name)));
            case AIM ->
                take(
                        place,
                        text,
                        fields.cone(text),
                        cone -> model.edit(
                                place, PlanEdits.aimingFor(model.plan(), cone.map(each -> "cone " + each.number()))));
            case CLAY ->
                take(
                        place,
                        text,
                        fields.text(text, PlanLimits.LONGEST_CLAY),
                        clay -> model.edit(place, PlanEdits.forClay(model.plan(), clay)));
            case NOTES ->
                take(
                        place,
                        text,
                        fields.text(text, PlanLimits.LONGEST_NOTES),
                        notes -> model.edit(place, PlanEdits.noted(model.plan(), notes)));
            case RATE ->
                take(
                        place,
                        text,
                        fields.rate(text),
                        rate -> model.edit(
                                place,
                                PlanEdits.withRamp(
                                                model.plan(),
                                                number,
                                                ramp -> new Segment.Ramp(rate, ramp.to(), ramp.hold()))
                                        .orElse(model.plan())));
            case TARGET ->
                take(
                        place,
                        text,
                        fields.target(text),
                        to -> model.edit(
                                place,
                                PlanEdits.withRamp(
                                                model.plan(),
                                                number,
                                                ramp -> new Segment.Ramp(ramp.rate(), to, ramp.hold()))
                                        .orElse(model.plan())));
            case HOLD ->
                take(
                        place,
                        text,
                        fields.hold(text),
                        hold -> model.edit(
                                place,
                                PlanEdits.withRamp(
                                                model.plan(),
                                                number,
                                                ramp -> new Segment.Ramp(ramp.rate(), ramp.to(), hold))
                                        .orElse(model.plan())));
            case LOAD -> take(place, text, fields.kilograms(text), model.outlook()::load);
            case THICKNESS -> take(place, text, fields.millimetres(text), model.outlook()::thickness);
            case WANTED -> take(place, text, fields.cone(text), model.outlook()::wanted);
            case LIMIT -> take(place, text, fields.limit(text), model.outlook()::limit);
            case ROOM -> take(place, text, fields.room(text), model.outlook()::room);
        }
    }

    private <T> void take(Place place, String text, Typed<T> typed, Consumer<T> taken) {
        if (typed.value().isPresent()) {
            rejected.remove(place);
            taken.accept(typed.value().get());
        } else {
            rejected.put(place, new Rejected(text, typed.problem().orElseThrow()));
        }
    }

    Optional<Rejected> rejected(Place place) {
        return Optional.ofNullable(rejected.get(place));
    }

    /** The first thing typed into the plan that is no value. */
    Optional<Rejected> inPlan() {
        return rejected.entrySet().stream()
                .filter(entry -> entry.getKey().isOfThePlan())
                .map(Map.Entry::getValue)
                .findFirst();
    }

    /** Lets go of what was typed into the plan; says whether there was any. */
    boolean forgetInPlan() {
        return rejected.keySet().removeIf(Place::isOfThePlan);
    }

    /** Lets go of what was typed into segments, as they are others now. */
    void forgetInSegments() {
        rejected.keySet().removeIf(place -> place.segment() > 0);
    }
}
