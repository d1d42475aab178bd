"""Sails as lifting lines by span loading, and windage.

All sails of a set and their mirror images in the water act on each other through
their wakes."""

import math

import numpy as np
from scipy.linalg import lapack

LIFT_SLOPE = 2 * np.pi
LIFT_DRAG = 0.005
YIELD = 0.1
STALL_DRAG, MOST_STALL_DRAG = 4.0, 1.0
SHEET_CENTRE = 0.4
HEAD_SHARE = 0.05

# Gauss-Legendre on 0 to 1 with five points.
GAUSS = np.array([0.5 - 0.4530899229693320, 0.5 - 0.2692346550528415, 0.5,
                  0.5 + 0.2692346550528415, 0.5 + 0.4530899229693320])
GAUSS_WEIGHT = np.array([0.1184634425280945, 0.2393143352496832, 0.2844444444444444,
                         0.2393143352496832, 0.1184634425280945])


class Wind:
    """The log law over a roughness, led to rest at the water below 0.1 m."""

    def __init__(self, wind):
        self.speed, self.sense = wind["Speed"], wind["Sense"]
        self.roughness = wind["Roughness"]
        self.scale = 1 / math.log(wind["Reference"] / self.roughness)
        self.join = max(0.1, 10 * self.roughness)
        self.at_join = self.scale * math.log(self.join / self.roughness)

    def over_boat(self, boat_speed, angle, height):
        """Velocity of the air relative to the boat, by height: (..., 3)."""
        height = np.asarray(height)
        ratio = self.scale * np.log(np.maximum(height, self.join) / self.roughness)
        if (height < self.join).any():
            s = np.minimum(np.maximum(height / self.join, 0), 1)
            low = s * s * (self.at_join * (3 - 2 * s) + self.scale * (s - 1))
            ratio = np.where(height < self.join, low, ratio)
        u = self.speed * ratio
        v = np.zeros(height.shape + (3,))
        v[..., 0] = -u * math.cos(angle) - boat_speed
        v[..., 1] = -u * self.sense * math.sin(angle)
        return v


class Table:
    """A coefficient over the apparent wind angle: monotone cubics (Fritsch and
    Butland), level slopes at the ends."""

    def __init__(self, x, y):
        x, y = np.array(x), np.array(y)
        h, d = np.diff(x), np.diff(y) / np.diff(x)
        slope = np.zeros(len(x))
        for i in range(1, len(x) - 1):
            if d[i - 1] * d[i] > 0:
                before, after = 2 * h[i] + h[i - 1], h[i] + 2 * h[i - 1]
                slope[i] = (before + after) / (before / d[i - 1] + after / d[i])
        self.x, self.y, self.slope = x.tolist(), y.tolist(), slope.tolist()

    def __call__(self, at):
        x, y = self.x, self.y
        if at <= x[0]:
            return y[0]
        if at >= x[-1]:
            return y[-1]
        i = next(k for k in range(len(x)) if x[k] >= at)
        h = x[i] - x[i - 1]
        t = (at - x[i - 1]) / h
        return (y[i - 1] + t * t * (3 - 2 * t) * (y[i] - y[i - 1])
                + h * t * (1 - t) * ((1 - t) * self.slope[i - 1] - t * self.slope[i]))


class Plan:
    """A sail's chords over its height."""

    def __init__(self, foot, height, area):
        extra = area / (foot * height) - (1 + HEAD_SHARE) / 2
        self.foot, self.height = foot, height
        self.roach, self.hollow = max(0, extra), max(0, -extra)

    def chord(self, eta):
        return self.foot * (1 - (1 - HEAD_SHARE) * eta + self.roach * 15 / 4 * eta * np.sqrt(1 - eta)
                            - self.hollow * 6 * eta * (1 - eta))

    def below(self, eta):
        s = 1 - eta
        round_ = 4 / 15 - 2 / 3 * s * np.sqrt(s) + 2 / 5 * s * s * np.sqrt(s)
        taper = eta - (1 - HEAD_SHARE) * eta * eta / 2
        return self.foot * self.height * (taper + self.roach * 15 / 4 * round_ - self.hollow * eta * eta * (3 - 2 * eta))


