"""Seeded random parts of a plausible vehicle: links, arms, steering, springs, driveline.

Coordinates are multiples of 1/16 in, so that they are exact in binary.
"""

import math
import random

import numpy as np

from vehicle import RIGID, axle, build, joint, knuckle, link, mirror, rates, rod


class Draw:
    """Random numbers in 1/16 in, with the vehicle's main dimensions."""

    def __init__(self, seed, front):
        self.random = random.Random(f"axlewalk {seed}")
        self.front = front
        self.wheelbase = self.n(95, 125)
        self.track = self.n(62, 76)
        self.radius = self.n(15, 21)
        self.x0 = 0 if front else -self.wheelbase
        self.toward = -1 if front else 1  # where the chassis lies, seen from the axle

    def n(self, low, high):
        return round(self.random.uniform(low, high) * 16) / 16

    def pick(self, *choices):
        return self.random.choice(choices)

    def chance(self, share):
        return self.random.random() < share

    def point(self, x, y, z):
        """A point from (low, high) ranges: x from the axle towards the middle of the vehicle, z from its center."""
        at = [r if isinstance(r, (int, float)) else self.n(*r) for r in (x, y, z)]
        return [self.x0 + self.toward * at[0], at[1], self.radius + at[2]]

    def direction(self, v, tilt=0.15):
        v = [c + self.random.uniform(-tilt, tilt) for c in v]
        size = math.sqrt(sum(c * c for c in v))
        return [c / size for c in v]


def bent(draw, at, size=0.5):
    return [c + draw.n(-size, size) for c in at]


def ended(draw, name, at, bolt=(0, 1, 0), **given):
    """A link's joint with a tilted bolt, often a limit, sometimes a bore and clocking of its own."""
    extra = {"bolt": draw.direction(bolt)}
    if draw.chance(0.8):
        extra["limit"] = math.radians(draw.random.randint(15, 35))
    if draw.chance(0.25):
        extra["bore"] = draw.direction(bolt, 0.25)
    if draw.chance(0.25):
        extra["clocking"] = math.radians(draw.random.randint(-12, 12))
    return joint(name, at, **{**extra, **given})


def made_link(draw, name, a, c, kind="link", bolt=(0, 1, 0), **given):
    return link(name, ended(draw, f"{name}.axle", a, bolt), ended(draw, f"{name}.chassis", c, bolt), kind=kind, **given)


def lowers(draw, chassis_y=(0.75, 1.0)):
    a = draw.point((-1, 3), (0.22 * draw.track, 0.29 * draw.track), (-4.5, -2))
    c = draw.point((22, 40), 0, (-1, 3))
    c[1] = round(a[1] * draw.random.uniform(*chassis_y) * 16) / 16
    ends = [("left", a, c), ("right", mirror(a), mirror(c))]
    if draw.chance(0.5):  # built by a person: sides differ a little
        ends[1] = ("right", bent(draw, mirror(a)), bent(draw, mirror(c)))
    return [made_link(draw, f"{side} lower link", p, q) for side, p, q in ends]


def uppers(draw):
    a = draw.point((-1, 2), (12, 18), (4, 7))
    c = draw.point((15, 30), (11, 17), (5, 10))
    return [
        made_link(draw, "left upper link", a, c),
        made_link(draw, "right upper link", bent(draw, mirror(a)), bent(draw, mirror(c))),
    ]


def third(draw, name="upper link"):
    return made_link(draw, name, draw.point((0, 3), (-12, 12), (6, 8)), draw.point((18, 36), (-13, 13), (7, 11)))


def track_bar(draw, name="track bar", behind=False):
    s = draw.pick(1, -1)
    ahead = (2, 5) if behind else (-5, -2)
    a = draw.point(ahead, 0, (2, 6))
    c = draw.point(ahead, 0, (4, 10))
    a[1], c[1] = -s * draw.n(16, 24), s * draw.n(15, 20)
    return made_link(draw, name, a, c, kind="track bar", bolt=(1, 0, 0))


def triangulated(draw):
    a = draw.point((-1, 2), (3, 8), (6, 8))
    c = draw.point((17, 30), (14, 20), (6, 10))
    return [
        made_link(draw, "left upper link", a, c),
        made_link(draw, "right upper link", bent(draw, mirror(a)), bent(draw, mirror(c))),
    ]


