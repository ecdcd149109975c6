package org.kilnside.link;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Random;

/** Twenty controllers nobody built: each prints the same firing in a way of its own. */
final class MadeUpControllers {
    private MadeUpControllers() {}

    /** What is really so when a line is printed. */
    record Truth(int second, double kilnC, double setpointC, double boardC, double output, int segment) {
        double kilnF() {
            return kilnC * 1.8 + 32;
        }

        double setpointF() {
            return setpointC * 1.8 + 32;
        }
    }

    /** How one controller prints it; and which of set-point, output, board and segment it prints at all. */
    record Controller(String name, String says, int everySeconds, double startC, Printing printing) {
        List<Truth> truths() {
            Random random = new Random(name.hashCode());
            List<Truth> truths = new ArrayList<>();
            for (int line = 0; line < 12; line++) {
                int second = 5_000 + line * everySeconds;
                double setpointC = startC + 3 + line * everySeconds / 36.0;
                truths.add(new Truth(
                        second,
                        startC + line * everySeconds / 36.0 + random.nextGaussian() * 0.4,
                        Math.round(setpointC),
                        24 + line * 0.02 + random.nextGaussian() * 0.06,
                        Math.max(0, Math.min(1, 0.7 + random.nextGaussian() * 0.15)),
                        2));
            }
            return truths;
        }

        List<String> lines() {
            List<String> lines = new ArrayList<>(printing.before());
            truths().forEach(truth -> lines.add(printing.line(truth)));
            return lines;
        }

        OptionalDouble betweenLinesMs() {
            return OptionalDouble.of(everySeconds * 1000.0);
        }

        @Override
        public String toString() {
            return name;
        }
    }

    interface Printing {
        String line(Truth truth);

        default List<String> before() {
            return List.of();
        }
    }

    private static String f(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private static Controller one(String name, String says, int every, double startC, Printing printing) {
        return new Controller(name, says, every, startC, printing);
    }

    private static Printing after(List<String> before, Printing printing) {
        return new Printing() {
            @Override
            public String line(Truth truth) {
                return printing.line(truth);
            }

            @Override
            public List<String> before() {
                return before;
            }
        };
    }

    static List<Controller> all() {
        return List.of(
                one("a bare number", "", 1, 21, t -> f("%.2f", t.kilnC())),
                one("T and SP by equals signs", "s", 1, 1043, t -> f("T=%.1f SP=%.0f", t.kilnC(), t.setpointC())),
                one(
                        "seconds, temperature, set-point, percent",
                        "so",
                        1,
                        640,
                        t -> f("%d,%.1f,%.0f,%.0f", t.second(), t.kilnC(), t.setpointC(), t.output() * 100)),
                one("milliseconds and temperature", "", 2, 22, t -> f("%d;%.2f", t.second() * 1000L, t.kilnC())),
                one(
                        "a heading and tabs",
                        "sob",
                        1,
                        300,
                        after(
                                List.of("time\ttemp\ttarget\tduty\tambient"),
                                t -> f(
                                        "%d\t%.2f\t%.1f\t%.2f\t%.1f",
                                        t.second(), t.kilnC(), t.setpointC(), t.output(), t.boardC()))),
                one(
                        "flat JSON",
                        "so",
                        1,
                        850,
                        t -> f(
                                "{\"temp\":%.1f,\"setpoint\":%.1f,\"duty\":%.0f}",
                                t.kilnC(), t.setpointC(), t.output() * 100)),
                one(
                        "nested JSON in tenths",
                        "b",
                        5,
                        560,
                        t -> f(
                                "{\"up\":%d,\"temp_x10\":{\"kiln\":%d,\"board\":%d}}",
                                t.second(), Math.round(t.kilnC() * 10), Math.round(t.boardC() * 10))),
                one(
                        "words and colons in °F",
                        "s",
                        1,
                        400,
                        t -> f("Kiln: %.1f F  Set: %.0f F", t.kilnF(), t.setpointF())),
                one(
                        "letters with numbers right behind",
                        "so",
                        1,
                        720,
                        t -> f("T%.1f S%.0f P%.0f", t.kilnC(), t.setpointC(), t.output() * 100)),
                one(
                        "a clock in front",
                        "s",
                        1,
                        505,
                        t -> f(
                                "%02d:%02d:%02d %.1f %.0f",
                                t.second() / 3600, t.second() / 60 % 60, t.second() % 60, t.kilnC(), t.setpointC())),
                one("hundredths as whole numbers", "", 1, 930, t -> f("temp=%d", Math.round(t.kilnC() * 100))),
                one(
                        "PV, SV and OP",
                        "so",
                        1,
                        1100,
                        t -> f("PV:%.1f,SV:%.1f,OP:%.1f", t.kilnC(), t.setpointC(), t.output() * 100)),
                one(
                        "a relay that is on or off",
                        "r",
                        1,
                        610,
                        t -> f("temp %.1f relay %s", t.kilnC(), t.output() > 0.7 ? "ON" : "OFF")),
                one(
                        "a log with brackets",
                        "s",
                        1,
                        777,
                        t -> f("[%d] kiln=%.2fC target=%.2fC", t.second() * 1000L, t.kilnC(), t.setpointC())),
                one(
                        "comma for a point, semicolons between",
                        "s",
                        10,
                        233,
                        t -> f("%d;%.1f;%.1f", t.second(), t.kilnC(), t.setpointC())
                                .replace('.', ',')),
                one(
                        "bars and units",
                        "ob",
                        1,
                        450,
                        t -> f("%.1f C | %.0f %% | %.1f C", t.kilnC(), t.output() * 100, t.boardC())),
                one(
                        "German words",
                        "so",
                        1,
                        985,
                        t -> f("Ist: %.1f Soll: %.0f Heizung: %.0f%%", t.kilnC(), t.setpointC(), t.output() * 100)),
                one(
                        "once a minute, with a segment",
                        "sg",
                        60,
                        612,
                        t -> f("seg %d temp %.1f sp %.0f", t.segment(), t.kilnC(), t.setpointC())),
                one(
                        "a power in 255ths",
                        "5",
                        1,
                        390,
                        t -> f(
                                "{\"ms\":%d,\"tc\":%.2f,\"pwm\":%d}",
                                t.second() * 1000L, t.kilnC(), 100 + Math.round(t.output() * 155))),
                one(
                        "chatter before the first line",
                        "b",
                        1,
                        19,
                        after(
                                List.of("kiln watcher 3", "sensor ok", "ready"),
                                t -> f("%.2f %.2f", t.kilnC(), t.boardC()))));
    }
}
