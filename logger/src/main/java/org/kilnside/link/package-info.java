/**
 * The links to a controller: serial port, TCP, a replayed stream, the virtual kiln. Whatever the link, the same bytes go
 * through the same reader.
 *
 * <p>Knows: the protocol's codec, the sensor room (to turn codes into temperatures), the session's port {@code
 * ReadingSource}. Must not know: the book, plans, faces. Each link has one thread of its own, on which everything here
 * happens and the listener is called. Truth: the bytes; PROTOCOL.md; for ports, what the operating system says.
 */
package org.kilnside.link;
