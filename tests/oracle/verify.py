"""Checks the oracle itself: closed forms, the worked vehicle, a second optimizer, 40-digit arithmetic.

Usage: /usr/bin/python3 -B verify.py. Prints each comparison's largest difference; exits 1 where one is
too great. Lengths of the closed forms are millimeters, taken as the model's unit (it has none).
"""

import math
import sys

import mpmath
import numpy as np
from scipy.optimize import minimize

from layouts import all_layouts
from measures import ackermann, measures, moving
from oracle import Oracle
from vehicle import axle, build, joint, knuckle, link, long_arms, rates, rod, short_arms
from view import View

failed = []


def check(what, found, wanted, tolerance):
    difference = float(np.max(np.abs(np.asarray(found, float) - np.asarray(wanted, float))))
    mark = "" if difference <= tolerance else "   <-- too great"
    if mark:
        failed.append(what)
    print(f"{what:78s} {difference:9.2e}  (≤ {tolerance:.0e}){mark}")


def measured(oracle, *pose):
    return {(m["id"], m["part"] or m["side"]): m["value"] for m in measures(oracle, oracle.pose(*pose))}


def four_parallel(length_, slope, bar, bar_rise=0.0, **given):
    """Four equal parallel links that run back from the axle, and a level track bar with its frame end left."""
    dx, dz = -length_ * math.cos(slope), -length_ * math.sin(slope)
    links = []
    for name, y, z in (("left lower", 500, 300), ("right lower", -500, 300), ("left upper", 400, 600), ("right upper", -400, 600)):
        links.append(link(f"{name} link", (0, y, z), (dx, y, z + dz), rate=10000))
    links.append(link("track bar", (0, 0, 400 + bar_rise), (0, math.sqrt(bar**2 - bar_rise**2), 400), kind="track bar", rate=10000))
    return build("parallel links", 2500, [axle("front", 1500, (0, 0, 400), links=links, **given)])


