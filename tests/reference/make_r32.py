"""Makes r32-saturation.csv and r32-states.csv with a general-purpose property library.

Run outside the repository:

    python3 -m venv /tmp/reference && /tmp/reference/bin/pip install -r requirements.txt
    /tmp/reference/bin/python make_r32.py

The library's fitted saturation curves are switched off, so that the phase equilibrium of the published
equation itself (Tillner-Roth & Yokozeki 1997) is solved.
"""

import csv
import pathlib

import CoolProp
import CoolProp.CoolProp as cp

HERE = pathlib.Path(__file__).parent
# Saturation curves fitted by the library would be near the equation, not on it.
cp.set_config_bool(cp.ENABLE_SUPERANCILLARIES, False)


def saturation():
    state = CoolProp.AbstractState("HEOS", "R32")
    for step in range(0, 29):
        temperature = 200.0 + 5.0 * step
        state.update(CoolProp.QT_INPUTS, 0.0, temperature)
        liquid = (state.p(), state.rhomass(), state.hmass(), state.smass(), state.cpmass(), state.speed_sound())
        state.update(CoolProp.QT_INPUTS, 1.0, temperature)
        vapour = (state.rhomass(), state.hmass(), state.smass(), state.cpmass(), state.speed_sound())
        yield (temperature, *liquid, *vapour)


def states():
    state = CoolProp.AbstractState("HEOS", "R32")
    for temperature in (220.0, 260.0, 300.0, 340.0, 360.0, 400.0):
        for pressure in (5e4, 5e5, 2e6, 8e6, 3e7):
            state.update(CoolProp.PT_INPUTS, pressure, temperature)
            yield (temperature, pressure, state.rhomass(), state.hmass(), state.smass(), state.cpmass(),
                   state.speed_sound())


def reference_enthalpy():
    """Enthalpy and entropy of saturated liquid at 0 °C, which the project sets to 200 kJ/kg and 1 kJ/(kg·K)."""
    state = CoolProp.AbstractState("HEOS", "R32")
    state.update(CoolProp.QT_INPUTS, 0.0, 273.15)
    return state.hmass() - 200e3, state.smass() - 1e3


def write(name, header, rows, shifts):
    with open(HERE / name, "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        for row in rows:
            writer.writerow([repr(value - shifts.get(column, 0.0)) for column, value in zip(header, row)])


def main():
    enthalpy, entropy = reference_enthalpy()
    shifts = {"h": enthalpy, "h_liquid": enthalpy, "h_vapor": enthalpy,
              "s": entropy, "s_liquid": entropy, "s_vapor": entropy}
    write("r32-saturation.csv",
          ["t", "p", "rho_liquid", "h_liquid", "s_liquid", "cp_liquid", "w_liquid",
           "rho_vapor", "h_vapor", "s_vapor", "cp_vapor", "w_vapor"], saturation(), shifts)
    write("r32-states.csv", ["t", "p", "rho", "h", "s", "cp", "w"], states(), shifts)


if __name__ == "__main__":
    main()
