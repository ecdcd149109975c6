package org.kilnside.desktop.theme;

import com.formdev.flatlaf.FlatDarkLaf;

/** In a dim studio: the inside of a kiln, ember and celadon. Its colours stand in the file of the same name. */
public final class KilnsideDark extends FlatDarkLaf {
    private static final long serialVersionUID = 1L;

    @Override
    public String getName() {
        return "Kilnside by night";
    }
}
