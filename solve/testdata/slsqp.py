# Solves a set of Hock and Schittkowski (1981) problems with SciPy's SLSQP and
# prints, as JSON, the least objective and the largest violation of each.
import json
from math import exp, inf, log, sin, sqrt

import numpy as np
from scipy.optimize import minimize


def ring(x):
    return [x @ x - 10, x[1] * x[2] - 5 * x[3] * x[4], x[0] ** 3 + x[1] ** 3 + 1]


def process(x):
    return x[0] * x[3] * (x[0] + x[1] + x[2]), x[1] * x[2] * (x[0] + 1.57 * x[1] + x[3])


GIBBS = np.array([-6.089, -17.164, -34.054, -5.914, -24.721, -14.986, -24.100, -10.708, -26.662, -22.179])
BOX = [(-2.3, 2.3)] * 2 + [(-3.2, 3.2)] * 3

# number: start, objective, equalities, inequalities, bounds
PROBLEMS = {
    6: ([-1.2, 1], lambda x: (1 - x[0]) ** 2, lambda x: [10 * (x[1] - x[0] ** 2)], None, None),
    7: ([2, 2], lambda x: log(1 + x[0] ** 2) - x[1], lambda x: [(1 + x[0] ** 2) ** 2 + x[1] ** 2 - 4], None, None),
    21: ([2, -1], lambda x: 0.01 * x[0] ** 2 + x[1] ** 2 - 100, None, lambda x: [10 * x[0] - x[1] - 10], [(2, 50), (-50, 50)]),
    28: ([-4, 1, 1], lambda x: (x[0] + x[1]) ** 2 + (x[1] + x[2]) ** 2, lambda x: [x[0] + 2 * x[1] + 3 * x[2] - 1], None, None),
    35: ([0.5] * 3, lambda x: 9 - 8 * x[0] - 6 * x[1] - 4 * x[2] + 2 * x[0] ** 2 + 2 * x[1] ** 2 + x[2] ** 2 + 2 * x[0] * x[1] + 2 * x[0] * x[2],
         None, lambda x: [3 - x[0] - x[1] - 2 * x[2]], [(0, inf)] * 3),
    39: ([2] * 4, lambda x: -x[0], lambda x: [x[1] - x[0] ** 3 - x[2] ** 2, x[0] ** 2 - x[1] - x[3] ** 2], None, None),
    43: ([0] * 4, lambda x: x[0] ** 2 + x[1] ** 2 + 2 * x[2] ** 2 + x[3] ** 2 - 5 * x[0] - 5 * x[1] - 21 * x[2] + 7 * x[3], None,
         lambda x: [8 - x @ x - x[0] + x[1] - x[2] + x[3],
                    10 - x[0] ** 2 - 2 * x[1] ** 2 - x[2] ** 2 - 2 * x[3] ** 2 + x[0] + x[3],
                    5 - 2 * x[0] ** 2 - x[1] ** 2 - x[2] ** 2 - 2 * x[0] + x[1] + x[3]], None),
    63: ([2] * 3, lambda x: 1000 - x[0] ** 2 - 2 * x[1] ** 2 - x[2] ** 2 - x[0] * x[1] - x[0] * x[2],
         lambda x: [8 * x[0] + 14 * x[1] + 7 * x[2] - 56, x @ x - 25], None, [(0, inf)] * 3),
    65: ([-4.5, 4.5, 0], lambda x: (x[0] - x[1]) ** 2 + (x[0] + x[1] - 10) ** 2 / 9 + (x[2] - 5) ** 2, None,
         lambda x: [48 - x @ x], [(-4.5, 4.5)] * 2 + [(-5, 5)]),
    71: ([1, 5, 5, 1], lambda x: x[0] * x[3] * (x[0] + x[1] + x[2]) + x[2], lambda x: [x @ x - 40],
         lambda x: [np.prod(x) - 25], [(1, 5)] * 4),
    76: ([0.5] * 4, lambda x: x[0] ** 2 + 0.5 * x[1] ** 2 + x[2] ** 2 + 0.5 * x[3] ** 2 - x[0] * x[2] + x[2] * x[3] - x[0] - 3 * x[1] + x[2] - x[3],
         None, lambda x: [5 - x[0] - 2 * x[1] - x[2] - x[3], 4 - 3 * x[0] - x[1] - 2 * x[2] + x[3], x[1] + 4 * x[2] - 1.5], [(0, inf)] * 4),
    77: ([2] * 5, lambda x: (x[0] - 1) ** 2 + (x[0] - x[1]) ** 2 + (x[2] - 1) ** 2 + (x[3] - 1) ** 4 + (x[4] - 1) ** 6,
         lambda x: [x[0] ** 2 * x[3] + sin(x[3] - x[4]) - 2 * sqrt(2), x[1] + x[2] ** 4 * x[3] ** 2 - 8 - sqrt(2)], None, None),
    78: ([-2, 1.5, 2, -1, -1], lambda x: np.prod(x), ring, None, None),
    79: ([2] * 5, lambda x: (x[0] - 1) ** 2 + (x[0] - x[1]) ** 2 + (x[1] - x[2]) ** 2 + (x[2] - x[3]) ** 4 + (x[3] - x[4]) ** 4,
         lambda x: [x[0] + x[1] ** 2 + x[2] ** 3 - 2 - 3 * sqrt(2), x[1] - x[2] ** 2 + x[3] + 2 - 2 * sqrt(2), x[0] * x[4] - 2], None, None),
    80: ([-2, 2, 2, -1, -1], lambda x: exp(np.prod(x)), ring, None, BOX),
    81: ([-2, 2, 2, -1, -1], lambda x: exp(np.prod(x)) - 0.5 * ring(x)[2] ** 2, ring, None, BOX),
    93: ([5.54, 4.4, 12.02, 11.82, 0.702, 0.852],
         lambda x: 0.0204 * process(x)[0] + 0.0187 * process(x)[1] + 0.0607 * process(x)[0] * x[4] ** 2 + 0.0437 * process(x)[1] * x[5] ** 2,
         None, lambda x: [0.001 * np.prod(x) - 2.07, 1 - 0.00062 * process(x)[0] * x[4] ** 2 - 0.00058 * process(x)[1] * x[5] ** 2], [(0, inf)] * 6),
    100: ([1, 2, 0, 4, 0, 1, 1],
          lambda x: (x[0] - 10) ** 2 + 5 * (x[1] - 12) ** 2 + x[2] ** 4 + 3 * (x[3] - 11) ** 2 + 10 * x[4] ** 6 + 7 * x[5] ** 2 + x[6] ** 4
          - 4 * x[5] * x[6] - 10 * x[5] - 8 * x[6], None,
          lambda x: [127 - 2 * x[0] ** 2 - 3 * x[1] ** 4 - x[2] - 4 * x[3] ** 2 - 5 * x[4],
                     282 - 7 * x[0] - 3 * x[1] - 10 * x[2] ** 2 - x[3] + x[4],
                     196 - 23 * x[0] - x[1] ** 2 - 6 * x[5] ** 2 + 8 * x[6],
                     -4 * x[0] ** 2 - x[1] ** 2 + 3 * x[0] * x[1] - 2 * x[2] ** 2 - 5 * x[5] + 11 * x[6]], None),
    111: ([-2.3] * 10, lambda x: np.exp(x) @ (GIBBS + x - log(np.exp(x).sum())),
          lambda x: [exp(x[0]) + 2 * exp(x[1]) + 2 * exp(x[2]) + exp(x[5]) + exp(x[9]) - 2,
                     exp(x[3]) + 2 * exp(x[4]) + exp(x[5]) + exp(x[6]) - 1,
                     exp(x[2]) + exp(x[6]) + exp(x[7]) + 2 * exp(x[8]) + exp(x[9]) - 1], None, [(-100, 100)] * 10),
    113: ([2, 3, 5, 5, 1, 2, 7, 3, 6, 10],
          lambda x: x[0] ** 2 + x[1] ** 2 + x[0] * x[1] - 14 * x[0] - 16 * x[1] + (x[2] - 10) ** 2 + 4 * (x[3] - 5) ** 2 + (x[4] - 3) ** 2
          + 2 * (x[5] - 1) ** 2 + 5 * x[6] ** 2 + 7 * (x[7] - 11) ** 2 + 2 * (x[8] - 10) ** 2 + (x[9] - 7) ** 2 + 45, None,
          lambda x: [105 - 4 * x[0] - 5 * x[1] + 3 * x[6] - 9 * x[7],
                     -10 * x[0] + 8 * x[1] + 17 * x[6] - 2 * x[7],
                     8 * x[0] - 2 * x[1] - 5 * x[8] + 2 * x[9] + 12,
                     -3 * (x[0] - 2) ** 2 - 4 * (x[1] - 3) ** 2 - 2 * x[2] ** 2 + 7 * x[3] + 120,
                     -5 * x[0] ** 2 - 8 * x[1] - (x[2] - 6) ** 2 + 2 * x[3] + 40,
                     -0.5 * (x[0] - 8) ** 2 - 2 * (x[1] - 4) ** 2 - 3 * x[4] ** 2 + x[5] + 30,
                     -x[0] ** 2 - 2 * (x[1] - 2) ** 2 + 2 * x[0] * x[1] - 14 * x[4] + 6 * x[5],
                     3 * x[0] - 6 * x[1] - 12 * (x[8] - 8) ** 2 + 7 * x[9]], None),
}

answers = []
for number, (start, objective, equal, inequal, bounds) in PROBLEMS.items():
    constraints = []
    if equal:
        constraints.append({"type": "eq", "fun": lambda x, f=equal: np.array(f(x))})
    if inequal:
        constraints.append({"type": "ineq", "fun": lambda x, f=inequal: np.array(f(x))})
    best = minimize(objective, np.array(start, float), method="SLSQP", bounds=bounds, constraints=constraints,
                    options={"maxiter": 1000, "ftol": 1e-13})
    missed = 0.0
    if equal:
        missed = max(missed, np.abs(equal(best.x)).max())
    if inequal:
        missed = max(missed, -np.min(inequal(best.x)))
    answers.append({"problem": number, "optimum": float(best.fun), "violation": float(missed),
                    "evaluations": int(best.nfev), "gradients": int(best.njev)})
print(json.dumps(answers))
