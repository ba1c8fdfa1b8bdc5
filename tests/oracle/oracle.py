"""Independent computation of an axle's pose, for checking the solver.

Usage: /usr/bin/python3 -B oracle.py BUILD.json [AXLE] LEFT,RIGHT[,STEER] …
BUILD.json is a resolved Build as dump.ts writes it; travels in inches, steer in degrees of pitman arm or
inches of ram rod. Prints one record (JSON) a pose.

Method. The axle is six numbers, a rotation vector and a translation from drawn; shared joints that give
and radius arms bring their own (axle.py). Lengths, wheel heights and rigid joints are written as they
stand in the words of the definition; scipy's least_squares (Levenberg-Marquardt) finds the pose, and
Newton in extended precision (64-bit mantissa) with complex-step derivatives finishes it. Knuckles are
solved afterwards from the two rods' lengths (steering.py). A pose is followed from ride height along the
straight line in (left, right, steer) in steps of at most 1/2 in and 2 deg; the sign of the Jacobian's
determinant (exact layouts) or the least curvature of the energy along the free motions (the others) must
not change on the way, so that the branch is the one that was measured. Derivatives in measures come from
eighth-order central differences of poses solved anew.

Nothing is shared with the solver that this checks: no coordinates (it uses yaw, roll, pitch; this a
rotation vector), no elimination, no code.

Readings taken where the words leave a choice:
 1. Rates are fixed at the drawn ride height: L and θ in the series come from the drawn points, also
    where a length is given. Null rates are rigid; a null bolt counts as square to the line. A rate of
    the shared joint that gives is left out of the series with radial and axial of that end; a bracket's
    rate of that end stays in.
 2. A shared joint gives with its radial rate in every direction, unless it has an axial rate and a bolt.
 3. Four lengths and no arm: exact, whatever rates they have (a shared joint that gives has no load).
 4. Radius arm: the bore is the bolt as drawn unless given (no projection: drawn is free of bind); a
    bracket's rate is in series with each of the joint's; the tube is rigid. Offsets are taken in the
    bracket's axes. The energy of a conical rate is that of the angle between the two axes.
 5. A rod with a given length is measured from its `from` joint: a point on it keeps its place from there.
 6. Rolls of rods: smallest rotation of the line in the axle frame, then `roll.at` about from→to, also
    for a rod `held` by its studs, and also for a drag link that carries a tie rod.
 7. Double-ended ram: rod ends move along the ram's axis without turning; + is the sense that turns the
    wheels left (found at ride height), not necessarily to the left.
 8. Spin axis at rest: toe and camber are those of the measures' own definitions (atan2 and asin).
 9. Roll of a link where its misalignment is least: over the full circle, whether or not an end holds the
    roll; where one end has no limit, the other's misalignment is least; where neither has, both count
    alike. Windows ignore `holdsRoll`.
10. Crossed anti values: the housing's contact point below that wheel, by that wheel's travel.
11. `bumpSteer` and its like on an axle without knuckles: the spin axis is the housing's Y.
12. Phase of the driveshaft: the shaft's own two yokes, right-handed about the line from pinion to
    transfer case. Ripple: pinion speed over transfer-case speed, greatest less least.
13. overCenterMargin: of each rod that ends on a knuckle and whose other end stands without it: not where
    the drag link holds the tie rod, since neither is a circle and a sphere there.
14. turningCircle is null too where the wheels' crossings lie on either side of the center plane, y = 0.

Accuracy (verify.py measures it): conditions hold to 1e-17 in, the energy's gradient to 1e-12 lbf (moments
divided by half the track), poses agree with 40-digit arithmetic to the last bit of a double, derivatives
with those of half the step to 1e-12. What is left is the rounding of the points to the axle's origin, about
4e-15 in.
"""

import json
import sys

import numpy as np

from algebra import LONG
from axle import Axle, Unreachable
from steering import Steering

TRAVEL_STEP = 0.5  # in
STEER_STEP = {"deg": 2.0, "in": 0.1}
SHORTEST = 2.0**-9  # share of a step at which the branch is given up
STENCIL = ((1, 4, 5), (2, -1, 5), (3, 4, 105), (4, -1, 280))  # eighth order: multiple, weight as a fraction


class Pose:
    """One solved pose; attributes in extended precision."""

    def __init__(self, oracle, key, u, multiplier, facts, turns, steer_facts):
        self.oracle = oracle
        self.left, self.right, self.steer = key
        self.u, self.multiplier, self.facts = u, multiplier, facts
        self.turns, self.steer_facts = turns, steer_facts
        self.r, self.o = oracle.axle.place(u)

    @property
    def input(self):
        return self.oracle.input_of(self.steer)


