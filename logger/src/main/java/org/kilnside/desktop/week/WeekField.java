package org.kilnside.desktop.week;

/** A field of the week, or of a load in it. */
public enum WeekField {
    NAME(Kind.TEXT),
    KILN(Kind.CHOICE),
    DUE(Kind.TEXT),
    THERE(Kind.TEXT),
    AWAY(Kind.TEXT),
    PACKING(Kind.TEXT),
    ROOM(Kind.TEXT),
    FREE(Kind.TEXT),
    TOP_ALONE(Kind.TICK),
    LOAD_NAME(Kind.TEXT),
    PLAN(Kind.CHOICE),
    LOAD_DUE(Kind.TEXT),
    READY(Kind.TEXT),
    AFTER(Kind.CHOICE),
    DRYING(Kind.TEXT),
    WARE(Kind.CHOICE),
    THICKNESS(Kind.TEXT),
    WEIGHT(Kind.TEXT),
    LIMIT(Kind.TEXT),
    PACKED(Kind.TICK);

    /** How it is filled in. */
    enum Kind {
        TEXT,
        CHOICE,
        TICK
    }

    private final Kind kind;

    WeekField(Kind kind) {
        this.kind = kind;
    }

    Kind kind() {
        return kind;
    }

    /** Whether each load has its own. */
    boolean isOfALoad() {
        return compareTo(LOAD_NAME) >= 0;
    }
}
