"""A vortex lattice of one row under a free surface in the high-speed limit.

Panels are arrays; nodes are the ends of bound vortices, each once where
neighbours share it, and a trailing leg leaves each along -x. All is per unit
speed and density."""

import numpy as np
from scipy.linalg import lapack

# Lift of a flat plate under a plane of zero potential over that in deep water,
# and its slope, at u = 0, 1/24 ... 1 with the depth in chords u^2/(1-u).
PLATE = np.array([
    (0.5, 0), (0.5043057, 0.183098), (0.5146045, 0.307375), (0.5297156, 0.416443),
    (0.5492312, 0.519863), (0.5730317, 0.622827), (0.6011804, 0.729157), (0.6338882, 0.842178),
    (0.6714732, 0.962774), (0.7140577, 1.077968), (0.7607216, 1.151042), (0.8088144, 1.141461),
    (0.8545235, 1.038238), (0.8943952, 0.867984), (0.9265367, 0.674465), (0.9507937, 0.494200),
    (0.9681730, 0.346033), (0.9801321, 0.233772), (0.9880940, 0.153111), (0.9932339, 0.097135),
    (0.9964384, 0.059196), (0.9983423, 0.033932), (0.9993864, 0.017371), (0.9998714, 0.006707),
    (1, 0)])


def plate_factor(depth):
    """Depth in chords, above zero; cubic Hermite interpolation."""
    h = np.maximum(depth, 1e-300)
    last = len(PLATE) - 1
    place = 2 * h / (h + np.sqrt(h * h + 4 * h)) * last
    i = np.minimum(place.astype(int), last - 1)
    t = place - i
    p, q, s = PLATE[i], PLATE[i + 1], 1 - t
    return np.where(depth <= 0, 0.5,
                    (1 + 2 * t) * s * s * p[:, 0] + t * s * s / last * p[:, 1]
                    + t * t * (3 - 2 * t) * q[:, 0] - t * t * s / last * q[:, 1])


