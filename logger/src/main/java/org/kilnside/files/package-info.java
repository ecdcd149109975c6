/**
 * Files a person reads and edits: plans, kilns, logs, and the lines the commands print as JSON.
 *
 * <p>Knows: the craft rooms whose values the files hold, TOML, CSV and JSON. Must not know: the firing book, links,
 * screens. Called from any thread; readers are confined to their caller. Truth: docs/plans.md and docs/logs.md, whose
 * examples are tested; TOML 1.0.0; RFC 4180 (CSV), read with more patience than it asks for; RFC 8259 (JSON).
 */
package org.kilnside.files;
