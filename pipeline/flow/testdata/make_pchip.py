"""Writes pchip.csv: values of a monotone cubic through pump curves, by
scipy.interpolate.PchipInterpolator."""

import random
import scipy
from scipy.interpolate import PchipInterpolator

random.seed(4)
curves = [
    ([0, 2, 4, 6, 8], [12, 11.5, 10, 7, 3]),
    ([0, 1, 5, 6], [20, 21, 15, 2]),  # a hump
    ([0, 3, 3.5, 9, 9.1], [8, 8, 7.9, 2, 0]),  # a flat and a cliff
    ([0, 10], [9, 4]),
    ([1, 2, 4], [5, 3, 2.5]),
]
for n in (5, 8, 12):
    x = sorted(random.uniform(0, 30) for _ in range(n))
    y = sorted((random.uniform(0, 40) for _ in range(n)), reverse=True)
    curves.append((x, y))
with open("pchip.csv", "w") as f:
    f.write(f"# Monotone cubic through points, scipy {scipy.__version__} PchipInterpolator. Made by make_pchip.py.\n")
    f.write("points,x,y\n")
    for x, y in curves:
        p = PchipInterpolator(x, y)
        points = " ".join(f"{a!r}:{b!r}" for a, b in zip(x, y))
        for i in range(1, 20):
            at = x[0] + (x[-1] - x[0]) * i / 20
            f.write(f"{points},{at!r},{float(p(at))!r}\n")
