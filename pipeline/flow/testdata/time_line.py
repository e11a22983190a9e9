"""Times one line in the fluids library, to be run beside BenchmarkWholeLine: 6 m
of 1 1/2 in tube, five bends, a reducer and both ends, by the same methods. The
best of several rounds is printed, and the head, which is that of the Go line."""

import math
import timeit
from fluids.fittings import Hooper2K, contraction_conical_Crane
from fluids.friction import Colebrook

WIDE, BORE, LENGTH, FLOW = 0.0602, 0.0348, 6.0, 1e-3
RHO, MU, ROUGH = 998.206, 1.0016e-3, 5.863 * 0.8e-6
BEND = "Elbow, 90°, Long-radius (R/D = 1.5), All types"


def line():
    v0 = FLOW / (math.pi / 4 * WIDE**2)
    v = FLOW / (math.pi / 4 * BORE**2)
    re0, re = RHO * v0 * WIDE / MU, RHO * v * BORE / MU
    h = (0.5 + 160 / re0) * v0 * v0
    k = contraction_conical_Crane(Di1=WIDE, Di2=BORE, angle=30)
    k += Colebrook(re, ROUGH / BORE) * LENGTH / BORE
    for _ in range(5):
        k += Hooper2K(Di=BORE / 0.0254, Re=re, name=BEND)
    return (h + (k + 1) * v * v) / (2 * 9.80665)


if __name__ == "__main__":
    n = 2000
    best = min(timeit.repeat(line, number=n, repeat=9)) / n
    print(f"{best * 1e9:.0f} ns a line, head {line():.6f} m")
