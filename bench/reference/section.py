"""Sections: profile drag, flaps and pressure peaks, for many strips at once."""

import numpy as np

LIFT_DRAG_SQUARE = 0.50
LIFT_DRAG_FOURTH = 0.66
FLAP_DRAG = 0.0144 * 180 / np.pi
FLAP_DRAG_ANGLE = np.radians(10)
FLAP_DRAG_ROUNDING = np.radians(5)
STALL_DRAG = 1.0
FLAP_LOSS_ANGLE = np.radians(16)
FLAP_LOSS_EXPONENT = 0.16


def turbulent_line(reynolds):
    """Prandtl-Schlichting friction of one side of a plate."""
    return 0.455 / np.log10(np.hypot(reynolds, 1e4)) ** 2.58


def laminar_line(reynolds):
    """Blasius friction of one side of a plate."""
    return 1.32823 / np.sqrt(np.hypot(reynolds, 1e3))


def effective_flap(deflection, loss):
    """The angle that thin-aerofoil theory would need for the real flap's effect."""
    u = (deflection / FLAP_LOSS_ANGLE) ** 2
    return deflection * (1 + u * u) ** (-FLAP_LOSS_EXPONENT * max(loss, 0))


def drag_parts(s, lift, reynolds, deflection, ideal_shift):
    """Friction, lift, flap and stall drag coefficients.

    s has for each strip form_factor, lift_range, ideal, camber_gain, laminar,
    flap_share; deflection and ideal_shift are the flap's angle, rad, and what it
    adds to the ideal lift."""
    ideal = s.ideal + ideal_shift
    up = s.lift_range + s.camber_gain * ideal
    down = -s.lift_range + s.camber_gain * ideal
    past = np.maximum(lift - up, 0) + np.minimum(lift - down, 0)
    turbulent = turbulent_line(reynolds)
    run = s.laminar * reynolds
    plate = turbulent - s.laminar * (turbulent_line(run) - laminar_line(run))
    u = ((lift - ideal) / s.lift_range) ** 2
    beyond = np.maximum(np.abs(deflection) - FLAP_DRAG_ANGLE, 0)
    return (2 * s.form_factor * plate,
            2 * s.form_factor * turbulent * u * (LIFT_DRAG_SQUARE + LIFT_DRAG_FOURTH * u),
            FLAP_DRAG * s.flap_share * beyond * beyond / (beyond + FLAP_DRAG_ROUNDING),
            STALL_DRAG * past * past)


def crossing_drag(t):
    """Drag of two crossing struts on thickness squared, of thickness over chord."""
    join = 0.06
    value, slope = 17 * join * join - 0.05, 34 * join * join
    return np.where(t >= join, 17 * t * t - 0.05, value * (np.maximum(t, 0) / join) ** (slope / value))


class Peaks:
    """Pressure peaks of all pieces over lift and flap angle: tables on one grid of
    lifts, with one flap angle (no flap) or as many for every flapped piece."""

    def __init__(self, grids):
        tables = [np.array(g["Peaks"]) for g in grids]  # (stretch, flap, lift)
        most = max(t.shape[1] for t in tables)
        self.flaps = np.array([t.shape[1] for t in tables])
        self.table = np.zeros((len(tables), tables[0].shape[0], most, tables[0].shape[2]))
        for table, into in zip(tables, self.table):
            into[:, :table.shape[1]] = table
        g = grids[0]
        self.least_lift, self.lift_step = g["LeastLift"], g["LiftStep"]
        self.flap_step, self.rounding = g["FlapStep"], g["Rounding"]
        self.lifts = self.table.shape[3]

    def least(self, which, lift, flap):
        """Least pressure coefficient of each strip; which names its table."""
        x, wx = stencil((lift - self.least_lift) / self.lift_step, self.lifts)
        flaps = self.flaps[which]
        y, wy = stencil(np.where(flaps > 1, flap / self.flap_step + flaps // 2, 0.0), np.maximum(flaps, 2))
        y = np.minimum(y, flaps[:, None] - 1)
        wy = np.where(flaps[:, None] > 1, wy, [1.0, 0.0, 0.0, 0.0])
        values = self.table[which[:, None, None], :, y[:, :, None], x[:, None, :]]  # (strip, 4, 4, stretch)
        peaks = np.einsum("ij,ik,ijks->is", wy, wx, values)
        least = peaks.min(axis=1)
        return least - self.rounding * np.log(np.exp((least[:, None] - peaks) / self.rounding).sum(axis=1))


def stencil(place, n):
    """Catmull-Rom points and weights at places in units of the step, straight
    beyond the ends; n points."""
    inside = np.minimum(np.maximum(place, 0), n - 1.0)
    i = np.minimum(inside.astype(int), n - 2)
    u, beyond = inside - i, place - inside
    w = np.empty((len(u), 4))
    w[:, 0] = u * (-0.5 + u * (1 - 0.5 * u)) + beyond * (-0.5 + u * (2 - 1.5 * u))
    w[:, 1] = 1 + u * u * (-2.5 + 1.5 * u) + beyond * u * (-5 + 4.5 * u)
    w[:, 2] = u * (0.5 + u * (2 - 1.5 * u)) + beyond * (0.5 + u * (4 - 4.5 * u))
    w[:, 3] = u * u * (-0.5 + 0.5 * u) + beyond * u * (-1 + 1.5 * u)
    first, last = i == 0, i == n - 2
    w[:, 1] += np.where(first, 2 * w[:, 0], 0) - np.where(last, w[:, 3], 0)
    w[:, 2] += np.where(last, 2 * w[:, 3], 0) - np.where(first, w[:, 0], 0)
    w[:, 0] *= ~first
    w[:, 3] *= ~last
    return np.minimum(np.maximum(i[:, None] + np.arange(-1, 3), 0), np.reshape(n, (-1, 1)) - 1), w
