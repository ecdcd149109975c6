package org.kilnside.book;

import java.io.PrintWriter;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Proxy;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.logging.Logger;
import javax.sql.DataSource;

/** A data source whose n-th statement fails: once, or with all writing that follows, as on a disk that stays full. */
final class FailingDataSource implements DataSource {
    private final DataSource real;
    private final int failingStep;
    private final boolean forEver;
    private int step;
    private boolean failed;

    FailingDataSource(DataSource real, int failingStep, boolean forEver) {
        this.real = real;
        this.failingStep = failingStep;
        this.forEver = forEver;
    }

    boolean hasFailed() {
        return failed;
    }

    @Override
    public Connection getConnection() throws SQLException {
        return (Connection) wrapped(real.getConnection(), Connection.class);
    }

    @Override
    public Connection getConnection(String name, String password) throws SQLException {
        return getConnection();
    }

    private Object wrapped(Object target, Class<?> face) {
        return Proxy.newProxyInstance(
                getClass().getClassLoader(), new Class<?>[] {face}, (proxy, method, arguments) -> {
                    if (method.getName().startsWith("execute")
                            || method.getName().equals("commit")) {
                        step++;
                        boolean writes = !method.getName().equals("executeQuery");
                        if (step == failingStep || (forEver && writes && step > failingStep)) {
                            failed = true;
                            throw new SQLException("made to fail at step " + step);
                        }
                    }
                    try {
                        Object result = method.invoke(target, arguments);
                        boolean statement = result instanceof java.sql.Statement;
                        return statement ? wrapped(result, method.getReturnType()) : result;
                    } catch (InvocationTargetException e) {
                        throw e.getCause();
                    }
                });
    }

    @Override
    public PrintWriter getLogWriter() throws SQLException {
        return real.getLogWriter();
    }

    @Override
    public void setLogWriter(PrintWriter out) throws SQLException {
        real.setLogWriter(out);
    }

    @Override
    public void setLoginTimeout(int seconds) throws SQLException {
        real.setLoginTimeout(seconds);
    }

    @Override
    public int getLoginTimeout() throws SQLException {
        return real.getLoginTimeout();
    }

    @Override
    public Logger getParentLogger() {
        return Logger.getGlobal();
    }

    @Override
    public <T> T unwrap(Class<T> face) throws SQLException {
        return real.unwrap(face);
    }

    @Override
    public boolean isWrapperFor(Class<?> face) throws SQLException {
        return real.isWrapperFor(face);
    }
}
