/**
 * The line between controller and computer, in Java: framing, decoding, encoding, checksum.
 *
 * <p>Knows: bytes and what PROTOCOL.md says they mean. Must not know: what a code is worth in °C, files, ports, clocks,
 * threads. Every object here is confined to its caller's thread; messages are immutable. Truth: PROTOCOL.md and
 * fields.csv, to which the tests hold it.
 */
package org.kilnside.protocol;
