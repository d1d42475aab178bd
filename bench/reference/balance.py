"""Every load on the boat in one state, and the six sums about the datum."""

import math

import numpy as np

from foil import GRAVITY, Foils
from sail import Sails, Wind, Windage, cross, vector


class State:
    """What varies of a boat: speed, attitude, wind angle, settings."""

    def __init__(self, speed, leeway, heel, pitch, height, angle, settings):
        self.speed, self.height, self.angle, self.settings = speed, height, angle, settings
        self.attitude = (leeway, heel, pitch, height)
        self.turn = track_from_boat(leeway, pitch, heel)


def track_from_boat(leeway, pitch, heel):
    """Rz(leeway) Ry(pitch) Rx(heel)."""
    cl, sl = math.cos(leeway), math.sin(leeway)
    cp, sp = math.cos(pitch), math.sin(pitch)
    ch, sh = math.cos(heel), math.sin(heel)
    return np.array([[cl * cp, cl * sp * sh - sl * ch, cl * sp * ch + sl * sh],
                     [sl * cp, sl * sp * sh + cl * ch, sl * sp * ch - cl * sh],
                     [-sp, cp * sh, cp * ch]])


class Loads:
    """Loads of one state: groups of forces with places, and their sums.

    A group has a row of forces for each part; moments come out of the sums of
    place times force, one small matrix product a group."""

    def __init__(self, state):
        self.datum = np.array([0, 0, state.height])
        self.force, self.products, self.turning = np.zeros(3), np.zeros((3, 3)), np.zeros(3)
        self.groups = []

    def add(self, parts, cause, force, place):
        """Forces, (part, any, 3), at places of the same shape."""
        flat = force.reshape(-1, 3)
        self.force += flat.sum(axis=0)
        self.products += place.reshape(-1, 3).T @ flat
        self.groups.append((parts, cause, force, place, None))

    def turn(self, parts, cause, moment):
        """Pure moments, (part, any, 3)."""
        self.turning += moment.reshape(-1, 3).sum(axis=0)
        self.groups.append((parts, cause, None, None, moment))

    def moment(self):
        """Sum of moments about the datum."""
        p, f, z = self.products, self.force, self.datum[2]
        about_origin = np.array([p[1, 2] - p[2, 1], p[2, 0] - p[0, 2], p[0, 1] - p[1, 0]])
        return about_origin + self.turning - np.array([-z * f[1], z * f[0], 0])

    def items(self):
        """Force and moment about the datum of every item, by part, piece and cause."""
        out = {}
        for parts, cause, force, place, moment in self.groups:
            for i, part in enumerate(parts):
                total = out.setdefault((*part, cause), np.zeros((2, 3)))
                if moment is not None:
                    total[1] += moment[i].sum(axis=0)
                else:
                    total[0] += force[i].sum(axis=0)
                    total[1] += cross(place[i] - self.datum, force[i]).sum(axis=0)
        return out