def soften(draw, links, series):
    """Rates for an over-constrained layout: a total, or tube, bushings and brackets in series."""
    for k in links:
        if not series or draw.chance(0.2):
            k["rate"] = draw.random.randrange(6000, 40000, 500)
            continue
        k["tube"] = {"od": draw.pick(1.5, 1.75, 2.0), "wall": draw.pick(0.1875, 0.25, 0.3125, None)}
        if draw.chance(0.2):
            k["modulus"] = 10e6
        for end in (k["axle"], k["chassis"]):
            if draw.chance(0.8):
                end["kind"] = "bushing"
                end["rates"] = rates(
                    radial=draw.random.randrange(15000, 90000, 1000),
                    axial=draw.random.randrange(3000, 20000, 500),
                    torsional=draw.random.randrange(500, 3000, 100),
                    bracket=draw.pick(None, 150000, 300000),
                )
        if not any(end["rates"]["radial"] for end in (k["axle"], k["chassis"])):
            k["axle"]["kind"] = "bushing"
            k["axle"]["rates"] = rates(radial=40000, axial=8000)


def share(links, end, name, at, on, **given):
    """Makes two links meet at one joint point."""
    shared_rates = {**RIGID, **given}
    for k in links:
        k[end] = joint(f"{k['name']}.{end}", at, kind="ball", bolt=None, shared=name, rates=dict(shared_rates))
    return {"name": name, "on": on, "at": list(at), "bolt": None, "rates": shared_rates}


def radius_arm(draw, side, conical, firm):
    """An arm with two bushings on the axle; bolts stand square to the plane of its three points."""
    s = 1 if side == "left" else -1
    y = draw.n(14, 18)
    low, high = ((-1, 2), (-1, 2)) if conical else ((-4, -2.5), (1, 3))
    front = draw.point((-4, -2.5), s * y, low)
    rear = draw.point((3, 5), s * y, high)
    pivot = draw.point((26, 36), s * (y - draw.pick(0, 1, 2)), (1, 4))
    normal = np.cross(np.subtract(pivot, front), np.subtract(rear, front))
    normal = normal / np.linalg.norm(normal)
    normal = [float(c) for c in (normal if normal[1] > 0 else -normal)]
    name = f"{side} radius arm"

    def bushing(end, at):
        given = rates(
            radial=draw.random.randrange(8000, 40000, 500),
            axial=draw.random.randrange(3000, 12000, 500),
            conical=draw.random.randrange(20000, 90000, 1000) if conical else None,
        )
        return joint(f"{name}.{end}", at, kind="bushing", bolt=normal, rates=given)

    chassis = joint(f"{name}.chassis", pivot, bolt=normal) if firm else bushing("chassis", pivot)
    return {
        "name": name,
        "kind": "radius arm",
        "axle": [bushing("axle front", front), bushing("axle rear", rear)],
        "chassis": chassis,
        "tube": None,
        "through": [],
    }


# --- steering ---


def knuckles(draw):
    low = [draw.n(0.2, 0.8), draw.track / 2 - draw.n(4, 5), draw.radius - draw.n(3.5, 4.5)]
    high = [-draw.n(0.2, 0.8), low[1] - draw.n(0.5, 1.5), draw.radius + draw.n(3.5, 4.5)]
    toe = math.radians(draw.pick(0, 0.1, 0.25, -0.1))
    camber = math.radians(draw.pick(0, 0.5, -0.5, -1))
    found = {}
    for side, s in (("left", 1), ("right", -1)):
        shaft = [0, s * (low[1] + high[1]) / 2, draw.radius]
        found[side] = knuckle(
            side,
            [low[0], s * low[1], low[2]],
            [high[0], s * high[1], high[2]],
            toe=toe,
            camber=camber if side == "left" else camber / 2,
            shaftJoint=shaft,
            shaftLimit=math.radians(42),
        )
    return found


def studded(draw, on, at, direction=(0, 0, 1)):
    if draw.chance(0.3):
        return (on, at)
    return (on, at, draw.direction(direction), math.radians(draw.random.randint(20, 40)))


def tie_rod_points(draw, a):
    spread = draw.track / 2 - 4.5 + a * draw.n(0, 1)
    left = [a * draw.n(5.5, 7.5), spread, draw.radius + draw.n(-3, 0)]
    return left, mirror(left)


