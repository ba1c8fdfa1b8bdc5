"""Sixty seeded plausible layouts, as resolved Builds: exact, compliant, radius arms, wishbones.

Each layout has its own seed (`axlewalk` + its number) and is drawn again until it is well conditioned.
"""

import math

import numpy as np

from algebra import jacobian
from axle import Unreachable
from draw import (
    Draw,
    assemble,
    lowers,
    radius_arm,
    share,
    soften,
    third,
    track_bar,
    triangulated,
    uppers,
)
from oracle import Oracle

STEERINGS = ("right knuckle", "left knuckle", "tie rod", "beside tie rod", "hanging", "beside hanging", "double ram")


def distance(p, q):
    return math.dist(p, q)


def longer(draw, k, least=0.125, most=0.5):
    """Gives a link a length other than drawn."""
    change = draw.pick(1, -1) * draw.n(least, most)
    k["length"] = round((distance(k["axle"]["at"], k["chassis"]["at"]) + change) * 64) / 64


def exact(seed, index):
    front = index % 5 != 4
    draw = Draw(seed, front)
    kind = STEERINGS[index % len(STEERINGS)] if front else None
    if index % 3 == 2:
        links = [*lowers(draw), *triangulated(draw)]
        name = "triangulated four links"
    else:
        links = [*lowers(draw), third(draw), track_bar(draw)]
        name = "three links and track bar"
    made = assemble(draw, f"{name}, {kind or 'not steered'}", links, kind)
    if index % 5 == 1:
        longer(draw, links[draw.random.randrange(4)])
    if index % 7 == 0 and kind:  # drag link to a knuckle: an adjuster turned
        drag = made["axles"][0]["steering"]["dragLink"]
        drag["length"] = round((distance(drag["from"]["at"], drag["to"]["at"]) + draw.n(-0.25, 0.25)) * 64) / 64
    return made


def compliant(seed, index):
    front = index % 3 != 2
    draw = Draw(seed, front)
    kind = STEERINGS[index % len(STEERINGS)] if front else None
    count = (5, 5, 6, 7, 5)[index % 5]
    links = [*lowers(draw), *uppers(draw), track_bar(draw)]
    if count > 5:
        links.append(third(draw, "center upper link"))
    if count > 6:
        links.append(track_bar(draw, "second track bar", behind=True))
    soften(draw, links, series=index % 2 == 1)
    if index % 4 == 0:
        totals = [k for k in links if k["rate"]]
        if totals:
            longer(draw, totals[0], 0.0625, 0.1875)
    return assemble(draw, f"{count} lengths, {kind or 'not steered'}", links, kind)


def radius_arms(seed, index):
    front = index % 4 != 3
    draw = Draw(seed, front)
    kind = STEERINGS[index % len(STEERINGS)] if front else None
    conical, firm = index % 3 != 1, index in (2, 5)
    arms = [radius_arm(draw, side, conical, firm) for side in ("left", "right")]
    links = [track_bar(draw)]
    name = "two radius arms and track bar"
    if index == 4:
        arms.pop()
        links += [lowers(draw)[1], third(draw)]
        name = "radius arm, lower and upper link, track bar"
    if index == 6:
        links.append(third(draw))
        name = "two radius arms, upper link and track bar"
    soften(draw, links, series=index % 3 == 1)
    return assemble(draw, f"{name}, {kind or 'not steered'}", links, kind, arms)


def wishbones(seed, index):
    front = index in (3, 6)
    draw = Draw(seed, front)
    kind = STEERINGS[index % len(STEERINGS)] if front else None
    low, up = lowers(draw), triangulated(draw)
    ball = draw.point((-1, 2), (-1, 1), (6, 9))
    given = index in (1, 3, 5)
    radial = {"radial": draw.random.randrange(15000, 60000, 500)} if given else {}
    links, shared = [*low, *up], []
    if index == 4:
        # two wishbones: the upper one meets on the axle, the lower one on the chassis
        center = draw.point((26, 36), (-1, 1), (-1, 2))
        shared.append(share(low, "chassis", "lower ball", center, "chassis"))
    if index == 5:
        center = draw.point((26, 36), (-1, 1), (-1, 2))
        shared.append(share(low, "chassis", "lower ball", center, "chassis", radial=30000))
    shared.append(share(up, "axle", "upper ball", ball, "axle", **radial))
    if index in (2, 3, 5, 6):
        links.append(track_bar(draw))
    if index in (5,):
        links.append(third(draw, "center upper link"))
    if len(links) > 4:
        soften(draw, links, series=index == 6)
        for k in links:  # the shared end keeps only what the ball has
            for end in (k["axle"], k["chassis"]):
                if end["shared"]:
                    end["kind"] = "ball"
                    end["rates"] = dict(next(j for j in shared if j["name"] == end["shared"])["rates"])
    return assemble(draw, f"wishbone of {len(links)} lengths, {kind or 'not steered'}", links, kind, shared=shared)


FAMILIES = (("exact", exact, 30), ("compliant", compliant, 15), ("radius arms", radius_arms, 8), ("wishbone", wishbones, 7))


def condition(oracle):
    """Ratio of least to largest singular value of what holds the axle, lengths scaled by half the track."""
    model, u = oracle.axle, np.asarray(oracle.ride.u, float)
    scale = np.ones(model.size)
    scale[:3] = 1 / model.half
    for at in model.arm_index.values():
        scale[at : at + 3] = 1 / model.half
    stacked = lambda v: np.concatenate(model.parts(v, np.zeros(2), model.free), axis=-1)
    j = jacobian(stacked, u) * scale
    j[model.parts(u, np.zeros(2), model.free)[0].shape[-1] :] *= np.sqrt(model.stiffest)
    s = np.linalg.svd(j / np.sqrt(model.stiffest), compute_uv=False)
    return s[-1] / s[0]


def fit(oracle):
    """A layout that a builder would keep: well conditioned, and it steers both ways."""
    if condition(oracle) < 0.005:
        return False
    if not oracle.steering.driven:
        return True
    reach = 25 if oracle.unit == "deg" else 2.5
    try:
        for way in (1, -1):
            turns = oracle.pose(0, 0, way * reach).turns
            if min(way * float(t) for t in turns) < 0.15:
                return False
    except Unreachable:
        return False
    return True


def all_layouts():
    """(name, build, oracle) of the sixty; a layout that is not fit is drawn again with the next seed."""
    for family, make, count in FAMILIES:
        for index in range(count):
            for attempt in range(200):
                seed = f"{family} {index} {attempt}"
                made = make(seed, index)
                made["name"] = f"random {family} {index + 1}: {made['name']}"
                try:
                    oracle = Oracle(made)
                except (Unreachable, np.linalg.LinAlgError):
                    continue
                if fit(oracle):
                    yield seed, made, oracle
                    break
            else:
                raise RuntimeError(f"no fit layout for {family} {index}")