def closed_forms():
    # four parallel links (derived closed form): x = L cos a − √(L² − (L sin a + z)²) towards the pivots
    far = 1e6  # a track bar so long that it stays level
    for a in (0.0, math.radians(-5)):
        oracle = Oracle(four_parallel(800, a, far))
        zs = (-150, -100, -50, 50, 100, 150)
        shift = [-oracle.pose(z, z).o[0] for z in zs]
        formula = [800 * math.cos(a) - math.sqrt(800**2 - (800 * math.sin(a) + z) ** 2) for z in zs]
        table = {0.0: (14.1883, 6.2746, 1.5640, 1.5640, 6.2746, 14.1883)}.get(a, (27.7217, 15.1671, 5.9652, -2.8010, -2.4712, 0.9935))
        check(f"parallel links, slope {math.degrees(a):.0f}: shift against formula", shift, formula, 1e-6)
        check("  against table", shift, table, 6e-5)
        check("  rotation", [np.abs(oracle.pose(z, z).r - np.eye(3)).max() for z in zs], 0, 1e-9)
    oracle = Oracle(four_parallel(800, 0.0, 800))
    o = [oracle.pose(z, z).o for z in (-100, 100)]
    check("parallel links and track bar of 800: x, y at ±100", [[-p[0], p[1]] for p in o], 6.2996063, 5e-8)

    # track bar alone
    for bar, table in ((700, (0.4466, 7.1797, 29.1796)), (800, (0.3907, 6.2746, 25.4033)), (900, (0.3473, 5.5728, 22.5036))):
        oracle = Oracle(four_parallel(1e6, 0.0, bar))
        check(f"track bar {bar}: lateral shift", [oracle.pose(z, z).o[1] for z in (25, 100, 200)], table, 6e-5)
    oracle = Oracle(four_parallel(1e6, 0.0, 800, 60))
    found = [oracle.pose(z, z).o[1] for z in (-100, -50, 50, 100)]
    check("inclined track bar", found, (-1.2525, -2.1907, 5.3454, 13.9101), 6e-5)

    # bump steer: drag link against track bar; and roll steer with the bars offset
    def steered(drag, h, links_length=1e6, bar=800):
        kingpins = {s: knuckle(s, (0, y, 300), (0, y, 500)) for s, y in (("left", 500), ("right", 0))}
        steering = {
            "box": {"axis": {"at": [300, drag, 400 + h], "direction": [0, 0, 1]}, "ratio": 16, "sweep": None, "wheelsLeft": None},
            "pitmanArm": None,
            "dragLink": rod("drag link", ("pitman arm", (150, drag, 400 + h)), ("right knuckle", (150, 0, 400 + h))),
            "tieRods": [rod("tie rod", ("left knuckle", (-150, 500, 400)), ("right knuckle", (-150, 0, 400)))],
            "rams": [],
        }
        return Oracle(four_parallel(links_length, 0.0, bar, knuckles=kingpins, steering=steering))

    for drag, at50, at100 in ((700, 0.08555, 0.34571), (800, 0, 0), (900, -0.06649, -0.26807), (1000, -0.11965, -0.48207)):
        oracle = steered(drag, 0)
        found = [np.rad2deg(oracle.pose(z, z).turns[1]) for z in (-50, 50, -100, 100)]
        sign = 1 if found[0] * at50 >= 0 else -1
        check(f"bump steer, drag link {drag} against track bar 800", [sign * f for f in found], (at50, at50, at100, at100), 6e-6)
    for h, table in ((50, (0.6670, 1.6712, 3.3697)), (100, (1.3340, 3.3438, 6.7516))):
        oracle = steered(800, h)
        found = []
        for roll in (2, 5, 10):
            travel = 750 * math.sin(math.radians(roll))
            found.append(abs(np.rad2deg(oracle.pose(travel, -travel).turns[1])))
        check(f"roll steer, drag link {h} above the track bar", found, table, 6e-5)

    # radius arm: pinion change = asin(sin a + z/R) − a
    def arms(reach, a):
        drop = reach * math.sin(a)
        sides = []
        for side, y in (("left", 400), ("right", -400)):
            name = f"{side} radius arm"
            bush = dict(kind="bushing", rates=rates(radial=20000, axial=8000, conical=50000))
            sides.append(
                {
                    "name": name,
                    "kind": "radius arm",
                    "axle": [joint(f"{name}.axle front", (100, y, 400), **bush), joint(f"{name}.axle rear", (-100, y, 380), **bush)],
                    "chassis": joint(f"{name}.chassis", (-reach * math.cos(a), y, 400 - drop), **bush),
                    "tube": None,
                    "through": [],
                }
            )
        driveline = {
            "pinion": {"joint": [-200, 0, 400], "axis": [-1, 0, 0], "kind": "single", "limit": None},
            "transferCase": {"joint": [-1200, 0, 600], "axis": [1, 0, 0], "kind": "single", "limit": None},
            "slip": None,
            "phase": 0,
            "tubeOd": None,
            "axleRatio": None,
        }
        return Oracle(build("arms", 2500, [axle("front", 1500, (0, 0, 400), radiusArms=sides, driveline=driveline)]))

    for reach, table in ((800, (1.7908, 3.5833, 7.1808, 10.8069)), (1000, (1.4325, 2.8660, 5.7392, 8.6269)), (1200, (1.1937, 2.3880, 4.7802, 7.1808))):
        oracle = arms(reach, 0)
        found = [-measured(oracle, z, z)["pinionChange", None] for z in (25, 50, 100, 150)]
        check(f"radius arm {reach}: pinion change", found, table, 6e-5)
    oracle = arms(1000, math.radians(-6))
    found = [-measured(oracle, z, z)["pinionChange", None] for z in (-100, -50, 50, 100)]
    check("radius arm 1000, slope −6", found, (-5.8019, -2.8894, 2.8742, 5.7405), 6e-5)

    # triangulated four links: roll axis through the plan-view apexes
    links = []
    for name, f, a in (("upper", (650, 350, 620), (30, 80, 680)), ("lower", (800, 300, 400), (0, 450, 330))):
        for side, s in (("left", 1), ("right", -1)):
            links.append(link(f"{side} {name} link", (a[0], s * a[1], a[2]), (f[0], s * f[1], f[2])))
    m = measured(Oracle(build("triangulated", 2500, [axle("front", 1500, (0, 0, 400), links=links)])), 0, 0)
    check("triangulated four links: roll center", m["rollCenterHeight", None], 688.2814, 6e-5)
    check("triangulated four links: slope of the roll axis", m["axleRollAxisSlope", None], -0.0617839, 6e-8)