def steering(draw, kind):
    a = draw.pick(1, 1, -1)  # rods ahead of or behind the axle
    s = draw.pick(1, 1, -1)  # side of the box
    left, right = tie_rod_points(draw, a)
    ends = {"left": left, "right": right}
    near, far = ("left", "right") if s > 0 else ("right", "left")
    if kind == "double ram":
        middle = [a * draw.n(5.5, 7), 0, draw.radius + draw.n(-2, 0)]
        across = draw.direction((0, 1, 0), 0.03)
        tips = {side: bent(draw, [middle[0] + a, (1 if side == "left" else -1) * 13, middle[2]]) for side in ends}
        rods = [rod(f"{side} tie rod", studded(draw, "ram rod", tips[side]), studded(draw, f"{side} knuckle", ends[side])) for side in ends]
        ram = {
            "name": "ram",
            "kind": "double",
            "body": {"on": "axle", "at": middle, "diameter": None},
            "axis": across,
            "rod": None,
            "closed": None,
            "stroke": 8,
            "bore": 2.5,
            "rodDiameter": 1.25,
        }
        return {"box": None, "pitmanArm": None, "dragLink": None, "tieRods": rods, "rams": [ram]}
    tie = rod("tie rod", studded(draw, "left knuckle", left), studded(draw, "right knuckle", right))
    if kind == "left knuckle":  # fore and aft: the arm swings in side view
        tip = [-draw.n(16, 24), draw.n(17, 21), draw.radius + draw.n(4, 8)]
        top = [tip[0] + draw.n(-1, 1), tip[1], tip[2] + draw.n(5.5, 7)]
        arm = [draw.n(-0.5, 1), draw.track / 2 - draw.n(10, 12), draw.radius + draw.n(4, 6)]
        drag = rod("drag link", studded(draw, "pitman arm", tip, (0, 1, 0)), studded(draw, "left knuckle", arm))
        axis = {"at": top, "direction": draw.direction((0, draw.pick(1, -1), 0), 0.1)}
    else:
        tip = [a * draw.n(6, 8), s * draw.n(15, 19), draw.radius + draw.n(5, 9)]
        top = [tip[0] + a * draw.n(5.5, 7), tip[1], tip[2] + draw.n(0, 2)]
        axis = {"at": top, "direction": draw.direction((0, 0, draw.pick(1, -1)), 0.2)}
        arm = [a * draw.n(6, 7.5), -s * (draw.track / 2 - draw.n(5, 6.5)), draw.radius + draw.n(2, 5)]
        start = studded(draw, "pitman arm", tip)
        where, drawn = f"{far} knuckle", arm
        if kind in ("tie rod", "beside tie rod"):
            share_ = draw.random.randrange(2, 14) / 16
            p, q = (left, right) if s > 0 else (right, left)
            drawn = [u + (0.5 + share_ / 2) * (v - u) for u, v in zip(p, q)]
            if kind == "beside tie rod":
                drawn = [drawn[0] + draw.n(-1.5, 1.5), drawn[1], drawn[2] + draw.n(0.75, 2)]
            where = "tie rod"
        drag = rod("drag link", start, studded(draw, where, drawn))
        if kind in ("hanging", "beside hanging"):
            part = draw.random.randrange(11, 15) / 16
            at = [u + part * (v - u) for u, v in zip(tip, arm)]
            if kind == "beside hanging":
                at = [at[0] + draw.n(-1, 1), at[1], at[2] - draw.n(0.75, 1.75)]
            tie = rod("tie rod", studded(draw, f"{near} knuckle", ends[near]), studded(draw, "drag link", at))
    rams = []
    if draw.chance(0.6):
        carrier = "drag link" if kind in ("hanging", "beside hanging") else draw.pick("tie rod", "right knuckle", "left knuckle")
        if carrier == "tie rod":
            at = [left[0] - a * draw.n(0, 1.5), -draw.n(14, 22), left[2] + draw.n(0, 1.5)]
        elif carrier == "drag link":
            at = [(u + v) / 2 + d for u, v, d in zip(tip, arm, (a * 1, 0, -1))]
        else:
            k = 1 if carrier == "left knuckle" else -1
            at = [a * draw.n(5, 6), k * (draw.track / 2 - 7), draw.radius - 1]
        body_on = draw.pick("axle", "chassis")
        other = 1 if at[1] < 0 else -1
        body = [a * draw.n(3.5, 5.5), other * draw.n(0, 8), draw.radius + (draw.n(0, 3) if body_on == "axle" else draw.n(6, 9))]
        rams.append(
            {
                "name": "ram",
                "kind": "single",
                "body": {"on": body_on, "at": body, "diameter": 2},
                "axis": None,
                "rod": {"on": carrier, "at": at},
                "closed": 14,
                "stroke": 8,
                "bore": 1.75,
                "rodDiameter": 0.75,
            }
        )
    box = {
        "axis": axis,
        "ratio": draw.pick(14, 16, 17.5, 20),
        "sweep": None,
        "wheelsLeft": None,
    }
    return {"box": box, "pitmanArm": {"tube": None}, "dragLink": drag, "tieRods": [tie], "rams": rams}


