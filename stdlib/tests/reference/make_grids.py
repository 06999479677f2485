"""Makes the reference grids that the tests compare against, from two general-purpose libraries.

Run by hand, outside of the tests, with exactly these versions:
    pip install CoolProp==8.0.0 teqp==0.23.2
    python make_grids.py

saturation.csv: pressure and density on both lines at temperatures over each refrigerant's range,
    from the first library. `unsolved` is how far that library's two phases are from equilibrium
    by its own equations: the largest relative difference of pressures and component fugacities.
    `second_library_difference` is how much the second library's pressure differs at the first
    one's vapour density and composition. For some fluids and pairs it holds other coefficients,
    and differs by as much as those do.
states.csv: pressure, heat capacity, speed of sound at a temperature and a density; and enthalpy
    and entropy less those at the refrigerant's first row, which no reference state changes.

`failed` stands where a library finds no solution; the tests pass over such a value.
"""

import math
from pathlib import Path

import CoolProp.CoolProp as first
import teqp as second

HERE = Path(__file__).parent
LIST = HERE.parent.parent / "data" / "refrigerants.tsv"

NAMES = {
    "R-290": "n-Propane", "R-600": "n-Butane", "R-600a": "IsoButane", "R-601a": "Isopentane",
    "R-717": "Ammonia", "R-718": "Water", "R-744": "CarbonDioxide", "R-1270": "Propylene",
    "R-152a": "R152A", "R-227ea": "R227EA", "R-236ea": "R236EA", "R-236fa": "R236FA",
    "R-C318": "RC318",
}
BLENDS = """R-404A R-407A R-407C R-407F R-410A R-417A R-421A R-422D R-427A
R-433A R-436A R-442A R-444B R-448A R-449A R-450A R-452A R-452B R-454A R-454B R-454C R-455A R-457A
R-466A R-469A R-471A R-474A R-507A R-513A R-515B R-516A""".split()


def name_of(designation):
    return NAMES.get(designation, designation.replace("R-", "R", 1))


def listed():
    for line in LIST.read_text().splitlines():
        if line.startswith("#"):
            continue
        designation, _, _, parts = line.split("\t")
        if parts == "pure":
            yield designation, [(designation, 1.0)]
        elif designation in BLENDS:
            shares = [part.rsplit(" ", 1) for part in parts.split("; ")]
            yield designation, [(name, float(share) / 100) for name, share in shares]


def model(parts):
    names = [name_of(name) for name, _ in parts]
    state = first.AbstractState("HEOS", "&".join(names))
    moles = [1.0]
    if len(parts) > 1:
        moles = [share / first.PropsSI("M", name) for name, (_, share) in zip(names, parts)]
        moles = [m / sum(moles) for m in moles]
        state.set_mole_fractions(moles)
    return names, moles, state


def second_model(names):
    try:
        return second.build_multifluid_model(names, second.get_datapath())
    except Exception:
        return None


def try_or_failed(value):
    try:
        result = value()
        return result if math.isfinite(result) else "failed"
    except Exception:
        return "failed"


def unsolved(names, state, mixed):
    """How far the first library's two phases are from equilibrium."""
    phases = []
    for key, fractions in ((first.iDmolar, "liquid"), (first.iDmolar, "vapor")):
        one = first.AbstractState("HEOS", "&".join(names))
        liquid = fractions == "liquid"
        if mixed:
            one.set_mole_fractions(
                state.mole_fractions_liquid() if liquid else state.mole_fractions_vapor())
        one.specify_phase(first.iphase_gas)
        saturated = state.saturated_liquid_keyed_output if liquid else state.saturated_vapor_keyed_output
        one.update(first.DmolarT_INPUTS, saturated(key), state.T())
        logs = [math.log(one.fugacity(i)) for i in range(len(names))] if mixed else [
            math.log(one.rhomolar()) + one.alphar() + one.delta() * one.dalphar_dDelta()]
        phases.append((one.p(), logs))
    (_, liquid), (p, vapor) = phases
    return max([abs(p / state.p() - 1)] + [abs(a - b) for a, b in zip(liquid, vapor)])


def difference(other, state, vapor, r):
    """Relative difference of the second library's pressure at the first one's vapour."""
    import numpy as np

    rho, y = vapor
    y = np.array(y)
    t = state.T()
    p = rho * r * t * (1.0 + other.get_Ar01(t, rho, y))
    return p / state.p() - 1.0


def main():
    first.set_config_bool(first.ENABLE_SUPERANCILLARIES, False)
    saturation = ["refrigerant,line,temperature_K,pressure_Pa,density_kg_m3,unsolved,second_library_difference"]
    states = ["refrigerant,temperature_K,density_kg_m3,pressure_Pa,heat_capacity_J_kg_K,"
              "sound_speed_m_s,enthalpy_difference_J_kg,entropy_difference_J_kg_K"]
    for designation, parts in listed():
        try:
            names, moles, state = model(parts)
        except Exception as error:
            print(designation, error)
            continue
        other = second_model(names)
        r = state.gas_constant()
        lowest = max(first.PropsSI("Tmin", name) for name in names)
        hot = try_or_failed(state.T_critical)
        if hot == "failed":
            hot = sum(x * first.PropsSI("Tcrit", name) for x, name in zip(moles, names))
        for k in range(16):
            # Towards the critical point in smaller steps.
            t = hot - (hot - lowest * 1.001) * (0.003 + 0.997 * (1 - k / 15) ** 2)
            for line, quality in (("bubble", 0.0), ("dew", 1.0)):
                def pressure():
                    state.update(first.QT_INPUTS, quality, t)
                    return state.p()

                p = try_or_failed(pressure)
                if p == "failed":
                    saturation.append(f"{designation},{line},{t!r},failed,failed,,")
                    continue
                vapor = (state.saturated_vapor_keyed_output(first.iDmolar),
                         state.mole_fractions_vapor() if len(parts) > 1 else [1.0])
                left = try_or_failed(lambda: unsolved(names, state, len(parts) > 1))
                left = left if left == "failed" else f"{left:.1e}"
                apart = ""
                if other is not None:
                    apart = try_or_failed(lambda: difference(other, state, vapor, r))
                    apart = apart if apart == "failed" else f"{apart:.1e}"
                saturation.append(f"{designation},{line},{t!r},{p!r},{state.rhomass()!r},{left},{apart}")
        base = None
        middle = state.rhomass_reducing() if len(parts) == 1 else (
            state.rhomolar_reducing() * state.molar_mass())
        reducing = state.T_reducing()
        for tau, delta in ((1.3, 0.002), (1.15, 0.01), (1.35, 2.9), (0.9, 0.4), (0.85, 1.3), (0.9, 2.2)):
            t, rho = reducing / tau, middle * delta
            state.specify_phase(first.iphase_gas)
            state.update(first.DmassT_INPUTS, rho, t)
            state.unspecify_phase()
            if base is None:
                base = (state.hmass(), state.smass())
            row = [t, rho, state.p(), state.cpmass(), state.speed_sound(),
                   state.hmass() - base[0], state.smass() - base[1]]
            states.append(designation + "," + ",".join(repr(value) for value in row))
    (HERE / "saturation.csv").write_text("\n".join(saturation) + "\n")
    (HERE / "states.csv").write_text("\n".join(states) + "\n")
    print(len(saturation), len(states))


main()
