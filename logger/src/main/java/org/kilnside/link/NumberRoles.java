package org.kilnside.link;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.kilnside.files.LinePattern.Place;
import org.kilnside.files.LinePattern.Quantity;

/**
 * Which of a line's numbers is what. Names decide first (common practice: the words home-built sketches and control
 * engineers use), then units, then how the numbers behave: a clock rises steadily, a sensor jitters, a set-point does
 * not, an output stays within its scale.
 */
final class NumberRoles {
    private static final String TEMPERATURE =
            "t|temp|temps|temperature|temperatur|temperatuur|tc|kiln|pv|actual|act|ist|oven|ofen|chamber|probe|celsius|fahrenheit|degc|degf|temp c|temp f|t c|t f|in|input|reading|measured|cur|current|now|hot|thermocouple";
    private static final String SETPOINT =
            "sp|s|set|setpoint|set point|setp|target|tgt|goal|soll|sv|ziel|doel|want|wanted|aim|desired|setting|program|tset|set temp";
    private static final String OUTPUT =
            "out|o|p|output|duty|pwr|power|pct|heat|heater|relay|ssr|pwm|elements|element|load|drive|op|cv|on|percent|stell|heizung|verwarming|relais|elemente|elementen|leistung|vermogen";
    private static final String COLD_JUNCTION =
            "cj|amb|ambient|board|internal|int|case|room|cold|junction|coldjunction|cold junction|cjc|chip|box|ic|env|raum|kamer|tamb|die";
    /** The board's reference junction to some, the reference of the loop to others: its value decides. */
    private static final String REFERENCE = "ref|reference";

    static final String CELSIUS = "c|celsius|degc|temp c|t c";
    private static final String SEGMENT = "seg|segment|step|stage|phase|ramp|stap|schritt|abschnitt";
    private static final String UPTIME =
            "time|ms|millis|sec|secs|s|seconds|uptime|up|elapsed|clock|tick|ticks|min|minutes|zeit|tijd|runtime|ts";

    private static final double HOTTEST_C = 1400;
    private static final double HOTTEST_F = 2552;
    private static final double COLDEST_C = -25;

    /** A kiln cannot go faster from one line to the next than this, K per second. */
    private static final double FASTEST_K_PER_S = 3;

    private final List<Series> series;
    private final double secondsBetween;
    private final boolean fahrenheit;
    private final Set<String> taken = new HashSet<>();
    private final EnumMap<Quantity, Place> places = new EnumMap<>(Quantity.class);

    /** @param fahrenheit whether the lines say so of all their temperatures */
    NumberRoles(List<Series> series, OptionalDouble betweenLinesMs, boolean fahrenheit) {
        this.series = series;
        this.fahrenheit = fahrenheit;
        this.secondsBetween = betweenLinesMs.orElse(1000) / 1000;
    }

    Map<Quantity, Place> places() {
        uptime();
        named(Quantity.SETPOINT, SETPOINT);
        named(Quantity.COLD_JUNCTION, COLD_JUNCTION);
        reference();
        temperature();
        if (!places.containsKey(Quantity.TEMPERATURE)) {
            return places;
        }
        namedSegment();
        output();
        setpointByBehaviour();
        coldJunctionByBehaviour();
        return places;
    }

    private void uptime() {
        for (Series one : series) {
            if (one.isClock()) {
                take(Quantity.UPTIME, one, "h:min:s", 1);
                return;
            }
        }
        for (Series one : series) {
            OptionalDouble step = one.steadyStep();
            boolean otherwiseCalled = one.called(TEMPERATURE) || one.called(SETPOINT) || one.called(SEGMENT);
            if (one.hasDecimals() && !one.called(UPTIME) || step.isEmpty() || otherwiseCalled && !one.called(UPTIME)) {
                continue;
            }
            Optional<String> unit = clockUnit(one, step.getAsDouble() / secondsBetween);
            if (unit.isPresent()) {
                take(Quantity.UPTIME, one, unit.get(), 1);
                return;
            }
        }
    }

    /** From how fast it runs against the host's clock. */
    private static Optional<String> clockUnit(Series one, double perSecond) {
        if (perSecond > 800 && perSecond < 1_250) {
            return Optional.of("ms");
        }
        if (perSecond > 0.8 && perSecond < 1.25) {
            return Optional.of("s");
        }
        if (one.called("min|minutes") && perSecond > 0.8 / 60 && perSecond < 1.25 / 60) {
            return Optional.of("min");
        }
        return Optional.empty();
    }