def measures_alone():
    """Handbook forms of measures: camber on steer, steer against turn, scrub, outer steer, universal joints."""

    def lone(caster, kpi, foot=(0.0, 700.0, 300.0)):
        """A front axle whose left kingpin axis has projected angles caster and kpi and passes through foot."""
        k = np.array([-math.tan(math.radians(caster)), -math.tan(math.radians(kpi)), 1.0])
        sides = {s: knuckle(s, list(np.array([foot[0], y * foot[1], foot[2]])), list(np.array([foot[0] + 200 * k[0], y * (foot[1] + 200 * k[1]), foot[2] + 200])) ) for s, y in (("left", 1), ("right", -1))}
        made = four_parallel(800, 0.0, 800, knuckles=sides)
        made["axles"][0]["wheelCenters"] = 1600
        return Oracle(made)

    def turned_to(oracle, steer):
        from scipy.optimize import brentq

        pose = oracle.pose(0, 0)

        def off(turn):
            pose.turns = np.array([turn, turn], np.longdouble)
            return float(np.rad2deg(View(pose).steer("left"))) - steer

        turn = brentq(off, -1, 1, xtol=1e-14)
        off(turn)
        view = View(pose)
        camber = -np.rad2deg(np.arcsin(view.spin("left") @ view.ground_up))
        return float(camber), math.degrees(turn)

    for caster, kpi, rows in (
        (6, 0, ((20, 2.0588), (-20, -2.0588), (30, 3.0082))),
        (0, 10, ((20, 0.6098), (30, 1.3561))),
        (6, 10, ((-30, -1.6528), (-20, -1.4469), (20, 2.6780), (30, 4.3856))),
    ):
        oracle = lone(caster, kpi)
        check(f"camber on steer, caster {caster}, kingpin {kpi}", [turned_to(oracle, s)[0] for s, _ in rows], [c for _, c in rows], 6e-5)
    oracle = lone(6, 10)
    check("turn about the kingpin axis for steer ±30", [turned_to(oracle, s)[1] for s in (30, -30)], (30.7628, -30.5107), 6e-5)
    m = measured(lone(0, 8), 0, 0)
    check("scrub radius, kingpin 8", m["scrubRadius", "left"], 57.838, 6e-4)
    check("kingpin inclination", m["kingpinInclination", "left"], 8, 1e-9)
    foot = (0.0, 700.0, 400.0)
    m = measured(lone(6, 0, foot), 0, 0)
    check("mechanical trail through the wheel center, r 400", m["mechanicalTrail", "left"], 400 * math.tan(math.radians(6)), 1e-9)

    class Turned:
        def __init__(self, inner, outer, track):
            self.angles, self.track = {"left": math.radians(inner), "right": math.radians(outer)}, track

        def mean_steer(self):
            return sum(self.angles.values()) / 2

        def steer(self, side):
            return self.angles[side]

        def kingpin(self, side):
            return None, np.array([0.0, self.track / 2 if side == "left" else -self.track / 2, 0.0])

    for inner, outer in ((28, 22.1411), (10, 9.0928), (20, 16.7416), (40, 29.4836)):
        check(f"outer steer for inner {inner}", math.degrees(float(ackermann(Turned(inner, outer, 1.5), 2.6))), 0, 6e-5)

    def shaft(first, second, phase=0.0, kind="single"):
        """Coplanar shafts with joint angles first (transfer case) and second (pinion)."""
        a, b = math.radians(first), math.radians(second)
        driveline = {
            "pinion": {"joint": [-200, 0, 400], "axis": [-math.cos(b), 0, math.sin(b)], "kind": "single", "limit": None},
            "transferCase": {"joint": [-1200, 0, 400], "axis": [math.cos(a), 0, -math.sin(a)], "kind": kind, "limit": None},
            "slip": None,
            "phase": phase,
            "tubeOd": None,
            "axleRatio": None,
        }
        return measured(Oracle(four_parallel(800, 0.0, 800, driveline=driveline)), 0, 0)

    m = shaft(10, 8)
    check("joint angles", (m["transferJointAngle", None], m["pinionJointAngle", None]), (10, 8), 1e-9)
    check("two joints 10 and 8 in phase: ripple", m["pinionSpeedRipple", None], 100 * (1.005545 - 0.994486), 2e-4)
    check("two joints 12 and 6 in phase: ripple", shaft(12, 6)["pinionSpeedRipple", None], 100 * (1.016740 - 0.983536), 2e-4)
    b = math.radians(20)
    check("one joint of 20: ripple", shaft(30, 20, 0, "double cardan")["pinionSpeedRipple", None], 100 * math.sin(b) ** 2 / math.cos(b), 1e-9)
    wrong = 100 * (1 / math.cos(b) ** 2 - math.cos(b) ** 2)
    check("two joints of 20 out of phase: ripple", shaft(20, 20, math.pi / 2)["pinionSpeedRipple", None], wrong, 1e-9)


