"""Makes hot_gas.csv: heat capacities of ideal gases beyond the upper temperature of the equations of state.

Run by hand, outside of the tests, with exactly these versions:
    pip install chemicals==1.5.2 pandas CoolProp==8.0.0
    python make_hot_gas.py

`janaf` and `trc`: tables and equations that the first library carries, to 1000 K and more (NIST-JANAF; TRC).
`earlier`: the ideal gas of an earlier equation of state of the same fluid (Richter et al. 2011 of R-1234yf, McLinden et al.
2010 of R-1234ze(E)), which the second library carries beside the one in use; fitted by others, and carried on in its own way.
"""

import json
import math
from pathlib import Path

import chemicals.heat_capacity as h
import CoolProp.CoolProp as second

h.Cp_data_Poling  # loads the tables
GASES = [
    ("R-32", "75-10-5"), ("R-134a", "811-97-2"), ("R-125", "354-33-6"), ("R-152a", "75-37-6"),
    ("R-143a", "420-46-2"), ("R-22", "75-45-6"), ("R-600a", "75-28-5"),
]
EARLIER = [("R-1234yf", "R1234yf"), ("R-1234ze(E)", "R1234ze(E)")]


def table(cas, t):
    if cas in h.Cp_dict_JANAF_gas:
        temperatures, values = h.Cp_dict_JANAF_gas[cas]
        return "janaf", dict(zip(temperatures, values))[float(t)]
    row = h.TRC_gas_data.loc[cas]
    return "trc", h.TRCCp(float(t), *(float(row[f"a{k}"]) for k in range(8)))


def earlier(name, t):
    equation = json.loads(second.get_fluid_param_string(name, "JSON"))[0]["EOS"][1]
    tau = equation["STATES"]["reducing"]["T"] / t
    cp = 1.0
    for term in equation["alpha0"]:
        if term["type"] == "IdealGasHelmholtzLogTau":
            cp += term["a"]
        elif term["type"] == "IdealGasHelmholtzPlanckEinstein":
            for n, theta in zip(term["n"], term["t"]):
                x = theta * tau
                cp += n * x * x * math.exp(x) / math.expm1(x) ** 2
        elif term["type"] not in ("IdealGasHelmholtzLead", "IdealGasHelmholtzEnthalpyEntropyOffset"):
            raise ValueError(term["type"])
    return cp * equation["gas_constant"]


def main():
    rows = ["refrigerant,temperature_K,kind,heat_capacity_J_mol_K"]
    for t in (300, 350, 400, 450, 500):
        rows += [f"{name},{t},{kind},{value:.5f}" for name, cas in GASES for kind, value in [table(cas, t)]]
        rows += [f"{name},{t},earlier,{earlier(fluid, t):.5f}" for name, fluid in EARLIER]
    (Path(__file__).parent / "hot_gas.csv").write_text("\n".join(rows) + "\n")
    print(len(rows))


main()
