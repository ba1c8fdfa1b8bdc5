"""The two knuckles' turns for a given axle pose, by a general root finder on the rods' lengths.

Everything is done in the axle frame, where kingpin axes rest and chassis points move. Unknowns: each
knuckle's right-handed turn about its kingpin axis taken upward. Conditions: the lengths of the two rods.
A rod that carries another rod's end or a ram's end takes the smallest rotation of its line from the
drawn one, in the axle frame, then turns about that line by `roll.at`, right-handed from its `from` end
to its `to` end; its `from` joint is where its body is held.
"""

import numpy as np
from scipy.optimize import least_squares

from algebra import LONG, apply, carried, jacobian, length, turned, unit
from axle import Unreachable

SIDES = ("left", "right")


class Steering:
    """The steering of one axle; `present` is False where the axle has no knuckles."""

    def __init__(self, axle):
        self.present = axle["knuckles"] is not None
        self.rods = {}
        if not self.present:
            return
        self.origin = np.asarray(axle["origin"], float)
        self.half = axle["wheelCenters"] / 2
        self.knuckles = axle["knuckles"]
        self.pivot, self.axis = {}, {}
        for side in SIDES:
            kingpin = self.knuckles[side]["kingpin"]
            self.pivot[side] = np.subtract(kingpin["lower"], self.origin)
            self.axis[side] = np.subtract(kingpin["upper"], kingpin["lower"])
            self.axis[side] = self.axis[side] / np.linalg.norm(self.axis[side])
        self.data = axle["steering"]
        self.sense = 1
        if self.data is None:
            return
        if self.data["dragLink"]:
            self.rods["drag link"] = self.data["dragLink"]
        for rod in self.data["tieRods"]:
            self.rods[rod["name"]] = rod
        self.box = self.data["box"]
        self.double = next((ram for ram in self.data["rams"] if ram["kind"] == "double"), None)
        self.drawn_length = {
            name: float(np.linalg.norm(np.subtract(rod["to"]["at"], rod["from"]["at"])))
            for name, rod in self.rods.items()
        }
        self.free = {
            name: self.drawn_length[name] if rod["length"] is None else rod["length"]
            for name, rod in self.rods.items()
        }
        if self.box and self.box["wheelsLeft"]:
            self.sense = self.box["wheelsLeft"]
        elif self.box or self.double:
            self.sense = self.find_sense()

    @property
    def driven(self):
        return self.present and self.data is not None and (self.box is not None or self.double is not None)

    def find_sense(self):
        """Sense of the input that turns the wheels left at the drawn ride height."""
        r, o = np.eye(3), self.origin.copy()
        straight = np.zeros(2)
        small = 1e-3
        turns = self.start(straight, r, o, small, self.drawn_length)
        heading = 0.0
        for side, turn in zip(SIDES, turns):
            n = self.knuckle_vector(np.array([0.0, 1.0, 0.0]), side, np.asarray(turn))
            heading += float(np.arctan2(-n[0], n[1]))
        return 1 if heading > 0 else -1

    # --- points ---

    def knuckle_vector(self, v, side, turn):
        return turned(v, self.axis[side] + 0 * v, turn)

    def knuckle_point(self, point_in_axle, side, turn):
        arm = point_in_axle - self.pivot[side]
        return self.pivot[side] + turned(arm, self.axis[side] + 0 * arm, turn)

    def on_body(self, at, on, turns, r, o, value):
        """A point (vehicle axes as drawn) on a body, now, in the axle frame.

        turns (...,2); r, o: the axle's pose; value: pitman angle (rad) or ram travel (in).
        """
        grow = 0 * turns[..., :1]
        in_axle = np.subtract(at, self.origin) + grow
        if on in ("left knuckle", "right knuckle"):
            side = on.split()[0]
            return self.knuckle_point(in_axle, side, turns[..., SIDES.index(side)])
        if on == "axle":
            return in_axle
        if on == "chassis":
            return apply(r.T + 0 * grow[..., None], np.asarray(at, float) - o + grow)
        if on == "pitman arm":
            axis_at = np.asarray(self.box["axis"]["at"], float)
            direction = np.asarray(self.box["axis"]["direction"], float)
            direction = direction / np.linalg.norm(direction)
            arm = np.subtract(at, axis_at)
            angle = np.asarray(self.sense * value)
            now = axis_at + turned(arm + 0 * angle, direction + 0 * angle, angle)
            return apply(r.T + 0 * grow[..., None], now - o + grow)
        if on == "ram rod":
            axis = np.asarray(self.double["axis"], float)
            return in_axle + self.sense * value * axis / np.linalg.norm(axis)
        if on in self.rods:
            return self.on_rod(at, on, turns, r, o, value)
        raise ValueError(f"no body named {on}")

    def rod_ends(self, name, turns, r, o, value):
        rod = self.rods[name]
        return tuple(
            self.on_body(end["at"], end["on"], turns, r, o, value) for end in (rod["from"], rod["to"])
        )

    def rod_vector(self, v, name, ends):
        """A drawn direction carried along with a rod's body."""
        rod = self.rods[name]
        drawn = unit(np.subtract(rod["to"]["at"], rod["from"]["at"]) + 0 * ends[0])
        now = unit(ends[1] - ends[0])
        at = rod["roll"]["at"] if rod["roll"] else 0.0
        out = carried(v + 0 * ends[0], drawn, now)
        return turned(out, now, at + 0 * now[..., 0]) if at else out

    def on_rod(self, at, name, turns, r, o, value):
        ends = self.rod_ends(name, turns, r, o, value)
        return ends[0] + self.rod_vector(np.subtract(at, self.rods[name]["from"]["at"]), name, ends)

    # --- solving ---

    def errors(self, turns, r, o, value, free):
        """Length errors of all rods, inches: (...,2) to (..., rods)."""
        rows = []
        for name in self.rods:
            a, b = self.rod_ends(name, turns, r, o, value)
            rows.append(length(b - a) - free[name])
        return np.stack(rows, axis=-1)

    def start(self, turns, r, o, value, free):
        r, o = np.asarray(r, float), np.asarray(o, float)
        function = lambda t: self.errors(t, r, o, float(value), free)
        found = least_squares(
            function,
            np.asarray(turns, float),
            jac=lambda t: jacobian(function, t),
            method="lm",
            xtol=1e-15,
            ftol=1e-15,
            gtol=1e-15,
        )
        if np.abs(found.fun).max() > 1e-8:
            raise Unreachable(f"rods stay open by {np.abs(found.fun).max():.3g} in")
        return found.x

    def solve(self, turns, r, o, value, free=None):
        """Both knuckles' turns near `turns`; returns them, the largest length error, the branch's sign."""
        free = free or self.free
        turns = self.start(turns, r, o, value, free).astype(LONG)
        r, o, value = np.asarray(r, LONG), np.asarray(o, LONG), LONG(value)
        function = lambda t: self.errors(t, r, o, value, free)
        last = np.inf
        for _ in range(10):
            step = np.linalg.solve(jacobian(function, turns).astype(float), -function(turns).astype(float))
            size = float(np.abs(step).max())
            if not np.isfinite(size) or size > 0.5:
                raise Unreachable("the last steps ran away")
            turns = turns + step
            if size < 1e-18 or (size < 1e-13 and size >= last / 2):
                break
            last = size
        worst = float(np.abs(function(turns)).max())
        if worst > 1e-12:
            raise Unreachable(f"rods stay open by {worst:.3g} in")
        sign = np.sign(np.linalg.det(jacobian(function, turns).astype(float)))
        return turns, worst, sign
