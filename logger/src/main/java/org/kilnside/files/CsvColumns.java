package org.kilnside.files;

/** Where in a row of a log stands what; negative where the log does not have it. */
final class CsvColumns {
    final int elapsed;
    final int time;
    final int temperature;
    final boolean fahrenheit;
    final int output;
    final int setpoint;
    final boolean setpointFahrenheit;
    final int coldJunction;
    final boolean coldJunctionFahrenheit;
    final int count;
    final CsvHeader header;

    CsvColumns(CsvHeader header) {
        this.header = header;
        elapsed = header.column("elapsed_s");
        time = header.column("time");
        fahrenheit = !header.has("temp_c");
        temperature = header.column(fahrenheit ? "temp_f" : "temp_c");
        output = header.column("output_pct");
        setpointFahrenheit = !header.has("setpoint_c");
        setpoint = header.column(setpointFahrenheit ? "setpoint_f" : "setpoint_c");
        coldJunctionFahrenheit = !header.has("cold_junction_c");
        coldJunction = header.column(coldJunctionFahrenheit ? "cold_junction_f" : "cold_junction_c");
        count = header.count();
    }
}
