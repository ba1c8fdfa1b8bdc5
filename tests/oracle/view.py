"""Points, directions and angles of one solved pose, vehicle axes, from which the measures are made."""

import numpy as np

from algebra import LONG, apply, cross, dot, length, turned, unit
from steering import SIDES

X = np.array([1, 0, 0], LONG)
OUTBOARD = {"left": 1, "right": -1}
deg = np.rad2deg


def rest_spin(knuckle):
    """Spin axis, leftward, of a wheel as drawn: toe-in and camber as the measures define them."""
    side = OUTBOARD[knuckle["side"]]
    steer, camber = -side * LONG(knuckle["toe"]), LONG(knuckle["camber"])
    return np.array(
        [-np.sin(steer) * np.cos(camber), np.cos(steer) * np.cos(camber), -side * np.sin(camber)], LONG
    )


class View:
    """Points and directions of one pose in vehicle axes."""

    def __init__(self, pose):
        oracle = pose.oracle
        self.pose, self.oracle = pose, oracle
        self.r, self.o = pose.r, pose.o
        self.data, self.steering = oracle.data, oracle.steering
        self.half = LONG(self.data["wheelCenters"]) / 2
        self.radius = LONG(self.data["tire"]["loadedRadius"])
        self.steered = self.data["knuckles"] is not None
        self.h = self.chassis([0, 0, -self.radius])
        up = cross(X, self.r[:, 1])
        self.ground_up = unit(up)
        self.ground_left = cross(self.ground_up, X)

    def chassis(self, in_axle):
        return self.o + apply(self.r, np.asarray(in_axle, LONG))

    def axle_point(self, at):
        return self.chassis(np.asarray(at, LONG) - np.asarray(self.data["origin"], LONG))

    def turn(self, side):
        return self.pose.turns[SIDES.index(side)]

    def on(self, body, at):
        """A drawn point on a body, now, vehicle axes."""
        if body == "chassis":
            return np.asarray(at, LONG)
        if body == "axle":
            return self.axle_point(at)
        local = self.steering.on_body(at, body, self.pose.turns, self.r, self.o, self.pose.input)
        return self.chassis(local)

    def direction_on(self, body, v):
        """A drawn direction fixed in a body, now, vehicle axes."""
        v = np.asarray(v, LONG)
        if body == "chassis":
            return v
        if body in ("left knuckle", "right knuckle"):
            side = body.split()[0]
            v = self.steering.knuckle_vector(v, side, self.turn(side))
        elif body == "pitman arm":
            axis = unit(np.asarray(self.steering.box["axis"]["direction"], LONG))
            return turned(v, axis, np.asarray(self.steering.sense * self.pose.input))
        elif body in self.steering.rods:
            ends = self.steering.rod_ends(body, self.pose.turns, self.r, self.o, self.pose.input)
            v = self.steering.rod_vector(v, body, ends)
        elif body not in ("axle", "ram rod"):
            raise ValueError(f"no direction on {body}")
        return apply(self.r, v)

    def spin(self, side):
        if not self.steered:
            return self.r[:, 1]
        n = rest_spin(self.data["knuckles"][side])
        return apply(self.r, self.steering.knuckle_vector(n, side, self.turn(side)))

    def wheel_center(self, side):
        center = np.array([0, OUTBOARD[side] * self.half, 0], LONG)
        if self.steered:
            center = self.steering.knuckle_point(center, side, self.turn(side))
        return self.chassis(center)

    def steer(self, side):
        n = self.spin(side)
        return np.arctan2(-n[0], n[1])

    def mean_steer(self):
        return (self.steer("left") + self.steer("right")) / 2

    def yaw(self):
        return np.arctan2(-self.r[0, 1], self.r[1, 1])

    def roll(self):
        return np.arcsin(self.r[2, 1])

    def pitch(self):
        return np.arctan2(-self.r[2, 0], self.r[2, 2])

    def toe(self, side):
        return -OUTBOARD[side] * self.steer(side)

    def contact(self, side):
        """A wheel's contact center and the ground directions along and across its trace."""
        n, up, center = self.spin(side), self.ground_up, self.wheel_center(side)
        steepest = up - dot(up, n) * n
        height = dot(center - self.h, up)
        foot = center - steepest * height / dot(steepest, up)
        along = unit(cross(n, up))
        return foot, along, cross(up, along)

    def kingpin(self, side):
        """Upward unit vector of the kingpin axis and its point in the ground plane."""
        k = apply(self.r, self.steering.axis[side].astype(LONG))
        lower = self.chassis(self.steering.pivot[side])
        return k, lower - k * dot(lower - self.h, self.ground_up) / dot(k, self.ground_up)

    def link_ends(self):
        """Name to (axle end, chassis end) of every link."""
        axle_ends, chassis_ends = self.oracle.axle.ends(self.pose.u)
        return {k["name"]: (a, c) for k, a, c in zip(self.data["links"], axle_ends, chassis_ends)}

    def rod_ends(self, name):
        ends = self.steering.rod_ends(name, self.pose.turns, self.r, self.o, self.pose.input)
        return tuple(self.chassis(e) for e in ends)

    def shock(self, part):
        """Length between the two ends of a shock or coil."""
        return length(self.axle_point(part["axle"]) - np.asarray(part["chassis"], LONG))

    def rams(self):
        """Length between ends of every single-ended ram."""
        found = {}
        for ram in (self.data["steering"] or {}).get("rams", []):
            if ram["kind"] == "single":
                ends = self.on(ram["body"]["on"], ram["body"]["at"]), self.on(ram["rod"]["on"], ram["rod"]["at"])
                found[ram["name"]] = length(ends[1] - ends[0])
        return found

    def pinion_axis(self):
        return apply(self.r, np.asarray(self.data["driveline"]["pinion"]["axis"], LONG))

    def shaft(self):
        """Pinion joint, transfer-case joint, vehicle axes."""
        line = self.data["driveline"]
        return self.axle_point(line["pinion"]["joint"]), np.asarray(line["transferCase"]["joint"], LONG)
