package org.kilnside.host;

import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** How other computers of the house reach this one. */
public final class Networks {
    private static final Logger LOG = LoggerFactory.getLogger(Networks.class);

    private Networks() {}

    /** This computer's addresses in the networks it is in, those a person can type first; empty when it is in none. */
    public static List<String> addresses() {
        List<String> typable = new ArrayList<>();
        List<String> longer = new ArrayList<>();
        try {
            for (NetworkInterface network : Collections.list(NetworkInterface.getNetworkInterfaces())) {
                if (!network.isUp() || network.isLoopback()) {
                    continue;
                }
                for (InetAddress address : Collections.list(network.getInetAddresses())) {
                    if (address instanceof Inet4Address) {
                        typable.add(address.getHostAddress());
                    } else if (!address.isLinkLocalAddress()) {
                        longer.add("[" + address.getHostAddress().replaceAll("%.*", "") + "]");
                    }
                }
            }
        } catch (SocketException e) {
            LOG.warn("this computer's networks could not be listed", e);
        }
        typable.addAll(longer);
        return typable;
    }
}
