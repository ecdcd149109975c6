package org.kilnside.desktop.kiln;

/** Where a person stands in the first steps. */
enum Stop {
    LOADING,
    START,
    TYPE,
    COLD,
    LISTEN,
    NOISE,
    PROPOSAL,
    AMPLIFIER,
    FOUND,
    TRIAL,
    WATCHED,
    TRIED,
    ABOUT,
    BEGINNING
}
