"""Resolved Builds by hand: parts with every field, and the front axle of the first two examples."""

STEEL = 29e6  # lbf/in², handbook value of structural steel
RIGID = {"radial": None, "axial": None, "torsional": None, "conical": None, "bracket": None}


def rates(**given):
    return {**RIGID, **given}


def joint(name, at, kind="rodEnd", bolt=(0, 1, 0), **given):
    base = {
        "name": name,
        "at": list(at),
        "kind": kind,
        "bolt": None if bolt is None else list(bolt),
        "bore": None,
        "limit": None,
        "clocking": 0,
        "housing": None,
        "holdsRoll": False,
        "rates": dict(RIGID),
        "shared": None,
    }
    return {**base, **given}


def link(name, axle, chassis, kind="link", **given):
    base = {
        "name": name,
        "kind": kind,
        "axle": axle if isinstance(axle, dict) else joint(f"{name}.axle", axle),
        "chassis": chassis if isinstance(chassis, dict) else joint(f"{name}.chassis", chassis),
        "length": None,
        "tube": None,
        "modulus": STEEL,
        "rate": None,
        "through": [],
    }
    return {**base, **given}


def rod(name, start, end, **given):
    """start, end: (body, point) or (body, point, stud, limit)."""

    def rod_end(body, at, stud=None, limit=None):
        return {"on": body, "at": list(at), "stud": stud, "limit": limit}

    base = {
        "name": name,
        "from": rod_end(*start),
        "to": rod_end(*end),
        "length": None,
        "tube": None,
        "through": [],
        "roll": {"held": "clocked", "at": 0},
    }
    return {**base, **given}


def knuckle(side, lower, upper, **given):
    base = {
        "side": side,
        "kingpin": {"lower": list(lower), "upper": list(upper)},
        "toe": 0,
        "camber": 0,
        "shaftJoint": None,
        "shaftLimit": None,
        "steeringStop": {"inward": None, "outward": None},
    }
    return {**base, **given}


def axle(name, wheel_centers, origin, **given):
    base = {
        "name": name,
        "steered": given.get("knuckles") is not None,
        "wheelCenters": wheel_centers,
        "origin": list(origin),
        "housing": {"tubeOd": 3.5, "differential": None},
        "tire": {
            "diameter": 2.06 * origin[2],
            "width": 12.5,
            "loadedRadius": origin[2],
            "shoulder": 1.5,
            "give": 0,
            "rim": None,
        },
        "links": [],
        "radiusArms": [],
        "sharedJoints": [],
        "knuckles": None,
        "steering": None,
        "shocks": [],
        "coils": [],
        "bumpStops": [],
        "straps": [],
        "lines": [],
        "swayBar": None,
        "driveline": None,
    }
    return {**base, **given}


def build(name, wheelbase, axles, weights=None):
    return {
        "name": name,
        "variant": None,
        "unit": "in",
        "driverSide": "left",
        "notes": None,
        "wheelbase": wheelbase,
        "weights": weights,
        "axles": axles,
        "solids": [],
        "wanted": {"bands": [], "gaps": [], "muted": [], "assumedTravel": None},
        "entries": [],
        "warnings": [],
    }


def mirror(point):
    return [point[0], -point[1], point[2]]


