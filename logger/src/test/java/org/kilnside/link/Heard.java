package org.kilnside.link;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import org.kilnside.session.Connection;
import org.kilnside.session.ReadingSource;

/** Writes down what a link delivers. */
final class Heard implements ReadingSource.Listener {
    final List<ReadingSource.ControllerHello> hellos = new CopyOnWriteArrayList<>();
    final List<ReadingSource.Arrival> arrivals = java.util.Collections.synchronizedList(new ArrayList<>());
    final List<Connection> connections = new CopyOnWriteArrayList<>();

    @Override
    public void controllerSaidHello(ReadingSource.ControllerHello hello) {
        hellos.add(hello);
    }

    @Override
    public void readingArrived(ReadingSource.Arrival arrival) {
        arrivals.add(arrival);
    }

    @Override
    public void connectionChanged(Connection connection) {
        connections.add(connection);
    }

    Connection last() {
        return connections.get(connections.size() - 1);
    }

    /** The states in order, repetitions left out. */
    List<Connection.State> states() {
        List<Connection.State> states = new ArrayList<>();
        for (Connection connection : connections) {
            if (states.isEmpty() || states.get(states.size() - 1) != connection.state()) {
                states.add(connection.state());
            }
        }
        return states;
    }

    /** What was said in a state, in order, repetitions left out. */
    List<String> details(Connection.State state) {
        return connections.stream()
                .filter(connection -> connection.state() == state)
                .flatMap(connection -> connection.detail().stream())
                .distinct()
                .toList();
    }

    Optional<String> detailIn(Connection.State state) {
        return connections.stream()
                .filter(connection ->
                        connection.state() == state && connection.detail().isPresent())
                .reduce((before, after) -> after)
                .flatMap(Connection::detail);
    }
}
