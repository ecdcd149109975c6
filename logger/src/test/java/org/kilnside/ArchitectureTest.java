package org.kilnside;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Draws the house: which room may know which. The same picture, in words, is docs/architecture.md. */
class ArchitectureTest {
    private static final String BASE = "org.kilnside.";

    /** From the ground up: a room imports only rooms before it in this list. */
    private static final List<String> ROOMS = List.of(
            // craft: what a potter and a physicist know
            "quantity",
            "sensor",
            "schedule",
            "firing",
            "heatwork",
            "thermal",
            "virtualkiln",
            "tracking",
            "alarm",
            "outlook",
            "review",
            "week",
            // live: the firing going on
            "session",
            // world: what lies outside the program
            "wording",
            "files",
            "link",
            "book",
            "host",
            // faces: what a person sees
            "chart",
            "report",
            "desktop",
            "page",
            "command",
            "app");

    private static final Set<String> CRAFT = Set.copyOf(ROOMS.subList(0, ROOMS.indexOf("session")));

    /** Rooms that stand side by side: neither imports the other, so that each can be replaced alone. */
    private static final List<Set<String>> STRANGERS = List.of(
            Set.of("thermal", "virtualkiln"),
            Set.of("link", "book"),
            Set.of("book", "host"),
            Set.of("desktop", "page"),
            Set.of("desktop", "command"));

    /** Each foreign library lives in the rooms named here and nowhere else. */
    private static final Map<String, Set<String>> HOMES = Map.ofEntries(
            Map.entry("com.fazecast", Set.of("link")),
            Map.entry("org.kilnside.protocol", Set.of("link")),
            Map.entry("org.sqlite", Set.of("book")),
            Map.entry("org.flywaydb", Set.of("book")),
            Map.entry("org.jdbi", Set.of("book")),
            Map.entry("java.sql", Set.of("book")),
            Map.entry("tools.jackson", Set.of("files")),
            Map.entry("org.tomlj", Set.of("files")),
            Map.entry("com.google.re2j", Set.of("files", "link")),
            Map.entry("org.hipparchus", Set.of("thermal", "heatwork", "outlook", "review", "sensor")),
            Map.entry("org.jfree", Set.of("chart", "report")),
            Map.entry("com.formdev", Set.of("desktop")),
            Map.entry("net.miginfocom", Set.of("desktop")),
            Map.entry("javax.swing", Set.of("desktop")),
            Map.entry("java.awt", Set.of("desktop", "chart", "report", "host")),
            Map.entry("javax.sound", Set.of("host")),
            Map.entry("picocli", Set.of("command", "app")),
            Map.entry("net.harawata", Set.of("host", "app")));

    private static final JavaClasses HOUSE = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            // The protocol's module stands on its own; its support for tests comes in a jar that is no house of ours.
            .withImportOption(location -> !location.contains("firmware-protocol"))
            .importPackages("org.kilnside");

    @Test
    void everyClassStandsInARoomOnTheList() {
        Set<String> found = HOUSE.stream()
                .map(JavaClass::getPackageName)
                .filter(name -> name.startsWith(BASE) && !name.startsWith(BASE + "protocol"))
                .map(name -> name.substring(BASE.length()).replaceAll("\\..*", ""))
                .collect(Collectors.toCollection(TreeSet::new));
        assertThat(ROOMS).containsAll(found);
    }

    @Test
    void aRoomImportsOnlyRoomsBeforeIt() {
        for (int i = 0; i < ROOMS.size(); i++) {
            String[] later = ROOMS.subList(i + 1, ROOMS.size()).stream()
                    .map(room -> BASE + room + "..")
                    .toArray(String[]::new);
            if (later.length == 0) {
                continue;
            }
            noClasses()
                    .that()
                    .resideInAPackage(BASE + ROOMS.get(i) + "..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(later)
                    .because("knowledge flows one way: " + ROOMS.get(i) + " must stand without the rooms built on it")
                    .allowEmptyShould(true)
                    .check(HOUSE);
        }
    }

    @Test
    void roomsSideBySideDoNotKnowEachOther() {
        for (Set<String> pair : STRANGERS) {
            for (String one : pair) {
                for (String other : pair) {
                    if (!one.equals(other)) {
                        noClasses()
                                .that()
                                .resideInAPackage(BASE + one + "..")
                                .should()
                                .dependOnClassesThat()
                                .resideInAPackage(BASE + other + "..")
                                .because(one + " and " + other
                                        + " are independent of each other, each checks or outlives the other")
                                .allowEmptyShould(true)
                                .check(HOUSE);
                    }
                }
            }
        }
    }

    @Test
    void aForeignLibraryLivesInItsOwnRoom() {
        for (Map.Entry<String, Set<String>> home : HOMES.entrySet()) {
            String[] elsewhere = ROOMS.stream()
                    .filter(room -> !home.getValue().contains(room))
                    .map(room -> BASE + room + "..")
                    .toArray(String[]::new);
            noClasses()
                    .that()
                    .resideInAnyPackage(elsewhere)
                    .should()
                    .dependOnClassesThat()
                    .resideInAPackage(home.getKey() + "..")
                    .because(home.getKey() + " is known to " + home.getValue()
                            + " alone, so that it can be exchanged there")
                    .allowEmptyShould(true)
                    .check(HOUSE);
        }
    }

    @Test
    void craftHasNoInputOutputNoClockAndNoThreads() {
        for (String room : CRAFT) {
            noClasses()
                    .that()
                    .resideInAPackage(BASE + room + "..")
                    .should()
                    .dependOnClassesThat()
                    .haveNameMatching(
                            "java\\.io\\.(File|FileReader|FileWriter|FileInputStream|FileOutputStream)|java\\.nio\\.file\\..*|java\\.net\\..*|java\\.lang\\.Thread|java\\.util\\.concurrent\\.(?!ThreadLocalRandom).*|java\\.time\\.Clock")
                    .because(
                            "what a potter and a physicist know needs no computer around it; the same input gives the same answer")
                    .allowEmptyShould(true)
                    .check(HOUSE);
        }
    }
}