def worked():
    rows = {
        (5, 5): ((0.31, -0.03, -1.57, -0.55), (0.35, -0.02, -2.42, -0.54), (0.000, 5)),
        (-5, -5): ((-1.07, 0.71, 0.69, -0.38), (-1.73, 0.72, -0.65, -0.50), (0.014, 171)),
        (5, -5): ((-0.06, 0.89, 0.56, -1.24), (-0.17, 0.92, 0.07, -1.47), (0.011, 129)),
        (-5, 5): ((-0.08, -1.07, 0.39, 1.00), (-0.17, -1.09, 0.12, 1.16), (0.008, 93)),
    }
    ids = ("foreAftShift", "lateralShift", "pinionChange", "meanSteer")
    for which, made in enumerate((long_arms(), short_arms())):
        oracle = Oracle(made)
        name = ("long", "short")[which]
        for travel, row in rows.items():
            m = measured(oracle, *travel)
            check(f"worked vehicle, {name} arms, {travel}", [m[i, None] for i in ids], row[which], 0.00501)
            if which:
                pose = oracle.pose(*travel)
                held = oracle.axle.stretch(pose.u, pose.multiplier, None, oracle.axle.free)
                check("  largest stretch", max(abs(s) for s, _ in held), row[2][0], 0.000501)
                check("  largest force", max(abs(f) for _, f in held), row[2][1], 0.5)
        m = measured(oracle, 0, 0)
        check(f"worked vehicle, {name} arms: roll center", m["rollCenterHeight", None], (26.9, 27.1)[which], 0.05)
        check("  axle steer", m["axleRollAxisSlope", None], (-0.118, -0.159)[which], 0.0005)
        check("  anti-dive", m["brakeAntiDive", None], (47, 58)[which], 0.5)
    for pitman, mean in ((-40.4, -32.3), (36.9, 32.3)):
        pose = oracle.pose(0, 0, pitman)
        check(f"worked vehicle: mean steer at pitman {pitman}", np.rad2deg(View(pose).mean_steer()), mean, 0.05)
        check("  inner knuckle's turn", np.rad2deg(np.abs(pose.turns).max()), 33.0, 0.05)


def second_minimum(oracle, pose, name):
    """The energy again with another optimizer, other unknowns (Euler angles), and its own formulas."""
    from scipy.spatial.transform import Rotation

    model = oracle.axle
    gives = {joint["name"]: joint for joint in model.giving}

    def place(q, base):
        return Rotation.from_euler("xyz", q[:3] / model.half).as_matrix(), np.asarray(base, float) + q[3:6]

    def unpack(q):
        q = np.asarray(q)
        moved, at = {}, 6
        for joint in gives:
            moved[joint] = q[at : at + 3]
            at += 3
        arms = []
        for arm in model.arms:
            arms.append((arm, *place(q[at : at + 6], arm["chassis"]["at"])))
            at += 6
        return (*place(q[:6], model.origin), moved, arms)

    def halves(arm, r, o, ra, oa):
        """Offset, bolt and bore of each joint of an arm."""
        for end in (*arm["axle"], arm["chassis"]):
            bolt = np.asarray(end["bolt"], float)
            mine = oa + ra @ np.subtract(end["at"], arm["chassis"]["at"])
            if end is arm["chassis"]:
                yield end, mine - end["at"], bolt, ra @ bolt
            else:
                yield end, mine - (o + r @ np.subtract(end["at"], model.origin)), r @ bolt, ra @ bolt

    def energy(q):
        r, o, moved, arms = unpack(q)
        total = 0.0
        for link_, k, free in zip(model.links, model.rate, model.free):
            a = np.subtract(link_["axle"]["at"], model.origin) + moved.get(link_["axle"]["shared"], 0)
            c = np.asarray(link_["chassis"]["at"]) + moved.get(link_["chassis"]["shared"], 0)
            total += 0.5 * k * (np.linalg.norm(c - o - r @ a) - free) ** 2
        for joint, d in moved.items():
            total += 0.5 * gives[joint]["rates"]["radial"] * d @ d
        for arm, ra, oa in arms:
            for end, d, bolt, bore in halves(arm, r, o, ra, oa):
                given = end["rates"]
                if given["radial"]:
                    stiffness = given["radial"] * (np.eye(3) - np.outer(bolt, bolt)) + given["axial"] * np.outer(bolt, bolt)
                    total += 0.5 * d @ stiffness @ d
                if given["conical"]:
                    total += 0.5 * given["conical"] * (2 * math.asin(np.linalg.norm(bolt - bore) / 2)) ** 2
        return total

    def held(q):
        r, o, _, arms = unpack(q)
        ends = o + np.array([[0, model.half, 0], [0, -model.half, 0]]) @ r.T
        out = list(ends[:, 2] - model.origin[2] - np.array([pose.left, pose.right]))
        for arm, ra, oa in arms:
            for end, d, _, _ in halves(arm, r, o, ra, oa):
                if not end["rates"]["radial"]:
                    out += list(d)
        return np.array(out)

    scale = 1000.0  # SLSQP wants values near one
    best = None
    random = np.random.default_rng(7)
    middle = np.zeros(model.size)
    middle[3:6] = np.asarray(pose.u[3:6], float)
    middle[2::6] = 0
    for _ in range(4):
        start = middle + random.uniform(-0.3, 0.3, model.size)
        found = minimize(
            lambda q: energy(q) / scale, start, method="SLSQP", constraints={"type": "eq", "fun": held}, options={"ftol": 1e-15, "maxiter": 1000}
        )
        if np.abs(held(found.x)).max() < 1e-9 and (best is None or found.fun < best.fun):
            best = found
    mine = float(0.5 * np.sum(model.parts(pose.u, (pose.left, pose.right), model.free)[0] ** 2))
    check(f"{name}: axle's place by SLSQP", best.x[3:6], np.asarray(pose.o, float) - model.origin, 1e-6)
    check(f"  energy by its own formula, {mine:.6g} in·lbf", scale * best.fun, mine, 1e-9 * max(mine, 0.1))


