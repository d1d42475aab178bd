"""Drives a problem that is served over standard input and output through
SciPy's SLSQP, from each of the starts given, and prints what it found.

First line in: a JSON object with lower, upper, scale, starts, equalities.
Then, for each evaluation, one line out ("? x0 x1 ...", scaled variables times
scale), one line in ("f e0 ... i0 ..."; empty where x has no value). Last line
out: "= " and a JSON list of objects with x, f, success, message, violation."""

import json
import sys

import numpy as np
from scipy.optimize import minimize

task = json.loads(sys.stdin.readline())
scale = np.array(task["scale"])
lower, upper = np.array(task["lower"]) / scale, np.array(task["upper"]) / scale
equalities = task["equalities"]
cache = {}


def values(y):
    y = np.clip(y, lower, upper)
    key = y.tobytes()
    if key not in cache:
        cache.clear()
        print("?", *(repr(float(v)) for v in y * scale), flush=True)
        line = sys.stdin.readline().split()
        cache[key] = np.array([float(v) for v in line]) if line else None
    v = cache[key]
    return np.full(task["values"], 1e3) if v is None else v


def slopes(y):
    """One-sided differences of all values, inside the bounds."""
    base = values(y).copy()
    rows = np.zeros((len(base), len(y)))
    for i in range(len(y)):
        if lower[i] == upper[i]:
            continue
        step = 1e-6 if y[i] + 1e-6 <= upper[i] else -1e-6
        z = y.copy()
        z[i] += step
        rows[:, i] = (values(z) - base) / step
    return rows


kept = {}


def jacobian(y):
    key = y.tobytes()
    if key not in kept:
        kept.clear()
        kept[key] = slopes(y)
    return kept[key]


found = []
for start in task["starts"]:
    y0 = np.clip(np.array(start) / scale, lower, upper)
    r = minimize(
        lambda y: values(y)[0], y0, jac=lambda y: jacobian(y)[0], method="SLSQP",
        bounds=list(zip(lower, upper)),
        constraints=[
            {"type": "eq", "fun": lambda y: values(y)[1:1 + equalities], "jac": lambda y: jacobian(y)[1:1 + equalities]},
            {"type": "ineq", "fun": lambda y: values(y)[1 + equalities:], "jac": lambda y: jacobian(y)[1 + equalities:]},
        ],
        options={"maxiter": 300, "ftol": 1e-9},
    )
    v = values(r.x)
    violation = max(np.abs(v[1:1 + equalities]).max(), (-v[1 + equalities:]).max(), 0.0)
    found.append({"f": float(v[0]), "success": bool(r.success), "message": str(r.message), "violation": float(violation), "iterations": int(r.nit)})
print("=", json.dumps(found), flush=True)