    private void named(Quantity quantity, String words) {
        for (Series one : free()) {
            if (one.called(words) && !percent(one) && one.isNumeric()) {
                Optional<Place> place = temperaturePlace(one);
                if (place.isPresent()) {
                    taken.add(one.at());
                    places.put(quantity, place.get());
                    return;
                }
            }
        }
    }

    private void reference() {
        for (Series one : free()) {
            if (one.called(REFERENCE)
                    && one.isNumeric()
                    && !percent(one)
                    && temperaturePlace(one).isPresent()) {
                boolean ofTheBoard = !one.isWhole() && one.lowest() > 1 && one.highest() < 60;
                places.computeIfAbsent(ofTheBoard ? Quantity.COLD_JUNCTION : Quantity.SETPOINT, quantity -> {
                    taken.add(one.at());
                    return temperaturePlace(one).orElseThrow();
                });
            }
        }
    }

    private void temperature() {
        Optional<Series> best = free().stream()
                .filter(Series::isNumeric)
                .filter(one -> !percent(one))
                .filter(one -> temperaturePlace(one).isPresent())
                .filter(one -> steady(one))
                .max(Comparator.comparingDouble(this::temperatureLikeness));
        if (best.isPresent() && temperatureLikeness(best.get()) > 0) {
            take(best.get());
        }
    }

    private void take(Series one) {
        taken.add(one.at());
        places.put(Quantity.TEMPERATURE, temperaturePlace(one).orElseThrow());
    }

    private double temperatureLikeness(Series one) {
        double score = 0;
        score += one.called(TEMPERATURE) ? 5 : 0;
        score += one.unit().filter(NumberRoles::degrees).isPresent() ? 3 : 0;
        score += one.hasDecimals() ? 1.5 : 0;
        score += one.isConstant() ? -1 : 1;
        score += one.jitter() > 0 ? 1 : 0;
        score -= one.called(OUTPUT + "|" + SEGMENT + "|" + UPTIME) ? 6 : 0;
        score -= !one.hint().isEmpty() && !one.hint().startsWith("#") && !one.called(TEMPERATURE) ? 2 : 0;
        // A counter or a small whole number is none.
        score -= one.steadyStep().isPresent() && !one.hasDecimals() ? 3 : 0;
        score -= !one.hasDecimals() && one.highest() < 10 ? 3 : 0;
        // The hotter of two is the kiln, the other the board.
        score += Math.min(one.highest(), 1_000) / 2_000;
        // Of two alike the first is meant.
        return score - 0.01 * series.indexOf(one);
    }

    private void namedSegment() {
        for (Series one : free()) {
            boolean whole = !one.hasDecimals() && one.isNumeric() && one.lowest() >= 0 && one.highest() <= 99;
            if (one.called(SEGMENT) && whole) {
                take(Quantity.SEGMENT, one, "count", 1);
                return;
            }
        }
    }

    private void output() {
        for (Series one : free()) {
            if (one.called(OUTPUT) || percent(one)) {
                outputUnit(one).ifPresent(unit -> take(Quantity.OUTPUT, one, unit, 1));
            }
            if (places.containsKey(Quantity.OUTPUT)) {
                return;
            }
        }
        for (Series one : free()) {
            boolean bare = one.hint().isEmpty() || one.hint().startsWith("#");
            boolean scale = one.isNumeric() && one.lowest() >= 0 && one.highest() <= 100 && !one.called(SEGMENT);
            // It reaches an end of its scale, or jumps as neither a temperature nor a set-point does.
            boolean share = one.hasDecimals() && one.highest() <= 1;
            boolean jumps =
                    share || one.highest() == 100 || one.lowest() == 0 || one.largestStep() > 2 && !one.isConstant();
            // A byte of duty jumps by more from line to line than any temperature.
            boolean duty = one.isNumeric()
                    && one.isWhole()
                    && one.lowest() >= 0
                    && one.highest() <= 255
                    && one.largestStep() > 20;
            if (bare && (one.isOnOff() || duty || scale && jumps && !looksLikeSegment(one))) {
                outputUnit(one).ifPresent(unit -> take(Quantity.OUTPUT, one, unit, 1));
                return;
            }
        }
    }

    private static boolean looksLikeSegment(Series one) {
        return one.isConstant() && !one.hasDecimals() && one.highest() >= 1 && one.highest() < 20;
    }

