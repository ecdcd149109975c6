package org.kilnside.desktop.book;

import javax.swing.SwingUtilities;
import javax.swing.event.AncestorEvent;
import javax.swing.event.AncestorListener;

/** Gives a component the keyboard when its dialog comes up. */
final class FocusWhenShown implements AncestorListener {
    @Override
    public void ancestorAdded(AncestorEvent event) {
        SwingUtilities.invokeLater(event.getComponent()::requestFocusInWindow);
    }

    @Override
    public void ancestorRemoved(AncestorEvent event) {
        // A dialog that goes away takes the keyboard with it.
    }

    @Override
    public void ancestorMoved(AncestorEvent event) {
        // Where it stands changes nothing.
    }
}
