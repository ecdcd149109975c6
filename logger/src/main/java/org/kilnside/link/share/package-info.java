/**
 * Another Kilnside on the network: the token two copies share, the key they speak under, and the wires snapshots go
 * over.
 *
 * <p>Knows: sockets and the JDK's own cryptography. Must not know: what a snapshot is, faces. A wire is read by one
 * thread and written by another; everything else is immutable. Truth: RFC 8446 (TLS 1.3), RFC 5280 (X.509), RFC 2104
 * (HMAC); what is protected and what is not stands in docs/decisions/0030.
 */
package org.kilnside.link.share;