    private static Optional<String> outputUnit(Series one) {
        if (one.isOnOff()) {
            return Optional.of("on/off");
        }
        if (!one.isNumeric() || one.lowest() < 0) {
            return Optional.empty();
        }
        if (percent(one)) {
            return Optional.of("percent");
        }
        boolean wholeZeroOrOne = !one.hasDecimals() && one.highest() <= 1;
        if (wholeZeroOrOne) {
            return Optional.of("on/off");
        }
        if (one.highest() <= 1) {
            return Optional.of("share");
        }
        if (one.highest() <= 100) {
            return Optional.of("percent");
        }
        if (one.highest() <= 255) {
            return Optional.of("of 255");
        }
        return one.highest() <= 1000 ? Optional.of("permille") : Optional.empty();
    }

    /** A number like the temperature that does not jitter as a sensor does. */
    private void setpointByBehaviour() {
        if (places.containsKey(Quantity.SETPOINT)) {
            return;
        }
        Series temperature = at(places.get(Quantity.TEMPERATURE).at());
        for (Series one : free()) {
            boolean bare = one.hint().isEmpty() || one.hint().startsWith("#");
            Optional<Place> place = one.isNumeric() ? temperaturePlace(one) : Optional.empty();
            boolean smooth =
                    one.isWhole() || one.isConstant() || one.steadyStep().isPresent();
            boolean large = one.highest() >= 20 && one.highest() > 0.5 * temperature.highest();
            if (bare && place.isPresent() && smooth && large && !percent(one)) {
                taken.add(one.at());
                places.put(Quantity.SETPOINT, place.get());
                return;
            }
        }
    }

    /** A second temperature like that of a room. */
    private void coldJunctionByBehaviour() {
        if (places.containsKey(Quantity.COLD_JUNCTION)) {
            return;
        }
        for (Series one : free()) {
            boolean bare = one.hint().isEmpty() || one.hint().startsWith("#");
            if (bare && one.isNumeric() && one.hasDecimals() && one.lowest() > 1 && one.highest() < 70 && steady(one)) {
                take(
                        Quantity.COLD_JUNCTION,
                        one,
                        places.get(Quantity.TEMPERATURE).unit(),
                        1);
                return;
            }
        }
    }

    private boolean steady(Series one) {
        Place place = temperaturePlace(one).orElseThrow();
        return one.largestStep() * place.scale() <= Math.max(8, FASTEST_K_PER_S * secondsBetween * 2);
    }

    /** The number as a temperature; empty when it cannot be one. */
    private Optional<Place> temperaturePlace(Series one) {
        boolean inFahrenheit = fahrenheit
                || one.unit().filter(unit -> unit.matches("(?i)°?F|degF")).isPresent()
                || one.called("f|degf|fahrenheit|temp f|t f");
        double hottest = inFahrenheit ? HOTTEST_F : HOTTEST_C;
        for (double scale : new double[] {1, 0.1, 0.01}) {
            if (one.hasDecimals() && scale < 1) {
                break;
            }
            double high = one.highest() * scale;
            double low = one.lowest() * scale;
            if (high <= hottest && low >= COLDEST_C) {
                return Optional.of(new Place(one.at(), inFahrenheit ? "°F" : "°C", scaleFor(one, scale)));
            }
            // Beyond any °C a kiln reaches, but not beyond °F.
            if (scale == 1 && !inFahrenheit && one.hasDecimals() && high <= HOTTEST_F && low >= COLDEST_C) {
                return Optional.of(new Place(one.at(), "°F", 1));
            }
        }
        return Optional.empty();
    }

    /** Whole numbers that jitter by more than a sensor does are tenths: 10432 is beyond a kiln, 2153 near it is not. */
    private static double scaleFor(Series one, double scale) {
        boolean tenths = one.hint().toLowerCase(java.util.Locale.ROOT).matches(".*(x10|tenths?|deci|_?d10|10ths?).*");
        return scale == 1 && tenths ? 0.1 : scale;
    }

    private static boolean percent(Series one) {
        return one.unit().filter(unit -> unit.matches("%|(?i)pct")).isPresent();
    }

    private static boolean degrees(String unit) {
        return unit.matches("(?i)°|°?[CF]|deg[CF]?");
    }

    private List<Series> free() {
        return series.stream().filter(one -> !taken.contains(one.at())).toList();
    }

    private Series at(String place) {
        return series.stream().filter(one -> one.at().equals(place)).findFirst().orElseThrow();
    }

    private void take(Quantity quantity, Series one, String unit, double scale) {
        taken.add(one.at());
        places.put(quantity, new Place(one.at(), unit, scale));
    }
}
