"""The roll of a link about its own line, and what its joints see of it."""

import numpy as np
from scipy.optimize import brentq

from algebra import LONG, angle_between, carried, cross, dot, length, turned, unit


def wrapped(angle):
    return (angle + np.pi) % (2 * np.pi) - np.pi


class End:
    """One joint of a link: bolt now, bore at the link's reference roll, limit."""

    def __init__(self, name, bolt, bore, limit, line):
        self.name, self.limit = name, None if limit is None else float(limit)
        self.bolt, self.bore, self.line = bolt, bore, line
        across_bolt = bolt - dot(bolt, line) * line
        across_bore = bore - dot(bore, line) * line
        self.center = float(
            np.arctan2(dot(line, cross(across_bore, across_bolt)), dot(across_bore, across_bolt))
        )

    def misalignment(self, roll):
        return float(angle_between(self.bolt, turned(self.bore, self.line, np.asarray(LONG(roll)))))

    def window(self):
        """Half-width of the allowed roll about `center`: None for a full circle, < 0 for empty."""
        if self.limit is None:
            return None
        low, high = self.misalignment(self.center), self.misalignment(self.center + np.pi)
        if high <= self.limit:
            return None
        if low > self.limit:
            return -1.0
        return brentq(
            lambda half: self.misalignment(self.center + half) - self.limit, 0, np.pi, xtol=1e-15, rtol=1e-15
        ) if low < self.limit else 0.0


def drawn_bore(bolt, bore, clocking, line):
    """Bore of a joint as drawn: given or the bolt projected square to the drawn line; then clocked."""
    bolt, line = unit(np.asarray(bolt, LONG)), unit(np.asarray(line, LONG))
    if bore is None:
        across = bolt - dot(bolt, line) * line
        if length(across) < 1e-12:
            return None
        bore = unit(across)
    else:
        bore = unit(np.asarray(bore, LONG))
        if dot(bolt, bore) < 0:
            bore = -bore
    return turned(bore, line, np.asarray(LONG(clocking)))


def rolling_parts(view):
    """(part, [End …]) of every link and rod that has a joint with a bolt or stud."""
    found = []
    ends = view.link_ends()
    for link in view.data["links"]:
        a, c = ends[link["name"]]
        drawn = unit(np.subtract(link["chassis"]["at"], link["axle"]["at"]).astype(LONG))
        now = unit(c - a)
        joints = []
        for end, body in ((link["axle"], "axle"), (link["chassis"], "chassis")):
            if end["bolt"] is None:
                continue
            bore = drawn_bore(end["bolt"], end["bore"], end["clocking"], drawn)
            if bore is not None:
                bolt = view.direction_on(body, unit(np.asarray(end["bolt"], LONG)))
                joints.append(End(end["name"], bolt, carried(bore, drawn, now), end["limit"], now))
        found.append((link["name"], joints))
    for name, rod in view.steering.rods.items():
        a, c = view.rod_ends(name)
        drawn = unit(np.subtract(rod["to"]["at"], rod["from"]["at"]).astype(LONG))
        now = unit(c - a)
        joints = []
        for key in ("from", "to"):
            end = rod[key]
            if end["stud"] is None:
                continue
            bore = drawn_bore(end["stud"], None, 0, drawn)
            if bore is not None:
                bolt = view.direction_on(end["on"], unit(np.asarray(end["stud"], LONG)))
                joints.append(End(f"{name}.{key}", bolt, carried(bore, drawn, now), end["limit"], now))
        found.append((name, joints))
    return [(name, joints) for name, joints in found if joints]


def easiest_roll(joints):
    """Roll at which the larger share of the ends' limits is least."""
    limited = [j for j in joints if j.limit is not None]
    chosen = limited or joints
    if len(chosen) == 1:
        return chosen[0].center
    a, c = chosen
    share = lambda j, roll: j.misalignment(roll) / (j.limit if limited else 1.0)
    gap = lambda roll: share(a, roll) - share(c, roll)
    candidates = [a.center, c.center]
    grid = np.linspace(-np.pi, np.pi, 721)
    values = [gap(x) for x in grid]
    for low, high, f, g in zip(grid, grid[1:], values, values[1:]):
        if f * g < 0:
            candidates.append(brentq(gap, low, high, xtol=1e-15, rtol=1e-15))
    return min(candidates, key=lambda roll: max(share(a, roll), share(c, roll)))


def roll_window(joints):
    """(low, high) of the roll that all limits allow, 'full', or 'empty'."""
    arcs = [(j.center, w) for j in joints if (w := j.window()) is not None]
    if any(w < 0 for _, w in arcs):
        return "empty"
    if not arcs:
        return "full"
    if len(arcs) == 1:
        (center, w), = arcs
        return center - w, center + w
    (ca, wa), (cc, wc) = arcs
    middle = wrapped(cc - ca)
    pieces = []
    for shift in (-2 * np.pi, 0, 2 * np.pi):
        low, high = max(-wa, middle + shift - wc), min(wa, middle + shift + wc)
        if low <= high:
            pieces.append((ca + low, ca + high))
    if not pieces:
        return "empty"
    holding = [p for p in pieces if (0 - p[0]) % (2 * np.pi) <= p[1] - p[0]]
    return holding[0] if holding else max(pieces, key=lambda p: p[1] - p[0])


def largest_in(joint, window):
    if window == "full":
        return joint.misalignment(joint.center + np.pi)
    low, high = window
    values = [joint.misalignment(low), joint.misalignment(high)]
    if (joint.center + np.pi - low) % (2 * np.pi) <= high - low:
        values.append(joint.misalignment(joint.center + np.pi))
    return max(values)
