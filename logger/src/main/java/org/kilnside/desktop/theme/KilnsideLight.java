package org.kilnside.desktop.theme;

import com.formdev.flatlaf.FlatLightLaf;

/** By day: slip, bare clay, iron and celadon. Its colours stand in the file of the same name. */
public final class KilnsideLight extends FlatLightLaf {
    private static final long serialVersionUID = 1L;

    @Override
    public String getName() {
        return "Kilnside by day";
    }
}