class Balance:
    """One boat with one set of sails up. What a state shares with the one before
    (lattice, water loads, the sails' equations) is kept until forget."""

    def __init__(self, problem):
        boat = problem["Boat"]
        self.density = problem["Air"]["Density"]
        self.wind = Wind(problem["Wind"])
        self.foils = Foils(boat, problem)
        self.sails = Sails(boat, problem, self.wind)
        self.windage = Windage(boat, problem, self.wind)
        self.weight, self.arm = problem["Weight"], problem["Weight"] * boat["Length"]
        self.hung = [(w["Name"], "") for w in boat["Weights"]] + [(f["Name"], "") for f in boat["Foils"]]
        self.masses = np.array([w["Mass"] for w in boat["Weights"]] + [f["Mass"] for f in boat["Foils"]])
        self.places = np.array([vector(w["At"]) for w in boat["Weights"]])
        self.shifts = [(i, axis, c) for i, w in enumerate(boat["Weights"]) for axis, c in enumerate(w["Shift"]) if c >= 0]
        self.movers = sorted({c for f in self.foils.moves for _, c, _ in f if c >= 0})
        self.flaps = sorted({c for c in self.foils.flap_control if c >= 0})
        self.kept = {}

    def forget(self):
        self.kept = {}

    def keep(self, key, make):
        if key not in self.kept:
            self.kept[key] = make()
        return self.kept[key]

    def at(self, s):
        """Loads of a state, the geometry in the water, its loads, the sails' margins."""
        out, settings = Loads(s), s.settings
        where = (*s.attitude, *settings[self.movers])
        g = self.keep(("geometry", where), lambda: self.foils.lay(s.turn, s.height, settings))
        w = self.keep(("water", where, s.speed, *settings[self.flaps]), lambda: self.foils.loads(g, s.speed, settings))
        sails = self.keep(("sails", s.attitude, s.speed, s.angle),
                          lambda: self.sails.place(s.turn, s.height, s.speed, s.angle))
        moved = self.weights(out, s, g)
        self.water(out, s, g, w)
        self.air(out, s, g, sails, moved)
        return out, g, w, self.margins

    def weights(self, out, s, g):
        places = self.places.copy()
        for i, axis, control in self.shifts:
            places[i, axis] = s.settings[control]
        turns, origins = g.pose
        hung = np.einsum("fij,fj->fi", turns, self.foils.mass_point) + origins
        at = np.concatenate([places @ s.turn.T + [0, 0, s.height], hung])
        out.add(self.hung, "weight", down(-GRAVITY * self.masses)[:, None], at[:, None])
        return places - self.places

    def water(self, out, s, g, w):
        for part, place, drag, lift in self.foils.bodies_loads(g, s.turn, s.height, s.speed):
            out.add([part], "bodies", np.array([-drag, 0, 0]).reshape(1, 1, 3), place.reshape(1, 1, 3))
            out.add([part], "buoyancy", np.array([0, 0, lift]).reshape(1, 1, 3), place.reshape(1, 1, 3))
        if not g.n:
            return
        by = lambda a: a.reshape(g.n, -1, 3)
        quarter = by(g.quarter)
        out.add(g.parts, "lift", by(w.lattice_force * [0, 1, 1]), quarter)
        out.add(g.parts, "induced drag", by(w.lattice_force * [1, 0, 0]), quarter)
        for cause, drag in (("waves", w.wave), ("profile drag", w.profile), ("stall", w.stall)):
            out.add(g.parts, cause, by(aft(drag)), quarter)
        out.turn(g.parts, "profile drag", by(w.moment))
        out.add(g.parts, "buoyancy", by(down(w.buoyancy)), by(w.middle))
        out.add(g.parts, "spray", aft(w.spray), g.ends_point)
        out.add(g.parts, "junctions", aft(w.junction)[:, None], g.ends_point[:, :1])

    def air(self, out, s, g, sails, moved):
        forces, self.margins = self.sails.pull(sails, s.settings)
        by = lambda a: a.reshape(len(self.sails.parts), -1, 3)
        for cause, force in zip(("sail lift", "sail induced drag", "sail section drag"), forces):
            out.add(self.sails.parts, cause, by(force), by(sails.at))
        force, place = self.windage.loads(s.turn, s.height, s.speed, s.angle, moved)
        out.add(self.windage.parts, "windage", force, place)
        force, place = self.foils.windage(g, self.wind, self.density, s.speed, s.angle)
        out.add(g.dry_parts, "windage", force, place)

    def residual(self, loads):
        """The six sums over weight, and weight times length."""
        return np.concatenate([loads.force / self.weight, loads.moment() / self.arm])


def down(size):
    """Vertical vectors of sizes, upward."""
    out = np.zeros((*np.shape(size), 3))
    out[..., 2] = size
    return out


def aft(size):
    """Vectors against the track of sizes."""
    out = np.zeros((*np.shape(size), 3))
    out[..., 0] = -size
    return out
