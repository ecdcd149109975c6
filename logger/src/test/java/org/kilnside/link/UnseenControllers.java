package org.kilnside.link;

import java.util.List;
import java.util.Locale;
import org.kilnside.link.MadeUpControllers.Controller;
import org.kilnside.link.MadeUpControllers.Printing;
import org.kilnside.link.MadeUpControllers.Truth;

/**
 * Ten more controllers nobody built, written down after the proposing was finished and not used to better it: how often
 * it is right about these says more than how often it is about the twenty.
 */
final class UnseenControllers {
    private UnseenControllers() {}

    private static String f(String format, Object... values) {
        return String.format(Locale.ROOT, format, values);
    }

    private static Printing heading(String heading, Printing printing) {
        return new Printing() {
            @Override
            public String line(Truth truth) {
                return printing.line(truth);
            }

            @Override
            public List<String> before() {
                return List.of(heading);
            }
        };
    }

    static List<Controller> all() {
        return List.of(
                new Controller(
                        "bars with words",
                        "so",
                        1,
                        1043,
                        t -> f(
                                "#%d | kiln %.0f C | target %.0f C | elements %.0f %%",
                                t.second(), t.kilnC(), t.setpointC(), t.output() * 100)),
                new Controller("T1 and T2", "", 1, 20, t -> f("T1=%.2f;T2=%.1f;", t.kilnC(), t.boardC())),
                new Controller(
                        "a heading in °F",
                        "so",
                        2,
                        540,
                        heading(
                                "millis,temp_f,set_f,power",
                                t -> f(
                                        "%d,%.1f,%.0f,%.0f",
                                        t.second() * 1000L, t.kilnF(), t.setpointF(), t.output() * 100))),
                new Controller(
                        "JSON with a list",
                        "s",
                        1,
                        900,
                        t -> f("{\"ch\":[{\"c\":%.1f}],\"sp\":%.0f}", t.kilnC(), t.setpointC())),
                new Controller(
                        "German with slashes",
                        "so",
                        1,
                        1043,
                        t -> f(
                                        "Temperatur %.1f °C / Soll %.0f °C / Leistung %.0f %%",
                                        t.kilnC(), t.setpointC(), t.output() * 100)
                                .replace('.', ',')),
                new Controller("a number with its unit", "", 1, 333, t -> f("%.2fC", t.kilnC())),
                new Controller(
                        "brackets around", "o", 1, 710, t -> f(">temp=%.1f;duty=%.0f<", t.kilnC(), t.output() * 100)),
                new Controller(
                        "a clock, kiln and board",
                        "b",
                        1,
                        21,
                        t -> f(
                                "%02d:%02d:%02d;%.1f;%.1f",
                                t.second() / 3600, t.second() / 60 % 60, t.second() % 60, t.kilnC(), t.boardC())),
                new Controller(
                        "a rate beside it",
                        "g",
                        5,
                        843,
                        t -> f("kiln %.1f deg C, 100.0 deg C/h, step %d", t.kilnC(), t.segment())),
                new Controller(
                        "a letter in front and a relay as 0 or 1",
                        "sr",
                        1,
                        1000,
                        t -> f("A,%.0f,%.0f,%d", t.kilnC(), t.setpointC(), t.output() > 0.7 ? 1 : 0)));
    }
}