class Lattice:
    """The factorised lattice of one geometry."""

    def __init__(self, nodes, node_surface, node_core, start, end, mid, control, normal, chord, surface):
        self.start, self.end = start, end  # nodes of each panel
        self.surface = surface
        self.bound = nodes[end] - nodes[start]
        # From the lower node to the next, and whether circulation runs that way.
        self.low = np.minimum(start, end)
        self.span = nodes[self.low + 1] - nodes[self.low]
        self.span2 = (self.span ** 2).sum(axis=1)
        self.sense = np.where(end > start, 1, -1) / (4 * np.pi)
        self.nodes, self.mid, self.chord = nodes, mid, chord
        # Where a leg meets another surface its core and that of the strip there count.
        core4 = node_core ** 4
        self.core4 = (surface[:, None] != node_surface[None, :]) * (core4[None, :] + core4[start][:, None])
        n = len(mid)
        # Every panel's circulation leaves its end and comes in at its start.
        self.legs = np.zeros((len(nodes), n))
        self.legs[end, np.arange(n)] = 1
        self.legs[start, np.arange(n)] -= 1
        matrix, self.near = self.influence(control, normal)
        self.far = self.wake()
        self.correct_depth(matrix, control)
        self.factors, self.pivots, info = lapack.dgetrf(matrix, overwrite_a=True)
        if info != 0:
            raise np.linalg.LinAlgError("singular lattice")

    def influence(self, control, normal):
        """Normal velocities at control points, and near-field drags at force
        points from other surfaces, each with the image: a lattice that induces
        (u, v, w) at (x, y, -z) has an image that induces (-u, -v, w) at (x, y, z)."""
        core4 = self.core4
        up = np.array([1, 1, -1.0])
        matrix = self.wash(control, normal, core4) + self.wash(control * up, -normal * up, core4)
        across = np.stack([np.zeros(len(control)), -self.bound[:, 2], self.bound[:, 1]], axis=1)
        # A force point lies on its own surface's vortices; they are left out below.
        with np.errstate(divide="ignore", invalid="ignore"):
            near = self.wash(self.mid, across, core4) + self.wash(self.mid * up, -across * up, core4)
        return np.asfortranarray(matrix), np.where(self.surface[:, None] != self.surface, near, 0)

    def wash(self, target, along, core4):
        """Velocity along vectors at targets from unit circulation of each panel.

        A bound vortex from a to b induces (a x b)(a + b)/(4 pi ab(ab + a.b))
        (Biot and Savart), with a x b = l x a and 2(ab + a.b) = (a + b)^2 - l^2; a
        leg (0, Z, -Y)(R - X)/(4 pi R q), on other surfaces with a core (Vatistas)."""
        dx, dy, dz = (np.subtract.outer(target[:, k], self.nodes[:, k]) for k in range(3))
        nx, ny, nz = along[:, 0, None], along[:, 1, None], along[:, 2, None]
        q = dy * dy + dz * dz
        r = np.sqrt(dx * dx + q)
        leg = (r - dx) * (ny * dz - nz * dy) / (r * np.sqrt(q * q + core4))
        lx, ly, lz = self.span.T
        ax, ay, az, ra = dx[:, self.low], dy[:, self.low], dz[:, self.low], r[:, self.low]
        rb = r[:, self.low + 1]
        sum_ = ra + rb
        triple = ax * (ny * lz - nz * ly) + ay * (nz * lx - nx * lz) + az * (nx * ly - ny * lx)
        bound = 2 * triple * sum_ / (ra * rb * (sum_ * sum_ - self.span2))
        return (bound + leg[:, self.low + 1] - leg[:, self.low]) * self.sense

    def wake(self):
        """Far-wake drag of each strip's unit circulation in each other's wash."""
        y, z = self.mid[:, 1, None], self.mid[:, 2, None]
        dy, up, down = y - self.nodes[:, 1], z - self.nodes[:, 2], -z - self.nodes[:, 2]
        core4 = self.core4
        dy2 = dy * dy
        f = 1 / np.sqrt((dy2 + up * up) ** 2 + core4)
        mf = 1 / np.sqrt((dy2 + down * down) ** 2 + core4)
        ly, lz = self.bound[:, 1, None] / (4 * np.pi), self.bound[:, 2, None] / (4 * np.pi)
        # The image's part alone, as the waves take it off: see wave.
        self.image = mf * (down * lz - dy * ly)
        pull = self.image - f * (up * lz + dy * ly)
        return pull[:, self.end] - pull[:, self.start]

    def correct_depth(self, matrix, control):
        """What the image of a whole plate does beyond that of one vortex."""
        across = self.bound[:, 1] ** 2 + self.bound[:, 2] ** 2
        chord = self.chord * np.sqrt(across / (across + self.bound[:, 0] ** 2))
        depth = np.maximum(-(self.mid[:, 2] + control[:, 2]) / 2 / chord, 0)
        lumped = (16 * depth * depth + 1) / (16 * depth * depth + 2)
        i = np.arange(len(chord))
        matrix[i, i] -= self.bound[:, 1] ** 2 / across * (1 / plate_factor(depth) - 1 / lumped) / (np.pi * chord)

    def solve(self, wash):
        """Circulations over speed, m, for right-hand sides in columns."""
        return lapack.dgetrs(self.factors, self.pivots, wash)[0]

    def forces(self, circulation):
        """Force on each panel over rho V^2, m2: Kutta-Joukowski in the undisturbed
        stream, and the far wake's induced drag shared out over the strips."""
        own = self.surface[:, None] == self.surface[None, :]
        wash = self.far * circulation
        induced = circulation * wash.sum(axis=1)
        drag = circulation * (self.near @ circulation) + circulation * (wash * own).sum(axis=1)
        missing = induced.sum() - drag.sum()
        square = (drag * drag).mean()
        if square > 0:
            weight = np.sqrt(drag * drag + 1e-6 * square)
            drag = drag + missing * weight / weight.sum()
        force = np.empty((len(drag), 3))
        force[:, 0] = -drag
        force[:, 1], force[:, 2] = circulation * self.bound[:, 2], -circulation * self.bound[:, 1]
        return force
