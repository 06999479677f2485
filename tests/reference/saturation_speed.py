"""Times a general-purpose library at the inputs of `tests/benches/saturation.rs`.

Run by hand beside the bench, on the same machine in the same run, with exactly this version:
    pip install CoolProp==8.0.0
    python saturation_speed.py
Its low-level interface is called in a loop, and where it has a vectorised expansion, that too.
"""

import time

import CoolProp.CoolProp as library

COUNT = 2048
FLUIDS = {
    "R-32": [("R32", 1.0)],
    "R-410A": [("R32", 0.5), ("R125", 0.5)],
    "R-454B": [("R32", 0.689), ("R1234yf", 0.311)],
}
HIGHEST = {"R-32": 5782645.09, "R-410A": 4901230.76, "R-454B": 5303293.4}


# Dew temperatures at 200 kPa and at 97 % of the highest pressure, K.
TEMPERATURES = {"R-32": (235.82675, 349.81438), "R-410A": (236.15851, 343.07672), "R-454B": (238.23258, 350.22181)}


def spread():
    return [k * 0.6180339887498949 % 1 for k in range(COUNT)]


def state_json(fluid):
    return library.get_fluid_param_string(fluid, "JSON")


def best(run, repeats):
    times = []
    for _ in range(repeats):
        before = time.perf_counter()
        failures = run()
        times.append(time.perf_counter() - before)
    return min(times) / COUNT * 1e9, failures


for name, parts in FLUIDS.items():
    state = library.AbstractState("HEOS", "&".join(part for part, _ in parts))
    if len(parts) > 1:
        moles = [share / library.PropsSI("M", part) for part, share in parts]
        state.set_mole_fractions([m / sum(moles) for m in moles])
    low, high = 200e3, 0.97 * HIGHEST[name]
    pressures = [low * (high / low) ** x for x in spread()]

    def by_pressure():
        failures = 0
        for p in pressures:
            try:
                state.update(library.PQ_INPUTS, p, 1.0)
            except ValueError:
                failures += 1
        return failures

    cold, hot = TEMPERATURES[name]
    temperatures = [cold + (hot - cold) * x for x in spread()]

    def by_temperature():
        failures = 0
        for t in temperatures:
            try:
                state.update(library.QT_INPUTS, 1.0, t)
            except ValueError:
                failures += 1
        return failures

    repeats = 5 if len(parts) == 1 else 1
    for what, run in (("dew temperature of pressure", by_pressure),
                      ("dew pressure of temperature", by_temperature)):
        nanoseconds, failures = best(run, repeats)
        print(f"{name:8}{what}: {nanoseconds:.0f} ns a call, {failures} of {COUNT} not solved")
    if len(parts) == 1:
        import json

        import numpy

        expansion = library.SuperAncillary(json.dumps(json.loads(state_json(parts[0][0]))[0]["EOS"][0]["SUPERANCILLARY"]))
        given, out = numpy.array(temperatures), numpy.zeros(COUNT)
        nanoseconds, _ = best(lambda: expansion.eval_sat_many(given, "P", 1, out), 200)
        print(f"{name:8}dew pressure of temperature, its vectorised expansion: {nanoseconds:.0f} ns a call")
