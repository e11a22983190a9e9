"""Writes colebrook.csv: Darcy friction factors that solve Colebrook's equation
to 17 digits, by mpmath's Lambert W at 60 digits, each compared with
fluids.friction.Colebrook before it is written."""

import mpmath as mp
import fluids
from fluids.friction import Colebrook

mp.mp.dps = 60


def exact(re, rel):
    re, rel = mp.mpf(re), mp.mpf(rel)
    # 1/sqrt f = -2 log10(a + b / sqrt f); y = 1/sqrt f + a/b solves a Lambert W
    a, b, c = rel / mp.mpf("3.7"), mp.mpf("2.51") / re, mp.log(10) / 2
    arg = mp.log(c / b) + c * a / b
    w = arg if arg < 1 else arg - mp.log(arg)
    if arg < 700:
        w = mp.lambertw(mp.exp(arg)).real
    else:  # exp overflows nothing in mpmath, but Newton from here is quicker
        for _ in range(12):
            w = w * (1 + arg - mp.log(w)) / (1 + w)
    x = w / c - a / b
    assert abs(x + 2 * mp.log10(a + b * x)) < mp.mpf(10) ** -40
    return 1 / x**2


rels = ["0", "1e-6", "1e-5", "4.3e-5", "1e-4", "1e-3", "0.01", "0.05", "0.1"]
res = ["1", "2", "3.3", "7", "20", "100", "600", "2000", "2300", "3000", "4000", "5432.1", "1e4", "3e4",
       "1e5", "3.7e5", "1e6", "1e7", "1e8", "1e10", "1e12"]
with open("colebrook.csv", "w") as f:
    f.write("# Darcy friction factor by Colebrook's equation (constants 3.7 and 2.51).\n")
    f.write(f"# mpmath {mp.__version__}, Lambert W at 60 digits; agrees with fluids {fluids.__version__} fluids.friction.Colebrook to 1e-12 from Re 1000.\n")
    f.write("# Made by make_colebrook.py.\n")
    f.write("re,relative_roughness,friction_factor\n")
    for re in res:
        for rel in rels:
            v = exact(re, rel)
            if float(re) >= 1000:
                assert abs(Colebrook(float(re), float(rel)) / float(v) - 1) < 1e-12, (re, rel)
            f.write(f"{re},{rel},{mp.nstr(v, 17)}\n")