class Sails:
    """The sails of one set, cut into strips in the boat frame."""

    def __init__(self, boat, problem, wind):
        self.wind, self.density = wind, problem["Air"]["Density"]
        model = boat["Model"]
        self.gap, self.drag_factor = model["Gap"], model["SailDrag"]
        self.sails = [boat["Sails"][i] for i in boat["Sets"][problem["Set"]]["Sails"]]
        self.parts = [(s["Name"], "") for s in self.sails]
        n, m = problem["Options"]["SailStrips"], len(self.sails)
        self.sail = np.repeat(np.arange(m), n)             # of each strip
        self.node_sail = np.repeat(np.arange(m), n + 1)
        self.first = np.arange(n * m) + self.sail          # lower node of each strip
        nodes, middles, stations = [], [], []
        eta, chord, area, core = [], [], [], []
        share = (1 - np.cos(np.pi * np.arange(n + 1) / n)) / 2
        mid = (1 - np.cos(np.pi * (np.arange(n) + 0.5) / n)) / 2
        self.luff = np.array([[-math.sin(s["Lean"]), 0, math.cos(s["Lean"])] for s in self.sails])
        for s, luff in zip(self.sails, self.luff):
            tack, lean = vector(s["Tack"]), math.cos(s["Lean"])
            plan = Plan(s["Foot"], s["Luff"] * lean, s["Area"])
            points = tack + luff * (s["Luff"] * mid)[:, None]
            nodes.append(tack + luff * (s["Luff"] * share)[:, None])
            stations.append(points)
            middles.append(points - np.outer(plan.chord(mid) / 4, [1, 0, 0]))
            eta.append(mid)
            chord.append(plan.chord(mid) * lean)
            area.append(np.diff(plan.below(share)))
            core.append(model["WakeCore"] * plan.chord(share))
        self.nodes, self.middles, self.stations = map(np.concatenate, (nodes, middles, stations))
        self.eta, self.chord, self.area, self.core = map(np.concatenate, (eta, chord, area, core))
        self.half = LIFT_SLOPE * self.chord / 2
        self.tacks = np.array([vector(s["Tack"]) for s in self.sails])
        self.halfway = self.tacks + self.luff * np.array([s["Luff"] / 2 for s in self.sails])[:, None]
        areas = np.array([s["Area"] for s in self.sails])
        self.weights = areas / areas.sum()
        self.largest = [Table(s["Coefficients"]["Angle"], s["Coefficients"]["Lift"]) for s in self.sails]
        self.drag = [Table(s["Coefficients"]["Angle"], s["Coefficients"]["Drag"]) for s in self.sails]
        self.foot = np.array([s["Foot"] for s in self.sails])
        self.controls = [(s["Sheet"], s["Twist"]) for s in self.sails]
        self.tiny = 1e-18 * self.half.max() ** 2
        self.cores = np.where(self.sail[:, None] == self.node_sail[None, :], 0, self.core ** 2) + self.tiny

    def largest_lift(self, i, angle):
        """Largest lift coefficient of a sail at a wind angle off the bow."""
        table = self.largest[i]
        if angle < table.x[0]:
            s = angle / table.x[0]
            return table.y[0] * s * (2 - s)
        return table(angle)

    def place(self, turn, height, speed, angle):
        """Sets the strips into the wind and factors the wake's equations."""
        p = Placed()
        lift = np.array([0, 0, height])
        p.at = self.middles @ turn.T + lift
        nodes, stations = self.nodes @ turn.T + lift, self.stations @ turn.T + lift
        halfway = self.halfway @ turn.T + lift
        p.span = nodes[self.first + 1] - nodes[self.first]
        p.wind = self.wind.over_boat(speed, angle, p.at[:, 2])
        middle = self.wind.over_boat(speed, angle, halfway[:, 2])
        aft, port = self.across(p.wind @ turn, self.sail)
        aft_middle, port_middle = self.across(middle @ turn, np.arange(len(self.sails)))
        p.normal = np.hypot(aft, port)
        angles = np.arctan2(np.abs(port_middle), aft_middle)
        p.largest = np.array([self.largest_lift(i, a) for i, a in enumerate(angles)])
        p.section = np.array([self.drag[i](a) for i, a in enumerate(angles)])

        air = self.wind.over_boat(speed, angle, self.weights @ halfway[:, 2])
        p.along = air / np.linalg.norm(air)
        p.windward = -1.0 if air @ turn[:, 1] > 0 else 1.0
        am, pm = aft_middle[self.sail], port_middle[self.sail]
        p.freer = -p.windward * np.arctan2(port * am - aft * pm, aft * am + port * pm)

        across = np.array([-p.along[1], p.along[0], 0])
        t, z = stations @ across, stations[:, 2]
        node_t, node_z = nodes @ across, nodes[:, 2]
        tacks = self.tacks @ turn.T + lift
        mirror = min((1 - self.gap) * tacks[:, 2].min(), node_z.min())
        st, sz = p.span @ across, p.span[:, 2]
        p.length = np.hypot(st, sz)
        mt, mz = (sz / p.length)[:, None], (-st / p.length)[:, None]
        dt, dz = t[:, None] - node_t, z[:, None] - node_z
        down = z[:, None] - 2 * mirror + node_z
        own = 1 / (dt * dt + dz * dz + self.cores)
        image = 1 / (dt * dt + down * down + self.cores)
        bent = ((dz * own - down * image) * mt + (dt * image - dt * own) * mz) / (4 * np.pi)
        p.influence = bent[:, self.first] - bent[:, self.first + 1]
        equations = np.asfortranarray(self.half[:, None] * p.influence)
        np.einsum("ii->i", equations)[:] += 1
        p.factors, p.pivots, _ = lapack.dgetrf(equations, overwrite_a=True)
        return p

    def across(self, v, which):
        """Parts of velocities, boat frame, in the plane normal to luffs."""
        luff = self.luff[which]
        return luff[:, 0] * v[:, 2] - luff[:, 2] * v[:, 0], v[:, 1]

    def pull(self, p, settings):
        """Forces on the strips, (3, strips, 3): lift, induced and section drag; and
        margins: lift in hand and lift of each strip, (sail, strip), and sheet loads."""
        sheet = np.array([settings[c[0]] for c in self.controls])[self.sail]
        twist = np.array([settings[c[1]] for c in self.controls])[self.sail]
        incidence = sheet + p.freer - twist * (self.eta - 0.5)
        right = self.half * p.normal * incidence
        circulation = lapack.dgetrs(p.factors, p.pivots, right)[0]
        downwash = p.influence @ circulation
        asked = 2 * circulation * p.normal / (self.chord * p.normal ** 2 + 1e-12 * self.chord)
        largest = p.largest[self.sail]
        beyond = np.maximum(np.abs(asked) - largest, 0)
        cost = STALL_DRAG * beyond * beyond
        held = np.where(beyond > 0, np.copysign(largest + beyond / (1 + beyond / YIELD), asked), asked)
        stall = cost / (1 + cost / MOST_STALL_DRAG)
        share = np.where(beyond > 0, held / np.where(asked == 0, 1, asked), 1)
        drag = self.drag_factor * (p.section[self.sail] + LIFT_DRAG * held * held) + stall
        rho = self.density
        lift = cross(p.span, p.wind) * (rho * p.windward * circulation * share)[:, None]
        induced = p.along * (rho * circulation * downwash * p.length)[:, None]
        section = p.wind * (rho / 2 * np.linalg.norm(p.wind, axis=1) * self.area * drag)[:, None]

        n = len(self.sails)
        load = np.copysign(np.linalg.norm(lift, axis=1), circulation) * self.chord * SHEET_CENTRE
        shape = (n, -1)
        margins = ((largest - np.abs(asked)).reshape(shape), asked.reshape(shape),
                   load.reshape(shape).sum(axis=1) / (self.foot * self.luff[:, 2]))
        return np.stack([lift, induced, section]), margins


