"""Solves one problem, as a file of JSON describes it, and prints what it found and
how long it took, as JSON.

    run.py problem.json                 all starts, cold, with times
    run.py problem.json --starts 1      the first start alone
    run.py problem.json --states        loads in the problem's states, item by item
    run.py problem.json --profile       where the time goes, as a table, to standard error
"""

import argparse
import cProfile
import json
import os
import platform
import pstats
import sys
import time
import warnings

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one core; small matrices gain nothing from more

import numpy as np
import scipy

from trim import Trim

# SLSQP oversteps bounds by rounding; trim brings it back.
warnings.filterwarnings("ignore", "Values in x were outside bounds")

FEASIBLE = 1e-8  # the largest violation that an answer may carry


def states(trim):
    """Loads in each state: objective, rows, items about the datum."""
    out = []
    for s in trim.problem["States"]:
        x = np.array(s["X"])
        trim.balance.forget()
        value = trim.evaluate(x)
        loads = trim.balance.at(trim.state(x))[0]
        items = [{"Part": part, "Piece": piece, "Cause": cause,
                  "Force": total[0].tolist(), "Moment": total[1].tolist()}
                 for (part, piece, cause), total in loads.items().items()]
        equal = np.r_[np.ones(6, bool), trim.equal]
        out.append({"X": s["X"], "Objective": -trim.progress(x) / trim.wind_speed, "Equal": value[equal].tolist(),
                    "Inequal": value[~equal].tolist(), "Items": items})
    return out


def solve(trim, starts):
    """Searches from every start; times in seconds, by the clock and of the processor."""
    ends = []
    for start in starts:
        clock, cpu = time.perf_counter(), time.process_time()
        ends.append(trim.search(start))
        ends[-1]["Seconds"], ends[-1]["CPU"] = time.perf_counter() - clock, time.process_time() - cpu
    good = [e for e in ends if e["Violation"] <= FEASIBLE]
    return {"Seconds": sum(e["Seconds"] for e in ends), "CPU": sum(e["CPU"] for e in ends), "Ends": ends,
            "Best": max(good, key=lambda e: e["Progress"], default=None)}


def one_state(trim, x, repeat=50):
    """Seconds for all loads in one state whose geometry is new each time: the best
    of many."""
    best = float("inf")
    for k in range(repeat):
        moved = np.array(x)
        moved[2] += 1e-7 * k
        trim.balance.forget()
        begin = time.perf_counter()
        trim.evaluate(moved)
        best = min(best, time.perf_counter() - begin)
    return best


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("problem")
    parser.add_argument("--starts", type=int, default=0)
    parser.add_argument("--states", action="store_true")
    parser.add_argument("--profile", action="store_true")
    ask = parser.parse_args()
    with open(ask.problem, encoding="utf-8") as file:
        problem = json.load(file)
    trim = Trim(problem)
    if ask.states:
        json.dump({"States": states(trim)}, sys.stdout)
        return
    profile = cProfile.Profile() if ask.profile else None
    if profile:
        profile.enable()
    out = solve(trim, problem["Starts"][:ask.starts or None])
    if profile:
        profile.disable()
        pstats.Stats(profile, stream=sys.stderr).strip_dirs().sort_stats("tottime").print_stats(30)
    if out["Best"]:
        out["OneState"] = one_state(trim, out["Best"]["X"])
    out["Build"] = f"Python {platform.python_version()}, numpy {np.__version__}, SciPy {scipy.__version__}"
    json.dump(out, sys.stdout)


main()
