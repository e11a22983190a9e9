"""Writes lines.csv: 360 random lines with the head that each loses, by the
functions of the fluids library for the same published methods: bores 10 to
150 mm, from creeping flow to Re 1e6. The entrance's laminar term is Hooper's
160/Re and those of tees that split are his of a tee that does not, for which
the library has no function."""

import math
import random
import fluids
from fluids.fittings import (
    Hooper, Hooper2K, Kv_to_K, contraction_conical_Crane, diffuser_conical_Crane,
    K_branch_diverging_Crane, K_run_converging_Crane, K_run_diverging_Crane,
)
from fluids.friction import Colebrook

random.seed(1981)
G = 9.80665
INCH = 0.0254
NAMES = {
    "bend45tight": "Elbow, 45°, Standard (R/D = 1), All types",
    "bend45wide": "Elbow, 45°, Long-radius (R/D 1.5), All types",
    "bend90tight": "Elbow, 90°, Standard (R/D = 1), Flanged/welded",
    "bend90wide": "Elbow, 90°, Long-radius (R/D = 1.5), All types",
    "bend180tight": "Elbow, 180°, Standard (R/D = 1), Flanged/welded",
    "bend180wide": "Elbow, 180°, Long-radius (R/D = 1.5), All types",
    "teebranch": "Elbow, Elbow, Standard, Flanged/welded",  # the library's label for a tee used as elbow
    "teerun": "Tee, Through, Flanged or welded",
    "ball": "Valve, Gate, Full line size, Beta = 1",
    "butterfly": "Valve, Butterfly,",
    "seat": "Valve, Globe, Angle or Y-type",
    "diaphragm": "Valve, Diaphragm, Dam type",
    "nonreturn": "Valve, Check, Swing",
}
SPLITS = ["teedrawn", "teeround", "teejoined"]
BORES = [0.0100, 0.0160, 0.0221, 0.0260, 0.0348, 0.0380, 0.0475, 0.0500, 0.0602, 0.0729, 0.0974, 0.1250, 0.1500]


def hooper(kind, bore, re):
    key = next(k for k in Hooper if k.strip().rstrip(",") == NAMES[kind].strip().rstrip(","))
    return Hooper2K(Di=bore / INCH, Re=re, name=key)


def head(kind, bore, other, amount, rho, mu, flow):
    small = min(bore, other) if kind in ("reducer", "step") else bore
    v = flow / (math.pi / 4 * small**2)
    re = rho * v * small / mu
    if kind in ("tube", "hose"):
        rough = 5.863 * 0.8e-6 if kind == "tube" else 0.01e-3
        if 2000 < re < 4000:
            return None
        f = 64 / re if re <= 2000 else Colebrook(re, rough / bore)
        k = f * amount / bore
    elif kind == "reducer":
        angle = 2 * math.degrees(math.atan(abs(bore - other) / (2 * amount)))
        k = (contraction_conical_Crane if other < bore else diffuser_conical_Crane)(Di1=bore, Di2=other, angle=angle)
    elif kind == "step":
        k = (contraction_conical_Crane if other < bore else diffuser_conical_Crane)(Di1=bore, Di2=other, angle=180)
    elif kind == "kv":
        k = Kv_to_K(amount, bore)
    elif kind == "teedrawn":
        k = 150 / re + K_run_diverging_Crane(D_run=bore, D_branch=bore, Q_run=1 - amount, Q_branch=amount, angle=90)
    elif kind == "teejoined":
        k = 150 / re + K_run_converging_Crane(D_run=bore, D_branch=bore, Q_run=1 - amount, Q_branch=amount, angle=90)
    elif kind == "teeround":
        k = 800 / re + K_branch_diverging_Crane(D_run=bore, D_branch=bore, Q_run=amount, Q_branch=1 - amount, angle=90)
    elif kind == "entrance":
        k = 0.5 + 160 / re
    elif kind == "exit":
        k = 1.0
    else:
        k = hooper(kind, bore, re)
    return k * v * v / (2 * G)


with open("lines.csv", "w") as f:
    f.write("# Head lost in random lines, m. Friction: 64/Re to Re 2000, fluids.friction.Colebrook from 4000 (lines with a straight between are left out).\n")
    f.write("# Fittings: fluids.fittings.Hooper2K, contraction_conical_Crane, diffuser_conical_Crane, the tees of Crane, Kv_to_K; entrance 0.5 + 160/Re; exit 1.\n")
    f.write(f"# fluids {fluids.__version__}. Made by make_lines.py. Elements are kind:bore:other bore:length, metres.\n")
    f.write("density,viscosity,flow,elements,head\n")
    rows = 0
    while rows < 360:
        rho = random.uniform(950, 1200)
        bore = random.choice(BORES)
        # The Reynolds number of the first bore sets the liquid: every regime has its share.
        re = math.exp(random.uniform(math.log(1), math.log(1e6)))
        flow = random.uniform(0.05, 2.5) * math.pi / 4 * bore**2
        mu = rho * flow / (math.pi / 4 * bore**2) * bore / re
        elements = [("entrance", bore, bore, 0)]
        for _ in range(random.randint(1, 18)):
            kind = random.choice(["tube", "tube", "tube", "hose", "reducer", "reducer", "step", "kv"] + SPLITS + list(NAMES))
            other, amount = bore, 0.0
            if kind in ("tube", "hose"):
                amount = round(random.uniform(0.05, 6), 3)
            if kind in SPLITS:
                amount = round(random.uniform(0.02, 0.9), 3)
            if kind == "kv":
                amount = round(random.uniform(3e3, 5e4) * bore**2, 3)
            if kind in ("reducer", "step"):
                other = random.choice([b for b in BORES if b != bore and 0.5 < b / bore < 2])
                amount = round(random.uniform(0.01, 0.15), 4) if kind == "reducer" else 0.0
            elements.append((kind, bore, other, amount))
            bore = other
        elements.append(("exit", bore, bore, 0))
        heads = [head(*e, rho, mu, flow) for e in elements]
        if None in heads:
            continue
        text = " ".join(":".join(str(x) for x in e) for e in elements)
        f.write(f"{rho!r},{mu!r},{flow!r},{text},{sum(heads)!r}\n")
        rows += 1
