package org.kilnside.thermal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.kilnside.firing.Kiln;
import org.kilnside.firing.Trace;
import org.kilnside.quantity.Power;
import org.kilnside.quantity.Temperature;
import org.kilnside.quantity.Volume;
import org.kilnside.virtualkiln.Load;
import org.kilnside.virtualkiln.Population;
import org.kilnside.virtualkiln.Specimen;

/** Plans imagined before lighting, held against the virtual kilns that then fire them: other physics than the model. */
final class ImaginedFiringsTrial {
    /** What is known before lighting. */
    enum Known {
        /** Nothing but the plan and the room. */
        NOTHING,
        /** Wall, volume, power. */
        DESCRIPTION,
        /** The same, and the load weighed. */
        DESCRIPTION_AND_LOAD,
        /** Two earlier firings' temperatures, and the description. */
        TWO_FIRINGS,
        /** The same, with output, and the load weighed. */
        TWO_FIRINGS_OUTPUT_AND_LOAD
    }

    /** One question of one firing: what was imagined, and what came. */
    record Case(String question, ImaginedFirings.Likely imagined, double truth) {
        boolean held() {
            return truth >= imagined.from() && truth <= imagined.to();
        }

        /** What a week is planned by. */
        boolean overByLateEnd() {
            return truth <= imagined.to();
        }

        double error() {
            return Math.abs(imagined.at() / truth - 1);
        }

        double halfWidth() {
            return Math.log(imagined.to() / imagined.from()) / 2;
        }
    }

    static final List<String> QUESTIONS = List.of("the top", "the end of the plan", "200 °C", "120 °C", "60 °C");

    private ImaginedFiringsTrial() {}

    static List<Case> of(Population.Family family, long seed, int kiln, Known known) {
        int number = 2;
        VirtualTrial trial = VirtualTrial.of(family, seed, kiln, number, false);
        Specimen specimen = new Population(family, seed).specimen(kiln);
        boolean remembers = known == Known.TWO_FIRINGS || known == Known.TWO_FIRINGS_OUTPUT_AND_LOAD;
        boolean withOutput = known == Known.TWO_FIRINGS_OUTPUT_AND_LOAD;
        List<Trace> earlier = new ArrayList<>();
        for (int i = 0; remembers && i < number; i++) {
            earlier.add(VirtualTrial.of(family, seed, kiln, i, false).until(1e9, withOutput));
        }
        Kiln described = known == Known.NOTHING ? Kiln.named("a kiln") : described(specimen, family);
        Optional<WallKind> wall = described.wall().map(each -> WallKind.valueOf(each.name()));
        KilnMemory memory = KilnMemory.of(earlier, wall, OptionalDouble.of(trial.roomC()));
        OptionalDouble load = known == Known.DESCRIPTION_AND_LOAD || withOutput
                ? OptionalDouble.of(weighedKg(specimen, (kiln + number) % 2 != 0, number))
                : OptionalDouble.empty();
        ImaginedFirings firings = ImaginedFirings.of(
                trial.plan(),
                LikelyKilns.of(described, memory, Temperature.ofCelsius(trial.roomC()), load),
                List.of(Temperature.ofCelsius(200), Temperature.ofCelsius(120), Temperature.ofCelsius(60)));
        List<Case> cases = new ArrayList<>();
        double topC = trial.plan().top().celsius();
        add(cases, QUESTIONS.get(0), firings.time(ImaginedFiring::arrivalS, 0.025), trial.aboveS(topC - 2));
        add(cases, QUESTIONS.get(1), firings.time(f -> OptionalDouble.of(f.planOverS()), 0.025), trial.offS());
        add(cases, QUESTIONS.get(2), firings.time(f -> f.belowS().get(0), 0.07), trial.belowS(200));
        add(cases, QUESTIONS.get(3), firings.time(f -> f.belowS().get(1), 0.07), trial.belowS(120));
        add(cases, QUESTIONS.get(4), firings.time(f -> f.belowS().get(2), 0.07), trial.belowS(60));
        return cases;
    }

    /** What a scale says of the firing imagined. */
    private static double weighedKg(Specimen specimen, boolean raw, int number) {
        Load load = specimen.load(number, raw);
        return load.wareKg() + load.furnitureKg();
    }

    private static void add(
            List<Case> cases, String question, Optional<ImaginedFirings.Likely> imagined, double truth) {
        if (imagined.isPresent() && !Double.isNaN(truth)) {
            cases.add(new Case(question, imagined.get(), truth));
        }
    }

    static Kiln described(Specimen specimen, Population.Family family) {
        Kiln named = Kiln.named(specimen.kiln().name());
        Kiln.Wall wall = switch (family) {
            case LIGHT_BRICK, HEAVY_BRICK -> Kiln.Wall.BRICK;
            case LAYERED -> Kiln.Wall.LAYERED;
            case FIBRE -> Kiln.Wall.FIBRE;
        };
        return new Kiln(
                named.name(),
                Optional.of(Volume.ofLitres(1000 * specimen.kiln().volumeM3())),
                Optional.of(new Power(specimen.kiln().ratedW())),
                Optional.of(wall),
                named.opening(),
                named.isolator(),
                named.tariff(),
                named.limits(),
                named.thresholds(),
                named.sensors());
    }

    static String row(Known known, String question, List<Case> cases) {
        double[] errors = cases.stream().mapToDouble(Case::error).sorted().toArray();
        double[] halves = cases.stream().mapToDouble(Case::halfWidth).sorted().toArray();
        return String.format(
                Locale.ROOT,
                "| %s | %s | %d | %.1f / %.1f %% | %.0f %% | %.1f %% | %.0f %% |",
                known.name().toLowerCase(Locale.ROOT).replace('_', ' '),
                question,
                cases.size(),
                100 * ImaginedFirings.quantile(errors, 0.5),
                100 * ImaginedFirings.quantile(errors, 0.9),
                100.0 * cases.stream().filter(Case::held).count() / cases.size(),
                100 * ImaginedFirings.quantile(halves, 0.5),
                100.0 * cases.stream().filter(Case::overByLateEnd).count() / cases.size());
    }
}
