"""The same fit by SciPy's least_squares: evaluations, time, where it ends. bench starts it with the Java command."""
import subprocess
import sys
import time

try:
    import numpy
    from scipy.optimize import least_squares
except ImportError:
    print("SciPy is not installed (python3-scipy): the ratio against it is left out.")
    sys.exit(0)

java = subprocess.Popen(sys.argv[1:], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
size, ours_ms, ours_sum = java.stdout.readline().split()
in_model_ns = 0
evaluations = 0


def residuals(at):
    global in_model_ns, evaluations
    java.stdin.write(" ".join(repr(float(each)) for each in at) + "\n")
    java.stdin.flush()
    spent, *values = java.stdout.readline().split()
    in_model_ns += int(spent)
    evaluations += 1
    return numpy.array([float(each) for each in values])


print(f"ours: {float(ours_ms):.1f} ms, sum of squares {float(ours_sum):.3f}")
for method in ("trf", "lm"):
    in_model_ns = evaluations = 0
    began = time.perf_counter()
    found = least_squares(residuals, numpy.zeros(int(size)), method=method, diff_step=1e-3, ftol=2e-3, xtol=2e-3)
    whole = time.perf_counter() - began
    print(
        f"SciPy {method}: {in_model_ns / 1e6:.1f} ms in the same model, {1e3 * whole:.1f} ms with its own steps and the pipe,"
        f" {evaluations} evaluations, sum of squares {2 * found.cost:.3f};"
        f" ratio in the model {in_model_ns / 1e6 / float(ours_ms):.1f}"
    )
java.stdin.close()
java.wait()
