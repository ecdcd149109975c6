/**
 * How the window looks: fired clay and ash glazes, by day and in a dim studio. All colours stand in the two
 * {@code .properties} files under keys beginning with {@code Kilnside}; code has none.
 */
package org.kilnside.desktop.theme;
