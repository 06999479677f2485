"""Makes the grids that the trade functions are held against, from three general-purpose open libraries.

    pip install -r requirements-trade.txt
    python make_trade.py

water.csv: vapour pressure of water and ice (IAPWS R7-97 and R14-08) by `iapws`.
moist-air.csv: moist air by dry bulb, relative humidity and pressure, by `PsychroLib` (ASHRAE Fundamentals 2017, ch. 1).
    Its vapour pressure is Hyland and Wexler's, so humidity agrees within some 3e-4.
friction.csv: Darcy friction factor by Colebrook's equation, by `fluids`.
"""

import csv
from pathlib import Path

import fluids
import psychrolib
from iapws.iapws97 import _PSat_T
from iapws._iapws import _Sublimation_Pressure

HERE = Path(__file__).parent


def write(name, head, rows):
    with open(HERE / name, "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(head)
        writer.writerows([f"{value:.10g}" for value in row] for row in rows)


def water():
    # The triple point is where both formulas meet; 0 to 0.01 degC is left out.
    for celsius in [*range(-60, 0, 4), *range(1, 121, 7)]:
        t = celsius + 273.15
        p = _Sublimation_Pressure(t) if celsius < 0 else _PSat_T(t)
        yield t, p * 1e6


def moist_air():
    psychrolib.SetUnitSystem(psychrolib.SI)
    for pressure in (101325.0, 84556.0, 70108.0):
        for dry in (-10.0, 2.0, 10.0, 20.0, 27.0, 35.0, 45.0):
            for share in (0.1, 0.3, 0.5, 0.7, 0.9):
                ratio = psychrolib.GetHumRatioFromRelHum(dry, share, pressure)
                yield (
                    dry + 273.15, share, pressure, ratio,
                    psychrolib.GetMoistAirEnthalpy(dry, ratio),
                    psychrolib.GetMoistAirVolume(dry, ratio, pressure),
                    psychrolib.GetTDewPointFromHumRatio(dry, ratio, pressure) + 273.15,
                    psychrolib.GetTWetBulbFromHumRatio(dry, ratio, pressure) + 273.15,
                )


def friction():
    for reynolds in (300.0, 1500.0, 4000.0, 1e4, 3e4, 1e5, 3e5, 1e6, 1e7):
        for roughness in (0.0, 1e-5, 1e-4, 1e-3, 1e-2):
            yield reynolds, roughness, fluids.friction_factor(reynolds, roughness, Method="Colebrook")


write("water.csv", ["temperature", "pressure"], water())
write(
    "moist-air.csv",
    ["dry_bulb", "relative_humidity", "pressure", "humidity_ratio", "enthalpy", "volume", "dew_point", "wet_bulb"],
    moist_air(),
)
write("friction.csv", ["reynolds", "roughness", "factor"], friction())
