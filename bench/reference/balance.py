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
    """Loads of one state: groups of forces with places, and their sums."""

    def __init__(self, state):
        self.datum = np.array([0, 0, state.height])
        self.force, self.moment = np.zeros(3), np.zeros(3)
        self.groups = []

    def add(self, names, force, place):
        """Forces by item, (item, any, 3), at places of the same shape."""
        self.force += force.sum(axis=(0, 1))
        self.moment += cross(place - self.datum, force).sum(axis=(0, 1))
        self.groups.append((names, force, place, None))

    def turn(self, names, moment):
        """Pure moments by item, (item, any, 3)."""
        self.moment += moment.sum(axis=(0, 1))
        self.groups.append((names, None, None, moment))

    def items(self):
        """Force and moment about the datum of every item, by part, piece and cause."""
        out = {}
        for names, force, place, moment in self.groups:
            for i, name in enumerate(names):
                total = out.setdefault(name, np.zeros((2, 3)))
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
        self.mass_names = [w["Name"] for w in boat["Weights"]] + [f["Name"] for f in boat["Foils"]]
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
        sails = self.keep(("sails", s.attitude, s.speed, s.angle), lambda: self.sails.place(s.turn, s.height, s.speed, s.angle))
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
        out.add([(n, "", "weight") for n in self.mass_names], down(-GRAVITY * self.masses)[:, None], at[:, None])
        return places - self.places

    def water(self, out, s, g, w):
        for name, place, drag, lift in self.foils.bodies_loads(g, s.turn, s.height, s.speed):
            out.add([(name, "", "bodies"), (name, "", "buoyancy")], np.array([[[-drag, 0, 0]], [[0, 0, lift]]]),
                    np.array([[place], [place]]))
        if not g.n:
            return
        names = lambda cause: [(*self.foils.names[i], cause) for i in g.piece]
        by = lambda a: a.reshape(g.n, -1, 3)
        quarter, force = by(g.quarter), w.lattice_force
        out.add(names("lift"), by(force * [0, 1, 1]), quarter)
        out.add(names("induced drag"), by(force * [1, 0, 0]), quarter)
        for cause, drag in (("waves", w.wave), ("profile drag", w.profile), ("stall", w.stall)):
            out.add(names(cause), by(aft(drag)), quarter)
        out.turn(names("profile drag"), by(w.moment))
        out.add(names("buoyancy"), by(down(w.buoyancy)), by(w.middle))
        out.add(names("spray"), aft(w.spray), g.ends_point)
        out.add(names("junctions"), aft(w.junction)[:, None], g.ends_point[:, :1])

    def air(self, out, s, g, sails, moved):
        forces, self.margins = self.sails.pull(sails, s.settings)
        n = len(self.sails.sails)
        by = lambda a: a.reshape(n, -1, 3)
        for cause, force in zip(("sail lift", "sail induced drag", "sail section drag"), forces):
            out.add([(name, "", cause) for name in self.sails.names], by(force), by(sails.at))
        force, place = self.windage.loads(s.turn, s.height, s.speed, s.angle, moved)
        out.add([(name, "", "windage") for name in self.windage.names], force, place)
        force, place = self.foils.windage(g, self.wind, self.density, s.speed, s.angle)
        out.add([(*self.foils.names[i], "windage") for i in g.dry_piece], force, place)

    def residual(self, loads):
        """The six sums over weight, and weight times length."""
        return np.concatenate([loads.force / self.weight, loads.moment / self.arm])


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
