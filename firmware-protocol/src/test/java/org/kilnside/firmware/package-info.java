/**
 * The reference firmware, run unmodified on simulated boards and read through their pseudo-terminals.
 *
 * <p>Expected values: what the simulated amplifier itself answered, frame by frame (independent of firmware and codec),
 * and PROTOCOL.md.
 */
package org.kilnside.firmware;
