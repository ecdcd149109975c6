package org.kilnside.desktop;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Nothing the window does waits for disk, wire or lock: the code that could is not called from the desktop at all. */
class SwingThreadTest {
    private static final Map<String, Set<String>> WAITING = Map.ofEntries(
            Map.entry("java.lang.Thread", Set.of("sleep", "join")),
            Map.entry("java.lang.Object", Set.of("wait")),
            Map.entry("java.util.concurrent.Future", Set.of("get")),
            Map.entry("java.util.concurrent.CompletableFuture", Set.of("get", "join")),
            Map.entry("java.util.concurrent.ExecutorService", Set.of("awaitTermination", "invokeAll", "submit")),
            Map.entry("java.util.concurrent.CountDownLatch", Set.of("await")),
            Map.entry("java.util.concurrent.Semaphore", Set.of("acquire")),
            Map.entry("java.util.concurrent.locks.Lock", Set.of("lock")),
            Map.entry("javax.swing.SwingUtilities", Set.of("invokeAndWait")),
            Map.entry("java.lang.Process", Set.of("waitFor")));

    private static final JavaClasses DESKTOP = new ClassFileImporter()
            .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
            .importPackages("org.kilnside.desktop", "org.kilnside.chart", "org.kilnside.wording");

    @Test
    void nothingInTheWindowWaits() {
        noClasses()
                .should()
                .callMethodWhere(new DescribedPredicate<JavaMethodCall>("waits") {
                    @Override
                    public boolean test(JavaMethodCall call) {
                        return WAITING.entrySet().stream()
                                .anyMatch(entry -> call.getTargetOwner().isAssignableTo(entry.getKey())
                                        && entry.getValue()
                                                .contains(call.getTarget().getName()));
                    }
                })
                .because("a window that waits is a window that shows an old number as if it were live")
                .check(DESKTOP);
    }

    @Test
    void theWindowOpensNoFileAndNoSocket() {
        noClasses()
                .should()
                .dependOnClassesThat()
                .haveNameMatching("java\\.io\\.File.*|java\\.nio\\.file\\..*|java\\.net\\..*")
                .because("disk and wire belong to the world; the window hands over what it wants looked after")
                .check(DESKTOP);
    }

    @Test
    void whatAPersonSaysGoesToTheSessionOnlyAsAnErrand() {
        noClasses()
                .that()
                .haveNameNotMatching("org\\.kilnside\\.desktop\\.Window")
                .should()
                .callMethodWhere(new DescribedPredicate<JavaMethodCall>("speak to the session") {
                    @Override
                    public boolean test(JavaMethodCall call) {
                        return call.getTargetOwner().isAssignableTo("org.kilnside.session.LiveFeed")
                                || call.getTargetOwner().isAssignableTo(SettingsStore.class)
                                || call.getTargetOwner().isAssignableTo(Closing.class);
                    }
                })
                .because(
                        "only the window knows the ports, and it runs them on the errands' thread (WindowIT watches it)")
                .check(DESKTOP);
    }
}
