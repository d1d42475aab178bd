"""Where foils stand in the water and what the water does to them."""

import math

import numpy as np

import section
import wave
from lattice import Lattice
from sail import cross, vector

GRAVITY = 9.80665
CORE_OVERLAP = 0.62
SECTION_MIDDLE = 0.17
ARC_SAMPLES = 4
NO_MARGIN = 1e3
THOMSEN = 1.6075
GAUSS = np.array([0.1127016653792583, 0.5, 0.8872983346207417])
GAUSS_WEIGHT = np.array([5 / 18, 8 / 18, 5 / 18])


class Along:
    """A figure in straight lines along each piece: chords, twists."""

    def __init__(self, all_of):
        most = max(2, max(len(a["Share"] or []) for a in all_of))
        shape = (len(all_of), most - 1)
        self.first = np.array([a["Value"][0] if a["Value"] else 0.0 for a in all_of])
        self.knot, self.reach, self.slope = np.ones(shape), np.zeros(shape), np.zeros(shape)
        for i, a in enumerate(all_of):
            share, value = np.array(a["Share"] or [0.0]), np.array(a["Value"] or [0.0])
            k = len(share) - 1
            self.knot[i, :k], self.reach[i, :k] = share[:-1], np.diff(share)
            self.slope[i, :k] = np.diff(value) / np.diff(share)

    def at(self, piece, share):
        """Values at shares, of the pieces named by an array of the same shape."""
        gone = np.minimum(np.maximum(share[..., None] - self.knot[piece], 0), self.reach[piece])
        return self.first[piece] + (self.slope[piece] * gone).sum(axis=-1)


class Paths:
    """Quarter-chord lines of straight lengths and arcs, all pieces in one table."""

    def __init__(self, pieces):
        most = max(len(p["Stretches"]) for p in pieces)
        n = len(pieces)
        self.ends = np.full((n, most), np.inf)
        self.begin, self.length, self.radius = (np.zeros((n, most)) for _ in range(3))
        self.start, self.along, self.inward = (np.zeros((n, most, 3)) for _ in range(3))
        self.whole = np.zeros(n)
        for i, p in enumerate(pieces):
            for k, s in enumerate(p["Stretches"]):
                self.begin[i, k], self.length[i, k] = self.whole[i], s["Length"]
                self.whole[i] += s["Length"]
                self.ends[i, k], self.radius[i, k] = self.whole[i], s["Radius"]
                self.start[i, k], self.along[i, k], self.inward[i, k] = s["From"], s["Along"], s["Inward"]
        self.count = np.array([len(p["Stretches"]) for p in pieces])
        self.bent = (self.count > 1) | (self.radius[:, 0] > 0)
        self.breaks = [[self.ends[i, k] / self.whole[i] for k in range(self.count[i] - 1)] for i in range(n)]

    def at(self, piece, share):
        """Points and unit tangents, (..., 3)."""
        d = share * self.whole[piece]
        k = np.minimum((d[..., None] > self.ends[piece]).sum(axis=-1), self.count[piece] - 1)
        d = np.minimum(np.maximum(d - self.begin[piece, k], 0), self.length[piece, k])
        radius = self.radius[piece, k]
        bent = radius > 0
        turn = d / np.where(bent, radius, 1)
        ahead = np.where(bent, radius * np.sin(turn), d)
        aside = np.where(bent, radius * (1 - np.cos(turn)), 0)
        along, inward = self.along[piece, k], self.inward[piece, k]
        point = self.start[piece, k] + along * ahead[..., None] + inward * aside[..., None]
        cos, sin = np.where(bent, np.cos(turn), 1), np.where(bent, np.sin(turn), 0)
        return point, along * cos[..., None] + inward * sin[..., None]


def rotation(axis, angle):
    """Rodrigues' rotation about a unit axis."""
    c, s = math.cos(angle), math.sin(angle)
    x, y, z = axis
    t = 1 - c
    return np.array([[c + t * x * x, t * x * y - s * z, t * x * z + s * y],
                     [t * x * y + s * z, c + t * y * y, t * y * z - s * x],
                     [t * x * z - s * y, t * y * z + s * x, c + t * z * z]])


