/**
 * The Book screen: all firings, one of them or several over each other, and what the potter writes down of them. Models
 * are plain Java and know the book's values; what may wait for the disk goes through {@link
 * org.kilnside.desktop.book.BookAccess}, on the errands' thread.
 */
package org.kilnside.desktop.book;