class Oracle:
    """All poses of one axle of a resolved Build."""

    def __init__(self, build, name=None):
        self.build = build
        self.data = next(a for a in build["axles"] if name is None or a["name"] == name)
        self.axle = Axle(self.data)
        self.steering = Steering(self.data)
        self.unit = None
        if self.steering.driven:
            self.unit = "deg" if self.steering.box else "in"
        self.cache, self.held = {}, {}
        self.ride = self.find_ride()

    def input_of(self, steer):
        if not self.steering.driven:
            return LONG(0)
        return np.deg2rad(LONG(steer)) if self.unit == "deg" else LONG(steer)

    # --- one solve from a start ---

    def step(self, u, turns, left, right, steer, free=None, rod_free=None):
        free = self.axle.free if free is None else free
        u, multiplier, facts = self.hold(u, left, right, free)
        worst, sign = 0.0, None
        if self.steering.driven:
            r, o = self.axle.place(u)
            turns, worst, sign = self.steering.solve(turns, r, o, self.input_of(steer), rod_free)
        return Pose(self, (left, right, steer), u, multiplier, facts, turns, (worst, sign))

    def hold(self, u, left, right, free):
        """The axle's solve; kept, since it does not depend on the steering."""
        key = (left, right, *free)
        kept = self.held.get(key)
        if kept is None or np.abs((kept[0] - u).astype(float)).max() > 0.5:
            kept = self.held[key] = self.axle.solve(u, (left, right), free)
        return kept

    def find_ride(self):
        """Pose 0/0: given lengths come in over ten steps from the drawn ones."""
        u, turns = np.zeros(self.axle.size), np.zeros(2)
        given = not np.array_equal(self.axle.free, self.axle.drawn)
        if self.steering.driven:
            given = given or self.steering.free != self.steering.drawn_length
        pose = None
        for share in np.linspace(0, 1, 11) if given else (1.0,):
            free = self.axle.drawn + share * (self.axle.free - self.axle.drawn)
            rods = None
            if share == 1:
                free = self.axle.free
            elif self.steering.driven:
                s = self.steering
                rods = {n: s.drawn_length[n] + share * (s.free[n] - s.drawn_length[n]) for n in s.rods}
            pose = self.step(u, turns, 0.0, 0.0, 0.0, free, rods)
            u, turns = pose.u, pose.turns
        return pose

    # --- following ---

    def same_branch(self, before, after):
        a, b = before.facts["stable"], after.facts["stable"]
        if self.axle.exact and a != b:
            return False
        if not self.axle.exact and b <= 0:
            return False
        return before.steer_facts[1] == after.steer_facts[1]

    def follow(self, start, left, right, steer):
        """From a solved pose to another along the straight line; raises Unreachable with the last pose."""
        target = np.array([left, right, steer], float)
        origin = np.array([start.left, start.right, start.steer], float)
        span = np.abs(target - origin)
        steer_step = STEER_STEP[self.unit] if self.unit else np.inf
        steps = max(span[0] / TRAVEL_STEP, span[1] / TRAVEL_STEP, span[2] / steer_step, 1e-9)
        base = 1 / np.ceil(steps)
        at, size = 0.0, base
        before, previous = start, None
        while at < 1:
            size = min(size, 1 - at)
            to = 1.0 if 1 - at - size < 1e-12 else at + size
            key = origin + to * (target - origin) if to < 1 else target
            u, turns = before.u, before.turns
            if previous is not None:
                ahead = (to - at) / (at - previous[0])
                u = before.u + ahead * (before.u - previous[1].u)
                turns = before.turns + ahead * (before.turns - previous[1].turns)
            try:
                after = self.step(u, turns, *map(float, key))
                jump = float(np.abs(after.u - u).max()) + float(np.abs(after.turns - turns).max())
                moved = float(np.abs(u - before.u).max()) + float(np.abs(turns - before.turns).max())
                fine = self.same_branch(before, after) and (previous is None or jump < 0.02 + moved)
            except (Unreachable, np.linalg.LinAlgError):
                fine = False
            if fine:
                previous, before, at = (at, before), after, to
                size = min(base, 2 * size)
            else:
                size /= 2
                if size < base * SHORTEST:
                    error = Unreachable(f"branch ends at {at:.6f} of the way")
                    error.last, error.at = before, at
                    raise error
        return before

    def pose(self, left, right, steer=0.0):
        key = (float(left), float(right), float(steer or 0.0))
        if key not in self.cache:
            self.cache[key] = self.follow(self.ride, *key)
        return self.cache[key]

    def near(self, pose, left=0.0, right=0.0, steer=0.0):
        """A pose a small step from a solved one."""
        return self.step(pose.u, pose.turns, pose.left + left, pose.right + right, pose.steer + steer)

    def derivative(self, pose, function, left, right, steer=0.0, step=1 / 16):
        """d function(pose) / d s along s · (left, right, steer), eighth order; function gives an array.

        A step that is a power of two keeps the sums of travels exact where these are short binary numbers.
        """
        total = 0
        for k, above, below in STENCIL:
            s = k * step
            ahead = function(self.near(pose, s * left, s * right, s * steer))
            behind = function(self.near(pose, -s * left, -s * right, -s * steer))
            total = total + LONG(above) / LONG(below) * (ahead - behind) / LONG(step)
        return total


def main():
    from record import pose_record

    with open(sys.argv[1]) as file:
        build = json.load(file)
    build = build.get("build", build)
    rest = sys.argv[2:]
    name = rest.pop(0) if rest and rest[0] in ("front", "rear") else None
    oracle = Oracle(build, name)
    for text in rest:
        print(json.dumps(pose_record(oracle, *map(float, text.split(","))), indent=1))


if __name__ == "__main__":
    main()
