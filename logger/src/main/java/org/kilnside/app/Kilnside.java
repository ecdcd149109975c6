package org.kilnside.app;

/** The program's entry. */
public final class Kilnside {
    private Kilnside() {}

    public static void main(String[] arguments) {
        System.exit(0);
    }
}