class Placed:
    """Sails in one attitude, speed and wind."""


class Windage:
    """Areas in the wind that only drag, each at five Gauss points."""

    def __init__(self, boat, problem, wind):
        self.wind, self.density = wind, problem["Air"]["Density"]
        self.all = boat["Windages"] or []
        self.weights = boat["Weights"]
        self.parts = [(w["Name"], "") for w in self.all]
        self.bottom = np.array([vector(w["Bottom"]) for w in self.all])
        self.top = np.array([vector(w["Top"]) for w in self.all])
        area = np.array([w["Area"] * w["Coefficient"] for w in self.all]) * boat["Model"]["Windage"]
        self.area = area[:, None] * GAUSS_WEIGHT
        self.follows = np.array([w["Follows"] for w in self.all])

    def loads(self, turn, height, speed, angle, shifts):
        """Forces and places, (windages, 5, 3); shifts are the weights' moves from
        where they are by themselves, boat frame."""
        shift = np.where(self.follows[:, None] >= 0, shifts[np.maximum(self.follows, 0)], 0)
        points = (self.bottom + shift)[:, None, :] + (self.top - self.bottom)[:, None, :] * GAUSS[:, None]
        at = points @ turn.T + [0, 0, height]
        v = self.wind.over_boat(speed, angle, at[..., 2])
        return v * (self.density / 2 * np.linalg.norm(v, axis=-1) * self.area)[..., None], at


def vector(v):
    """A vector or point as the boat is written."""
    return np.array([v["x"], v["y"], v["z"]])


def cross(a, b):
    """a x b along the last axis, of one shape; numpy's own takes four times as long."""
    out = np.empty(a.shape)
    out[..., 0] = a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1]
    out[..., 1] = a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2]
    out[..., 2] = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return out
