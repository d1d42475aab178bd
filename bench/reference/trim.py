"""One best trim: SciPy's SLSQP (Kraft 1988) over the boat's equations.

Variables are scaled, all functions come out of one evaluation, slopes are
one-sided differences that share what the variable leaves alone, and the
objective's slope is written out."""

import math

import numpy as np
from scipy.optimize import minimize

from balance import Balance, State

# Kinds of variable and figures of constraints, as the problem names them.
KINDS = SPEED, LEEWAY, HEEL, PITCH, HEIGHT, ANGLE = "speed", "leeway", "heel", "pitch", "height", "true wind angle"
CONTROL = "control"
FIGURES = RIDE_HEIGHT, HULL_POINT, TIP_DEPTH, LIFT_IN_HAND, LIFT, SHEET_LOAD, CAVITATION = (
    "ride height", "height of a point of the hull", "tip depth", "lift in hand", "lift", "sheet load", "cavitation margin")


# What SLSQP counts in, found by trial: its first guess at the curvature is one in
# every variable. With the progress in units of the wind's speed and the variables in
# those of their usual steps it takes 90 iterations from the first start; with
# thousandths of the one and three times the other, 14, to the same optimum.
PROGRESS_UNIT = 1e-3
STEP_UNIT = 3.0


class Trim:
    """A way of sailing one boat as a problem of optimisation."""

    def __init__(self, problem):
        self.problem, self.balance = problem, Balance(problem)
        unknowns = problem["Unknowns"]
        self.kind = np.array([v["Kind"] for v in unknowns])
        self.control = np.array([v["Control"] for v in unknowns])
        usual = np.array([v["Scale"] for v in unknowns])
        self.scale, self.step = STEP_UNIT * usual, problem["Options"]["Difference"] * usual
        self.lower = np.array([v["Lower"] for v in unknowns])
        self.upper = np.array([v["Upper"] for v in unknowns])
        self.place = {kind: int(np.flatnonzero(self.kind == kind)[0]) for kind in KINDS}
        self.controls = np.flatnonzero(self.kind == CONTROL)
        self.settings = np.array(problem["Settings"])
        self.wind_speed = problem["Unit"]
        self.unit = PROGRESS_UNIT * problem["Unit"]
        self.read_rows(problem["Rows"])
        self.hull_points(problem["Boat"]["Hulls"] or [])
        self.evaluations = self.slopes_taken = 0
        self.x = self.slopes_at = None

    def read_rows(self, rows):
        self.figure = np.array([r["Figure"] for r in rows])
        upper = np.array([r["Lower"] is None for r in rows])
        bound = np.array([r["Upper"] if r["Lower"] is None else r["Lower"] for r in rows])
        size = np.array([r["Size"] for r in rows])
        self.equal = np.array([r["Lower"] is not None and r["Lower"] == r["Upper"] for r in rows])
        sign = np.where(upper, -1, 1)
        self.row_bound, self.row_factor = bound, sign / size
        of = lambda figure: np.flatnonzero(self.figure == figure)
        self.rows = {figure: of(figure) for figure in FIGURES}
        index = self.balance.foils.index
        on_foils = np.isin(self.figure, (TIP_DEPTH, CAVITATION))
        self.piece = np.array([index[r["Foil"], r["Piece"]] if on else 0 for r, on in zip(rows, on_foils)])
        self.strip = np.array([r["Strip"] for r in rows])
        self.sail = np.array([r["Sail"] for r in rows])
        self.point = np.array([r["Point"] for r in rows])

    def hull_points(self, hulls):
        points = [(s["X"] + h["Offset"]["x"], side * p[0] + h["Offset"]["y"], p[1] + h["Offset"]["z"])
                  for h in hulls for s in h["Sections"] for p in s["Points"] for side in (1, -1)]
        self.hull = np.array(points or [(0, 0, 0)], dtype=float)

    def state(self, x):
        settings = self.settings.copy()
        settings[self.control[self.controls]] = x[self.controls]
        at = {kind: float(x[i]) for kind, i in self.place.items()}
        return State(at[SPEED], at[LEEWAY], at[HEEL], at[PITCH], at[HEIGHT], at[ANGLE], settings)

    def constraints_at(self, s, g, w, margins):
        """Every row, at least zero where it holds."""
        value = np.empty(len(self.figure))
        up = s.turn[2]
        fill = lambda figure, values: value.__setitem__(self.rows[figure], values)
        fill(RIDE_HEIGHT, s.height + (self.hull @ up).min())
        fill(HULL_POINT, s.height + self.point[self.rows[HULL_POINT]] @ up)
        fill(TIP_DEPTH, self.balance.foils.tip_depths(g.pose)[self.piece[self.rows[TIP_DEPTH]]])
        in_hand, lift, sheet_load = margins
        for figure, margin in ((LIFT_IN_HAND, in_hand), (LIFT, lift)):
            rows = self.rows[figure]
            fill(figure, margin[self.sail[rows], self.strip[rows]])
        fill(SHEET_LOAD, sheet_load[self.sail[self.rows[SHEET_LOAD]]])
        rows = self.rows[CAVITATION]
        if len(rows):
            fill(CAVITATION, self.balance.foils.cavitation(g, w)[self.piece[rows], self.strip[rows]])
        return (value - self.row_bound) * self.row_factor

    def evaluate(self, x):
        """Equations and rows at x: equalities first."""
        s = self.state(x)
        loads, g, w, margins = self.balance.at(s)
        return np.concatenate([self.balance.residual(loads), self.constraints_at(s, g, w, margins)])

    def values(self, x):
        if self.x is None or not np.array_equal(x, self.x):
            self.balance.forget()
            self.evaluations += 1
            self.x, self.value = x.copy(), self.evaluate(x)
        return self.value

    def slopes(self, x):
        """One-sided differences of all equations and rows, (row, variable)."""
        if self.slopes_at is None or not np.array_equal(x, self.slopes_at):
            base = self.values(x)
            self.slopes_taken += 1
            slope = np.zeros((len(base), len(x)))
            for i in np.flatnonzero(self.lower < self.upper):
                step = self.step[i]
                if x[i] + step > self.upper[i]:
                    step = -step
                moved = x.copy()
                moved[i] += step
                slope[:, i] = (self.evaluate(moved) - base) / (moved[i] - x[i])
            self.slopes_at, self.slope = x.copy(), slope
        return self.slope

    def progress(self, x):
        return x[self.place[SPEED]] * math.cos(x[self.place[ANGLE]])

    def progress_slopes(self, x):
        out = np.zeros(len(x))
        speed, angle = self.place[SPEED], self.place[ANGLE]
        out[speed], out[angle] = math.cos(x[angle]), -x[speed] * math.sin(x[angle])
        return out

    def search(self, start):
        """SLSQP from one start."""
        count = self.evaluations, self.slopes_taken
        scale, low, high = self.scale, self.lower / self.scale, self.upper / self.scale
        of = lambda y: np.clip(y, low, high) * scale
        equal = np.r_[np.ones(6, bool), self.equal]
        constraint = lambda kind, which: {
            "type": kind, "fun": lambda y: self.values(of(y))[which],
            "jac": lambda y: self.slopes(of(y))[which] * scale}
        options = self.problem["Options"]
        end = minimize(
            lambda y: -self.progress(of(y)) / self.unit, np.array(start) / scale, method="SLSQP",
            jac=lambda y: -self.progress_slopes(of(y)) * scale / self.unit, bounds=list(zip(low, high)),
            constraints=[constraint("eq", equal), constraint("ineq", ~equal)],
            options={"maxiter": options["Iterations"], "ftol": options["Feasibility"]})
        x = of(end.x)
        value = self.values(x)
        violation = max(np.abs(value[equal]).max(), -min(0, value[~equal].min()))
        return {"X": x.tolist(), "Progress": float(self.progress(x)), "Violation": float(violation),
                "Iterations": int(end.nit), "Evaluations": self.evaluations - count[0],
                "Gradients": self.slopes_taken - count[1], "Message": str(end.message)}