# --- springs, stops, driveline ---


def fittings(draw, steered):
    shocks, coils, stops, lines = [], [], [], []
    for side, s in (("left", 1), ("right", -1)):
        low = draw.point((3, 6), s * draw.n(18, 22), (-4, -1))
        high = [low[0] + draw.n(-3, 3), low[1] - s * draw.n(1, 5), low[2] + draw.n(20, 26)]
        shocks.append(
            {
                "name": f"{side} shock",
                "side": side,
                "axle": low,
                "chassis": high,
                "shortest": 16.5,
                "longest": 30.5,
                "bodyEnd": draw.pick("chassis", "axle"),
                "body": {"od": 2.5, "length": 15},
                "shaft": {"od": 0.875},
                "reservoir": None,
            }
        )
        seat = draw.point((-2, 2), s * draw.n(15, 19), (2, 5))
        coils.append(
            {
                "name": f"{side} coil",
                "side": side,
                "axle": seat,
                "chassis": [seat[0] + draw.n(-1, 1), seat[1], seat[2] + draw.n(11, 16)],
                "free": 19,
                "rate": 180,
                "wire": 0.625,
                "turns": 8,
                "diameter": 5,
                "solid": 6,
            }
        )
        pad = draw.point((-2, 2), s * draw.n(14, 18), (4, 6))
        pad_on = draw.pick("axle", "chassis")
        above = [pad[0], pad[1], pad[2] + draw.n(4, 7)]
        normal = draw.direction((0, 0, -1), 0.1)
        if pad_on == "chassis":
            pad, above, normal = above, pad, [-c for c in normal]
        stops.append(
            {
                "name": f"{side} bump stop",
                "side": side,
                "kind": "rubber",
                "pad": {"on": pad_on, "at": pad},
                "strike": {"on": "axle" if pad_on == "chassis" else "chassis", "at": above, "normal": normal, "radius": 2},
                "contactHeight": 2,
                "solidHeight": 0.75,
                "curve": [],
            }
        )
        low = draw.point((2, 4), s * (draw.track / 2 - 8), (2, 4))
        lines.append(
            {
                "name": f"{side} brake hose",
                "from": {"on": f"{side} knuckle" if steered else "axle", "at": low},
                "to": {"on": "chassis", "at": [low[0] + draw.toward * 6, s * 15, low[2] + 8]},
                "length": 22,
                "leastBendRadius": 2,
                "diameter": 0.4,
            }
        )
    joint_at = draw.point((9, 11), draw.n(-2, 10) if draw.front else draw.n(-1, 1), (0, 2))
    case = draw.point((44, 52), draw.n(-1, 9), (6, 10))
    up, case_up = math.radians(draw.n(2, 12)), math.radians(draw.n(-2, 5))
    toward = draw.toward
    driveline = {
        "pinion": {
            "joint": joint_at,
            "axis": [toward * math.cos(up), 0, math.sin(up)],
            "kind": "single",
            "limit": math.radians(25),
        },
        "transferCase": {
            "joint": case,
            "axis": [-toward * math.cos(case_up), 0, math.sin(-case_up)],
            "kind": draw.pick("single", "single", "double cardan"),
            "limit": math.radians(30),
        },
        "slip": [-2, 2.5],
        "phase": draw.pick(0, 0, math.pi / 2),
        "tubeOd": 2.5,
        "axleRatio": 4.88,
    }
    return {"shocks": shocks, "coils": coils, "bumpStops": stops, "lines": lines, "driveline": driveline}


def weights(draw):
    return {
        "total": draw.random.randrange(4000, 7000, 50),
        "frontShare": None,
        "centerOfGravity": [-draw.n(45, 60), 0, draw.n(26, 36)],
        "brakeShareFront": draw.pick(0.6, 0.65, 0.7),
        "driveShareFront": draw.pick(0.4, 0.5, 0),
    }


def assemble(draw, name, links, kind=None, arms=(), shared=()):
    given = {"links": links, "radiusArms": list(arms), "sharedJoints": list(shared), **fittings(draw, kind is not None)}
    if kind is not None:
        given |= {"knuckles": knuckles(draw), "steering": steering(draw, kind)}
    one = axle("front" if draw.front else "rear", draw.track, (draw.x0, 0, draw.radius), **given)
    return build(name, draw.wheelbase, [one], weights(draw))
