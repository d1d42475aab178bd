"""What waves of a finite Froude number add to the drag of strips under a
surface of zero potential: W - 2 sigma."""

import numpy as np

DECAY = 25.0      # exponent below which an amplitude counts for nothing
BLURRING = 3.5    # radians over a strip at which its amplitude fades
MOST = 400        # directions on either side of the track
COHERENCE = 0.7   # see coherent below
DIGITS, CROWDED, SPARED = 14.0, 1.5, 6.0
BLURRED = 0.15    # rad, past which blurring would grow in the complex plane


def increment(lattice, circulation, k0):
    """Drag increment of each strip over density, m4/s2; circulation in m2/s,
    k0 = g/V^2."""
    leg = lattice.legs @ circulation
    share = -2 * circulation * (lattice.image @ leg)
    return share + waves(lattice, circulation, k0)


def waves(lattice, circulation, k0):
    """W over density, m4/s2, of each strip: the trapezoidal rule over directions."""
    mid, ly, lz = lattice.mid, lattice.bound[:, 1], lattice.bound[:, 2]
    z = np.minimum(mid[:, 2], 0)
    width = np.hypot(ly, lz)
    middle = (width[:, None] * mid[:, :2]).sum(axis=0) / width.sum()
    depth = (width * -z).sum() / width.sum()
    x, y = mid[:, 0] - middle[0], mid[:, 1] - middle[1]
    surfaces, which = np.unique(lattice.surface, return_inverse=True)
    belongs = (which[:, None] == np.arange(len(surfaces))).astype(float)  # (strip, surface)
    widths, moments = width @ belongs, (width * y) @ belongs
    apart = 2 * np.sqrt((moments ** 2 / widths).sum() / width.sum())
    length = np.sqrt(12 * (width * x * x).sum() / width.sum())
    breadth = np.sqrt(12 * (width * y * y).sum() / width.sum())
    dy, dz = ly / BLURRING, lz / BLURRING
    root = DECAY ** 0.25
    with np.errstate(divide="ignore"):
        deepest = np.where(z < 0, -DECAY / z, np.inf)
        reach = np.minimum(np.minimum(k0 + root / np.abs(dy), root / np.abs(dz)), deepest).max()
    if reach <= k0:
        return np.zeros_like(circulation)
    alpha = np.arctan2(2 * depth, breadth) / 2
    even = 2 * np.pi / (k0 * (breadth + CROWDED * length) + DIGITS / max(alpha, 0.02))
    step = 2 * np.pi / (k0 * (breadth + CROWDED * length) + DIGITS / max(min(alpha, BLURRED), 0.02))
    a = max(1.0, min(SPARED / np.sqrt(k0 * (breadth + length)), 2 * np.pi / DIGITS / step))
    last = np.arcsinh(np.sqrt(reach / k0 - 1) / a)
    step = max(step, last / MOST)

    u = np.arange(int(last / step) + 1) * step
    sinh = a * np.sinh(u)[:, None]
    cosh = np.sqrt(1 + sinh * sinh)
    weight = k0 * k0 / (2 * np.pi) * step * a * np.cosh(u)[:, None] * cosh
    weight[0] /= 2
    # Surfaces apart across the stream: what waves too short for the quadrature do
    # between them counts neither way.
    coherent = np.exp(-(COHERENCE * k0 * apart * even * sinh * sinh) ** 2)

    along, across, kappa = k0 * cosh, k0 * cosh * sinh, k0 * cosh * cosh
    blur = (across * dy) ** 2 + (kappa * dz) ** 2
    exponent = kappa * z - blur * blur
    # Short waves are made by shallow strips alone: the rest is not computed.
    which_t, which_s = np.nonzero(exponent > -DECAY)
    size = np.exp(exponent[which_t, which_s])
    phase_x = along[which_t, 0] * x[which_s]
    phase_y = across[which_t, 0] * y[which_s]
    vertical = size * cosh[which_t, 0] * (circulation * ly)[which_s]
    lateral = size * sinh[which_t, 0] * (circulation * lz)[which_s]
    cell = which_t * len(surfaces) + which[which_s]   # direction and surface
    cells = len(u) * len(surfaces)
    share = np.zeros(len(circulation))
    for phase, lateral in ((phase_x + phase_y, lateral), (phase_x - phase_y, -lateral)):
        sin, cos = np.sin(phase), np.cos(phase)
        for part in (lateral * cos - vertical * sin, vertical * cos + lateral * sin):
            own = np.bincount(cell, part, cells).reshape(len(u), -1)
            felt = weight * ((1 - coherent) * own + coherent * own.sum(axis=1, keepdims=True))
            share += np.bincount(which_s, felt.ravel()[cell] * part, len(circulation))
    return share