def hay_hauler(links, name):
    """The worked front axle: shared parts, with the links given."""
    from math import cos, radians, sin

    track_bar = {"through": [[2.5, -9, 29.25], [1.5, 1, 31.25], [1.5, 14, 31.25]]}
    short = len(links) == 4
    bar = link(
        "track bar",
        joint("track bar.axle", (3.5, -20.5, 25.0), bolt=(1, 0, 0)),
        joint("track bar.chassis", (4.0, 18, 27.75), bolt=(1, 0, 0)),
        kind="track bar",
        rate=24000 if short else None,
        **track_bar,
    )
    shocks, coils, stops = [], [], []
    for side, s in (("left", 1), ("right", -1)):
        shocks.append(
            {
                "name": f"{side} shock",
                "side": side,
                "axle": [-5, s * 20.5, 17],
                "chassis": [-6.5, s * 18, 41.5],
                "shortest": 19.75,
                "longest": 29.75,
                "bodyEnd": "chassis",
                "body": {"od": None, "length": None},
                "shaft": {"od": None},
                "reservoir": None,
            }
        )
        coils.append(
            {
                "name": f"{side} coil",
                "side": side,
                "axle": [0.5, s * 17.5, 23.75],
                "chassis": [1, s * 17.5, 38],
                "free": None,
                "rate": None,
                "wire": None,
                "turns": None,
                "diameter": None,
                "solid": None,
            }
        )
        stops.append(
            {
                "name": f"{side} bump stop",
                "side": side,
                "kind": "rubber",
                "pad": {"on": "axle", "at": [1.5, s * 17.5, 24.5]},
                "strike": {"on": "chassis", "at": [1.5, s * 17.5, 29.5625], "normal": [0, 0, -1], "radius": None},
                "contactHeight": 1.75,
                "solidHeight": 0,
                "curve": [],
            }
        )
    # the strike plane's normal points towards the pad, so heights are positive below it
    front = axle(
        "front",
        71,
        (0, 0, 20.0),
        links=[*links, bar],
        knuckles={
            side: knuckle(side, (0.42, s * 30.80, 16.0), (-0.42, s * 29.60, 24.0))
            for side, s in (("left", 1), ("right", -1))
        },
        steering={
            "box": {
                "axis": {"at": [13.5, 18, 27.25], "direction": [0, 0, 1]},
                "ratio": 16,
                "sweep": None,
                "wheelsLeft": None,
            },
            "pitmanArm": {"tube": None},
            "dragLink": rod("drag link", ("pitman arm", (7.25, 18, 27.25)), ("right knuckle", (7.0, -29.5, 23.75))),
            "tieRods": [rod("tie rod", ("left knuckle", (6.75, 30.75, 17.75)), ("right knuckle", (6.75, -30.75, 17.75)))],
            "rams": [
                {
                    "name": "ram",
                    "kind": "single",
                    "body": {"on": "axle", "at": [4.25, -1.5, 20.25], "diameter": None},
                    "axis": None,
                    "rod": {"on": "tie rod", "at": [4.5, -24.25, 18.5]},
                    "closed": None,
                    "stroke": None,
                    "bore": None,
                    "rodDiameter": None,
                }
            ],
        },
        shocks=shocks,
        coils=coils,
        bumpStops=stops,
        driveline={
            "pinion": {
                "joint": [-10.5, 9.5, 21],
                "axis": [-cos(radians(7)), 0, sin(radians(7))],
                "kind": "single",
                "limit": None,
            },
            "transferCase": {
                "joint": [-47, 8, 28.5],
                "axis": [cos(radians(4)), 0, sin(radians(4))],
                "kind": "single",
                "limit": None,
            },
            "slip": None,
            "phase": 0,
            "tubeOd": None,
            "axleRatio": None,
        },
    )
    front["tire"] |= {"diameter": 41.4, "width": 13.5}
    weights = {
        "total": 5900,
        "frontShare": None,
        "centerOfGravity": [-50.4, 0, 31],
        "brakeShareFront": 0.6,
        "driveShareFront": None,
    }
    return build(name, 112, [front], weights)


def long_arms():
    return hay_hauler(
        [
            link("left lower link", (-1.5, 17.5, 16.5), (-38, 15.5, 22)),
            link("right lower link", (-1.5, -17.5, 16.5), (-38, -15.5, 22)),
            link("upper link", (-1, -8, 27), (-33.5, -11, 30.25)),
        ],
        "hay hauler, long arms",
    )


def short_arms():
    pairs = (("lower link", (-1.5, 17.5, 16.5), (-24, 15.5, 21.25)), ("upper link", (-1, 17, 24.5), (-17.5, 15, 27.5)))
    links = []
    for name, a, c in pairs:
        links.append(link(f"left {name}", a, c, rate=12000))
        links.append(link(f"right {name}", mirror(a), mirror(c), rate=12000))
    return hay_hauler(links, "hay hauler, short arms")