def forty_digits(oracle, pose, name):
    """An exact pose again in 40-digit arithmetic, with yaw, roll and pitch as mpmath sees them."""
    mpmath.mp.dps = 40
    model = oracle.axle
    half = mpmath.mpf(model.half)

    def rows(x, y, z, yaw, roll, pitch):
        cz, sz, cx, sx, cy, sy = (f(v) for v in (yaw, roll, pitch) for f in (mpmath.cos, mpmath.sin))
        r = mpmath.matrix([[cz, -sz, 0], [sz, cz, 0], [0, 0, 1]]) * mpmath.matrix([[1, 0, 0], [0, cx, -sx], [0, sx, cx]])
        r = r * mpmath.matrix([[cy, 0, sy], [0, 1, 0], [-sy, 0, cy]])
        o = mpmath.matrix([x, y, z])
        out = [o[2] + half * r[2, 1] - model.origin[2] - pose.left, o[2] - half * r[2, 1] - model.origin[2] - pose.right]
        for a, c, free in zip(model.in_axle, model.in_chassis, model.free):
            d = mpmath.matrix([mpmath.mpf(float(v)) for v in c]) - o - r * mpmath.matrix([mpmath.mpf(float(v)) for v in a])
            out.append(mpmath.sqrt(sum(v * v for v in d)) - mpmath.mpf(float(free)))
        return out

    view = View(pose)
    start = [*map(float, pose.o), float(view.yaw()), float(view.roll()), float(view.pitch())]
    found = mpmath.findroot(lambda *q: rows(*q), start, tol=1e-35)
    mine = [*pose.o, view.yaw(), view.roll(), view.pitch()]
    difference = max(abs(mpmath.mpf(float(f)) - mpmath.mpf(float(m))) for f, m in zip(found, mine))
    check(f"{name}: pose in 40 digits (in, rad)", float(difference), 0, 5e-15)


def derivatives(oracle, pose, name):
    """Eighth-order differences with two steps agree."""
    for way in ((1, 1), (1, -1)):
        fine, coarse = (oracle.derivative(pose, lambda p: moving(View(p)), *way, step=h) for h in (1 / 32, 1 / 16))
        check(f"{name}: derivatives by {way}, two steps", fine, coarse, 1e-12)


def main():
    closed_forms()
    measures_alone()
    worked()
    for number, (_, made, oracle) in enumerate(all_layouts()):
        if number % 6 and oracle.axle.exact:
            continue
        unit = {"deg": 10.0, "in": 1.0, None: 0.0}[oracle.unit]
        pose = oracle.pose(2.5, -1.75, unit)
        short = made["name"][:50]
        derivatives(oracle, pose, short)
        if oracle.axle.exact:
            forty_digits(oracle, pose, short)
        else:
            second_minimum(oracle, pose, short)
    print(f"{len(failed)} of the comparisons failed" if failed else "all within")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
