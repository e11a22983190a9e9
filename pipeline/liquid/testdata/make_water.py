"""Makes water.csv, the table that water_test.go compares with.

    python3 make_water.py > water.csv

Needs the Python package iapws (Debian: python3-iapws). Densities are at
101.325 kPa, and at saturation where water would boil under that.
"""

from iapws import IAPWS95, __version__
from iapws._iapws import _Viscosity
from iapws.iapws97 import _PSat_T, _Region1

ATMOSPHERE = 0.101325  # MPa

print(f"# Water from 1 to 150 degrees Celsius by the Python package iapws {__version__}.")
print("# Made by: python3 make_water.py > water.csv")
print("# if97 columns: IAPWS R7-97 regions 1 and 4; viscosity: IAPWS R12-08, mu2 = 1, at the if97 density;")
print("# 95 columns: IAPWS R6-95, a formulation of its own, against which IF97 was fitted.")
print("celsius,density_if97_kg_m3,viscosity_Pa_s,saturation_if97_Pa,density_95_kg_m3,saturation_95_Pa")
for celsius in [1, 4, *range(5, 100, 5), 98, 99, *range(100, 151, 5)]:
    kelvin = celsius + 273.15
    saturation = _PSat_T(kelvin)
    density = 1 / _Region1(kelvin, max(ATMOSPHERE, saturation))["v"]
    boiling = IAPWS95(T=kelvin, x=0)
    other = boiling.rho if saturation > ATMOSPHERE else IAPWS95(T=kelvin, P=ATMOSPHERE).rho
    print(f"{celsius},{density:.9f},{_Viscosity(density, kelvin):.12e},{saturation * 1e6:.6f},{other:.6f},{boiling.P * 1e6:.4f}")
