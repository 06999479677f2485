"""Standard uncertainties of nonlinear formulas with shared inputs, to first order, by the library `uncertainties`.

Run with Python 3.11 and requirements-uncertainty.txt:  python make_uncertainty.py > uncertainty.csv
"""

import csv
import sys

from uncertainties import ufloat, umath

INPUTS = {
    "a": (1.7, 0.02),
    "b": (0.8, 0.015),
    "c": (3.2, 0.05),
    "d": (0.35, 0.01),
    "e": (12.5, 0.2),
}

# As written in a sheet; ^ is a power there.
FORMULAS = """
a * b - a / c
(a + b) * (a - b) / (c + d)
a^2 * b^3 / c^4
sqrt(a^2 + b^2 + c^2)
exp(-a * d) * e
ln(e / a) - ln(c / b)
log10(e * c) / a
sin(a) * cos(b) + sin(b) * cos(a)
tan(d) - d * (1 + tan(d)^2)
a / (b + c / (d + e))
(a * e + b * c) / (a + b)
1 / (1 / a + 1 / b + 1 / c)
a^b
c^(a - b) - e^d
exp(a) / (1 + exp(a)) - d
sqrt(e) * ln(c + sqrt(c^2 - 1))
cbrt(e * a * c)
(e - c)^3 / (a + b)^2
a * exp(b * ln(c)) - d^a
sin(a * b * c)^2
cos(e / c) + sin(e / c)^2 / 2
(a - b) / (a + b) * (c - d) / (c + d)
e * (1 - d^(a - 1)) / (a - 1)
sqrt(a * b / (c * d)) - sqrt(c * d / (a * b))
ln(1 + a^2) / ln(1 + b^2)
e / sqrt(1 + (c / a)^2) + a * d
exp(-((a - b) / d)^2 / 2)
((a + b + c + d + e) / 5)^2 - (a^2 + b^2 + c^2 + d^2 + e^2) / 5
c * sqrt(2 * (a - b)) - d * sqrt((b - a)^2)
tan(d * a) / (d * a) + ln(tan(b))
""".strip().splitlines()


def main():
    values = {name: ufloat(*given) for name, given in INPUTS.items()}
    functions = {
        "sqrt": umath.sqrt,
        "exp": umath.exp,
        "ln": umath.log,
        "log10": umath.log10,
        "sin": umath.sin,
        "cos": umath.cos,
        "tan": umath.tan,
        "cbrt": lambda x: x ** (1 / 3),
    }
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow(["formula", "value", "standard"])
    for formula in FORMULAS:
        result = eval(formula.replace("^", "**"), {}, {**values, **functions})
        out.writerow([formula, repr(result.nominal_value), repr(result.std_dev)])


main()