class Strips:
    """What sections need of each strip: see section.drag_parts."""


class Geometry:
    """Foils in one attitude and setting, cut into strips, with their lattice."""


class Water:
    """What the water does to one geometry at one speed and flap setting."""


class Foils:
    """All foils of a boat: their pieces in one table."""

    def __init__(self, boat, problem):
        self.foils, self.model = boat["Foils"], boat["Model"]
        self.bodies = boat["Bodies"] or []
        self.density, self.viscosity = problem["Water"]["Density"], problem["Water"]["Viscosity"]
        self.above_vapour = problem["Air"]["Pressure"] - problem["Water"]["VapourPressure"]
        self.strips = problem["Options"]["Strips"]
        extra = problem["Pieces"]
        pieces = [self.foils[e["Foil"]]["Pieces"][e["Piece"]] for e in extra]
        self.names = [(self.foils[e["Foil"]]["Name"], p["Name"]) for e, p in zip(extra, pieces)]
        self.foil = np.array([e["Foil"] for e in extra])
        self.index = {(e["Foil"], e["Piece"]): i for i, e in enumerate(extra)}
        self.paths = Paths(extra)
        self.chord, self.twist = Along([p["Chord"] for p in pieces]), Along([p["Twist"] for p in pieces])
        self.upper = np.array([p["Upper"] for p in pieces])
        self.begins = np.array([p["From"] for p in pieces]) >= 0  # at another's tip
        self.free = np.array([all(q["From"] != e["Piece"] for q in self.foils[e["Foil"]]["Pieces"]) for e in extra])
        sections = [p["Section"] for p in pieces]
        read = lambda name: np.array([s[name] for s in sections])
        self.thickness, self.zero_lift, self.moment, self.area = map(read, ("Thickness", "ZeroLift", "Moment", "Area"))
        self.ideal = read("IdealLift")
        known = lambda name: np.array([e[name] for e in extra])
        self.form_factor, self.lift_range, self.camber_gain = map(known, ("FormFactor", "LiftRange", "CamberGain"))
        self.flap_effect = np.stack([known("FlapZeroLift"), known("FlapMoment"), known("FlapIdeal")])
        self.laminar = np.array([p["Laminar"] if p["Laminar"] >= 0 else self.model["Laminar"] for p in pieces])
        flaps = [p["Flap"] for p in pieces]
        self.flap_share = np.array([f["Share"] for f in flaps])
        self.flap_control = [f["Control"] if f["Share"] > 0 else -1 for f in flaps]
        self.flap_sign, self.flap_from, self.flap_to = (np.array([f[k] for f in flaps]) for k in ("Sign", "From", "To"))
        self.peaked = [i for i, e in enumerate(extra) if e["Peaks"]]
        self.peaks = section.Peaks([extra[i]["Peaks"] for i in self.peaked]) if self.peaked else None
        self.peak_table = np.full(len(extra), -1)
        self.peak_table[self.peaked] = np.arange(len(self.peaked))
        self.ends_at = self.paths.at(np.arange(len(extra)), np.ones(len(extra)))[0]
        self.sample()
        self.roots = np.array([vector(f["Root"]) for f in self.foils])
        self.moves = [[(vector(m["Axis"]), m["Control"], m["Fixed"]) for m in f["Moves"] or []] for f in self.foils]
        self.carried()

    def sample(self):
        """Points at which a piece is looked at for the water's surface."""
        shares, pieces, stretches = [], [], []
        for i, breaks in enumerate(self.paths.breaks):
            last = 0.0
            shares.append(0.0)
            pieces.append(i)
            stretches.append(0)
            for stretch, end in enumerate([*breaks, 1.0]):
                shares += [last + (end - last) * k / ARC_SAMPLES for k in range(1, ARC_SAMPLES + 1)]
                pieces += [i] * ARC_SAMPLES
                stretches += [stretch] * ARC_SAMPLES
                last = end
        self.sample_share, self.sample_piece, self.sample_stretch = np.array(shares), np.array(pieces), stretches
        self.sample_point = self.paths.at(self.sample_piece, self.sample_share)[0]
        self.sample_first = np.searchsorted(self.sample_piece, np.arange(len(self.foil) + 1))

    def carried(self):
        """Masses that hang on foils, and bodies."""
        def on(foil, piece, share):
            return self.paths.at(np.array([self.index[foil, piece]]), np.array([share]))[0][0]
        self.mass_point = np.array([on(i, f["MassPiece"], f["MassShare"]) for i, f in enumerate(self.foils)])
        self.body_point = [vector(d["At"]) if d["Foil"] < 0 else on(d["Foil"], d["Piece"], d["Share"]) for d in self.bodies]

    def poses(self, turn, height, settings):
        """Turn and origin of each foil's own frame in the track frame."""
        turns = []
        for moves in self.moves:
            own = turn
            for axis, control, fixed in moves:
                own = own @ rotation(axis, settings[control] if control >= 0 else fixed)
            turns.append(own)
        return np.array(turns), self.roots @ turn.T + [0, 0, height]

    def intervals(self, pose):
        """Wet intervals of all pieces, and the dry gaps between them.

        Wet: (piece, from, to, pierces from, pierces to, dry beyond from, dry beyond
        to); dry: (piece, from, to)."""
        turns, origins = pose
        foil = self.foil[self.sample_piece]
        height = np.einsum("ij,ij->i", turns[foil, 2], self.sample_point) + origins[foil, 2]
        wet, dry = [], []
        for i in range(len(self.foil)):
            a, b = self.sample_first[i], self.sample_first[i + 1]
            h = height[a:b]
            length = self.paths.whole[i]
            if (h >= 0).all():
                dry.append((i, 0.0, 1.0))
                continue
            found = self.crossings(i, h, self.sample_share[a:b], pose)
            crossed = [0.0, *found] if h[0] < 0 else found
            crossed = crossed if len(crossed) % 2 == 0 else [*crossed, 1.0]
            last = 0.0
            for k in range(0, len(crossed), 2):
                low, high = crossed[k], crossed[k + 1]
                in_from, in_to = low in found, high in found
                beyond_from = (low - last) * length if in_from else 0.0
                if not in_to:
                    beyond_to = 0.0
                elif k + 2 < len(crossed):
                    beyond_to = (crossed[k + 2] - high) * length
                else:
                    beyond_to = (1 - high) * length if self.free[i] else math.inf
                wet.append((i, low, high, in_from, in_to, beyond_from, beyond_to))
                dry.append((i, last, low))
                last = high
            dry.append((i, last, 1.0))
        return [w for w in wet if w[2] - w[1] >= 1e-12], dry

    def crossings(self, piece, h, share, pose):
        """Shares where a piece crosses the surface, on one stretch of its path each:
        a straight length at the first guess, an arc by Illinois' method."""
        turns, origins = pose
        up, base = turns[self.foil[piece], 2], origins[self.foil[piece], 2]
        paths, found = self.paths, []
        for k in np.flatnonzero((h[:-1] < 0) != (h[1:] < 0)):
            a, ha, b, hb = map(float, (share[k], h[k], share[k + 1], h[k + 1]))
            stretch = self.sample_stretch[self.sample_first[piece] + k + 1]
            radius = paths.radius[piece, stretch]
            start, along, inward = (v[piece, stretch] @ up for v in (paths.start, paths.along, paths.inward))
            for _ in range(60):
                c = a - ha * (b - a) / (hb - ha)
                if radius == 0:
                    break
                if not a < c < b:
                    c = (a + b) / 2
                turn = (c * paths.whole[piece] - paths.begin[piece, stretch]) / radius
                hc = start + base + radius * (along * math.sin(turn) + inward * (1 - math.cos(turn)))
                if abs(hc) < 1e-15 or b - a < 1e-15:
                    break
                if (hc < 0) == (ha < 0):
                    a, ha, hb = c, hc, hb / 2
                else:
                    b, hb, ha = c, hc, ha / 2
            found.append(float(c))
        return found

    def sections(self, piece, share, pose, strips=False):
        """Quarter-chord points, unit vectors aft, towards the upper side and outward; of
        strips' ends and middles in turn, the middles on the lines between their ends."""
        turns, origins = pose
        point, tangent = self.paths.at(piece, share)
        if strips:
            bent = self.paths.bent[piece[:, 1::2]][..., None]
            first, last = point[:, :-2:2], point[:, 2::2]
            part = (share[:, 1::2] - share[:, :-2:2]) / (share[:, 2::2] - share[:, :-2:2])
            line = last - first
            flat = line / np.sqrt((line ** 2).sum(axis=-1))[..., None]
            point[:, 1::2] = np.where(bent, first + line * part[..., None], point[:, 1::2])
            tangent[:, 1::2] = np.where(bent, flat, tangent[:, 1::2])
        # Forward is x: x cross tangent.
        normal = np.stack([np.zeros_like(share), -tangent[..., 2], tangent[..., 1]], axis=-1)
        normal *= (self.upper[piece] / np.sqrt((normal ** 2).sum(axis=-1)))[..., None]
        twist = self.twist.at(piece, share)
        sin, cos = np.sin(twist)[..., None], np.cos(twist)[..., None]
        forward = np.array([1.0, 0, 0])
        nose, up = cos * forward + sin * normal, cos * normal - sin * forward
        turn = turns[self.foil[piece]]
        apply = lambda v: np.einsum("...ij,...j->...i", turn, v)
        return apply(point) + origins[self.foil[piece]], -apply(nose), apply(up), apply(tangent)

    def lay(self, turn, height, settings):
        """The lattice of one geometry, factorised, with the circulations that the
        stream, camber and each flap ask for."""
        g = Geometry()
        g.pose = self.poses(turn, height, settings)
        wet, g.dry = self.intervals(g.pose)
        g.n, m = len(wet), self.strips
        if not wet:
            return g
        piece, low, high, in_from, in_to, beyond_from, beyond_to = (np.array(c) for c in zip(*wet))
        g.piece, g.low, g.high = piece, low, high
        g.pierces = np.stack([in_from, in_to], axis=1)
        g.beyond = np.stack([beyond_from, beyond_to], axis=1)
        grid = (1 - np.cos(np.pi * np.arange(2 * m + 1) / (2 * m))) / 2  # ends and middles
        share = low[:, None] + (high - low)[:, None] * grid
        share[:, -1] = high
        which = np.broadcast_to(piece[:, None], share.shape)
        quarter, aft, normal, outward = self.sections(which, share, g.pose, strips=True)
        quarter[g.pierces[:, 0], 0, 2] = 0
        quarter[g.pierces[:, 1], -1, 2] = 0
        chord = self.chord.at(which, share)
        g.ends = share[:, 0::2]
        g.strip_piece = which[:, 1::2].ravel()
        g.ends_point, g.ends_chord, g.ends_rise = quarter[:, [0, -1]], chord[:, [0, -1]], outward[:, [0, -1], 2]
        g.parts = [self.names[i] for i in piece]
        node = quarter[:, 0::2]
        flat = lambda a: a[:, 1::2].reshape(g.n * m, *a.shape[2:])
        g.quarter, g.aft, g.normal, g.chord = map(flat, (quarter, aft, normal, chord))
        step = node[:, 1:] - node[:, :-1]
        g.width = np.hypot(step[..., 1], step[..., 2]).ravel()
        start = (np.arange(g.n)[:, None] * (m + 1) + np.arange(m)).ravel()
        end = start + 1
        back = g.normal[:, 1] * step[..., 2].ravel() - g.normal[:, 2] * step[..., 1].ravel() < 0
        start, end = np.where(back, end, start), np.where(back, start, end)
        control = g.quarter - np.outer(g.chord / 2, [1, 0, 0])
        spacing = (high - low) * self.paths.whole[piece] * np.pi / 2 / m
        core = np.hypot(self.model["WakeCore"] * self.chord.at(piece, (low + high) / 2), CORE_OVERLAP * spacing)
        g.lattice = Lattice(node.reshape(-1, 3), np.repeat(self.foil[piece], m + 1), np.repeat(core, m + 1),
                            start, end, g.quarter, control, g.normal, g.chord, self.foil[g.strip_piece])
        self.right_hand_sides(g)
        return g

    def right_hand_sides(self, g):
        """One column for stream and camber, one for a radian of zero lift of the
        flaps of each control: one factorisation for all of them."""
        p, m = g.strip_piece, self.strips
        covered = ((np.minimum(g.ends[:, 1:], self.flap_to[g.piece][:, None])
                    - np.maximum(g.ends[:, :-1], self.flap_from[g.piece][:, None])) / np.diff(g.ends, axis=1)).ravel()
        g.covered = np.minimum(np.maximum(covered, 0), 1) * (self.flap_share[p] > 0)
        g.flap_controls = sorted({self.flap_control[i] for i in g.piece if self.flap_control[i] >= 0})
        wash = np.zeros((g.n * m, 1 + len(g.flap_controls)), order="F")
        wash[:, 0] = g.normal[:, 0] + self.zero_lift[p]
        control = np.array(self.flap_control)[p]
        for k, c in enumerate(g.flap_controls):
            wash[:, 1 + k] = (control == c) * g.covered * self.flap_effect[0, p] * self.flap_sign[p]
        g.circulations = g.lattice.solve(wash)
        s = g.section = Strips()
        s.form_factor, s.lift_range, s.ideal = self.form_factor[p], self.lift_range[p], self.ideal[p]
        s.camber_gain, s.laminar, s.flap_share = self.camber_gain[p], self.laminar[p], self.flap_share[p]

    def loads(self, g, speed, settings):
        """Water loads on one geometry at a speed and flap settings. Arrays are by
        strip where not said otherwise; force arrays are (strip, 3)."""
        w = Water()
        q, v2 = self.density / 2 * speed * speed, self.density * speed * speed
        w.q, w.n = q, g.n
        if not g.n:
            return w
        loss = self.model["FlapLoss"]
        p = g.strip_piece
        effective = [section.effective_flap(settings[c], loss) for c in g.flap_controls]
        circulation = g.circulations @ np.array([1.0, *effective])
        force = g.lattice.forces(circulation)
        w.lattice_force = v2 * force
        w.wave = self.density * wave.increment(g.lattice, circulation * speed, GRAVITY / (speed * speed))
        w.lift = 2 * circulation / g.chord
        setting = np.array([settings[c] if c >= 0 else 0.0 for c in self.flap_control])
        deflection = (setting * self.flap_sign)[p] * (g.covered > 0)
        w.flap = deflection
        turned = section.effective_flap(deflection, loss)
        reynolds = speed * g.chord / self.viscosity
        parts = section.drag_parts(g.section, w.lift, reynolds, deflection, turned * self.flap_effect[2, p])
        if ((g.covered > 0) & (g.covered < 1)).any():
            plain = section.drag_parts(g.section, w.lift, reynolds, 0 * deflection, 0)
            share = np.where(g.covered > 0, g.covered, 1)
            parts = [share * a + (1 - share) * b for a, b in zip(parts, plain)]
        friction, lifting, flap, stall = parts
        area = q * g.chord * g.width
        w.profile = area * (self.model["Friction"] * friction + self.model["LiftDrag"] * lifting + flap)
        w.stall = area * stall
        moment = self.moment[p] + g.covered * turned * self.flap_effect[1, p]
        w.moment = cross(g.normal, g.aft) * (area * g.chord * moment)[:, None]
        w.buoyancy = self.density * GRAVITY * self.area[p] * g.chord * g.chord * g.width
        w.middle = g.quarter + g.aft * (SECTION_MIDDLE * g.chord)[:, None]
        self.ends(g, w)
        return w

    def ends(self, g, w):
        """Spray and junction drag at the ends of wet intervals, (interval, 2) and
        (interval,)."""
        if not hasattr(g, "spray"):  # over dynamic pressure: geometry alone
            t = self.thickness[g.piece]
            wet = (g.high - g.low) * self.paths.whole[g.piece]
            sin2 = g.ends_rise ** 2
            cut = 1 / np.sqrt(sin2 + (t * t)[:, None] * (1 - sin2))
            thick = t[:, None] * g.ends_chord
            g.spray = (g.pierces * 0.24 * thick * thick * cut * self.model["Spray"]
                       * risen(g.beyond / g.ends_chord) * risen(wet[:, None] / g.ends_chord))
            joined = self.begins[g.piece] & (g.low == 0) & ~g.pierces[:, 0]
            thick = t * g.ends_chord[:, 0]
            g.junction = (joined * self.model["Junction"] * thick * thick * section.crossing_drag(t) / 2
                          * risen(-g.ends_point[:, 0, 2] / g.ends_chord[:, 0]))
        w.spray, w.junction = w.q * g.spray, w.q * g.junction

    def bodies_loads(self, g, turn, height, speed):
        """Drag and buoyancy of the bodies that are under water, with their places."""
        out = []
        for d, point in zip(self.bodies, self.body_point):
            turns, origins = g.pose
            place = turn @ point + [0, 0, height] if d["Foil"] < 0 else turns[d["Foil"]] @ point + origins[d["Foil"]]
            radius, length = d["Diameter"] / 2, d["Length"]
            h = min(1, max(-1, -place[2] / radius)) if radius else -1
            wet = (2 + 3 * h - h ** 3) / 4
            if wet == 0 or length == 0:
                continue
            slender = d["Diameter"] / length
            form = 1 + 1.5 * slender * math.sqrt(slender) + 7 * slender ** 3
            c = length / 2
            mean = (radius ** (2 * THOMSEN) + 2 * (radius * c) ** THOMSEN) / 3
            skin = 4 * math.pi * mean ** (1 / THOMSEN)
            cf = section.turbulent_line(speed * length / self.viscosity) * form
            drag = self.density / 2 * speed * speed * cf * self.model["Friction"] * skin * wet
            lift = self.density * GRAVITY * math.pi / 6 * length * d["Diameter"] ** 2 * wet
            out.append(((d["Name"], ""), place, drag, lift))
        return out

    def windage(self, g, wind, density, speed, angle):
        """Force on the dry parts, (gap, 3 points, 3), and the places."""
        piece, low, high = (np.array(c) for c in zip(*g.dry))
        if not hasattr(g, "dry_place"):
            share = low[:, None] + (high - low)[:, None] * GAUSS
            which = np.broadcast_to(piece[:, None], share.shape)
            point = self.paths.at(which, share)[0]
            turns, origins = g.pose
            g.dry_place = np.einsum("gij,gkj->gki", turns[self.foil[piece]], point) + origins[self.foil[piece]][:, None]
            g.dry_area = self.chord.at(which, share) * (self.paths.whole[piece] * (high - low))[:, None] * GAUSS_WEIGHT
            g.dry_parts = [self.names[i] for i in piece]
        v = wind.over_boat(speed, angle, g.dry_place[..., 2])
        push = density / 2 * np.linalg.norm(v, axis=-1) * g.dry_area * self.model["RaisedFoil"] * self.model["Windage"]
        return v * push[..., None], g.dry_place

    def cavitation(self, g, w):
        """Cavitation margin of every strip of every piece, (piece, strip)."""
        if not hasattr(w, "margins"):
            w.margins = self.cavitation_of(g, w)
        return w.margins

    def cavitation_of(self, g, w):
        margins = np.full((len(self.foil), self.strips), NO_MARGIN)
        if not g.n:
            return margins
        table = self.peak_table[g.strip_piece]
        known = table >= 0
        flap = np.where(g.covered < 0.5, 0, w.flap)
        peak = -self.peaks.least(table[known], w.lift[known], flap[known])
        number = (self.above_vapour - self.density * GRAVITY * g.quarter[known, 2]) / w.q
        shaped = np.full(len(table), NO_MARGIN)
        shaped[known] = np.minimum(number - peak, NO_MARGIN)
        # A piece that is wet twice shows as many strips as it has rows.
        first = np.r_[True, g.piece[1:] != g.piece[:-1]]
        margins[g.piece[first]] = shaped.reshape(g.n, -1)[first]
        return margins

    def tip_depths(self, pose):
        """Depth of every piece's outer end."""
        turns, origins = pose
        return -(np.einsum("ij,ij->i", turns[self.foil, 2], self.ends_at) + origins[self.foil, 2])


def risen(t):
    """Smoothly from 0 at 0 to 1 at 1."""
    t = np.minimum(np.maximum(t, 0), 1)
    return t * t * (3 - 2 * t)
