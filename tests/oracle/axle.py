"""The axle's pose by a general optimizer on rotation vectors and translations.

Unknowns: the axle's rotation vector and translation from drawn (6), the offset of every shared joint
that gives (3 each), the rotation vector and translation of every radius arm (6 each). Conditions: both
straight-ahead wheel centers stand at the height asked for; whatever is rigid holds exactly. Where the
layout is more than four lengths, or has arms, the sum of squares ½ |residual|² is the elastic energy in
in·lbf, and its least value under the conditions is the pose.

Each solve is scipy's least_squares (MINPACK's Levenberg-Marquardt) with the conditions weighted, then
Newton on the Lagrange conditions in extended precision, which takes the weights out again.
"""

import numpy as np
from scipy.optimize import least_squares

from algebra import LONG, apply, cross, dot, jacobian, length, rotation


class Unreachable(Exception):
    """No solution close to the start, or the branch ends there."""


def series(rates, bolt, line, tube_compliance=0.0):
    """Compliance of one end across and along its bolt, seen along the line; null rates are rigid."""
    total = tube_compliance
    radial, axial = rates["radial"], rates["axial"]
    cosine2 = 0.0 if bolt is None else float(np.dot(bolt, line)) ** 2
    if radial:
        total += (1 - cosine2) / radial
    if axial:
        total += cosine2 / axial
    if rates["bracket"]:
        total += 1 / rates["bracket"]
    return total


def link_compliance(link, shared):
    """1/k of one link, fixed at the drawn ride height; 0 where nothing in it gives."""
    if link["rate"]:
        return 1 / link["rate"]
    drawn = np.subtract(link["chassis"]["at"], link["axle"]["at"])
    span = float(np.linalg.norm(drawn))
    total = 0.0
    if link["tube"]:
        outer = link["tube"]["od"]
        wall = link["tube"]["wall"]
        inner = 0.0 if wall is None else outer - 2 * wall
        total += span / (link["modulus"] * np.pi / 4 * (outer**2 - inner**2))
    for end in (link["axle"], link["chassis"]):
        rates = dict(end["rates"])
        if end["shared"] is not None and shared[end["shared"]]["rates"]["radial"]:
            rates["radial"] = rates["axial"] = None  # the free point holds that rate
        total += series(rates, end["bolt"], drawn / span)
    return total


def joint_frame(bolt):
    """Three rows: the bolt's direction and two across it (any, where there is no bolt)."""
    along = np.array([0.0, 1.0, 0.0]) if bolt is None else np.asarray(bolt, float)
    along = along / np.linalg.norm(along)
    helper = np.eye(3)[int(np.argmin(np.abs(along)))]
    across = np.cross(along, helper)
    across /= np.linalg.norm(across)
    return np.array([along, across, np.cross(along, across)])


class Axle:
    """One axle of a resolved Build; all points relative to the axle's origin as drawn."""

    def __init__(self, axle):
        self.data = axle
        self.origin = np.asarray(axle["origin"], float)
        self.half = axle["wheelCenters"] / 2
        self.links = axle["links"]
        self.arms = axle["radiusArms"]
        shared = {joint["name"]: joint for joint in axle["sharedJoints"]}
        count = len(self.links)
        self.exact = count == 4 and not self.arms
        self.in_axle = np.array([np.subtract(k["axle"]["at"], self.origin) for k in self.links])
        self.in_chassis = np.array([np.asarray(k["chassis"]["at"], float) for k in self.links])
        self.drawn = np.linalg.norm(
            self.in_chassis - self.in_axle - self.origin, axis=1
        ) if count else np.zeros(0)
        self.free = np.array(
            [d if k["length"] is None else k["length"] for k, d in zip(self.links, self.drawn)]
        )
        compliance = [0.0 if self.exact else link_compliance(k, shared) for k in self.links]
        self.rate = np.array([1 / c if c > 0 else np.inf for c in compliance])
        self.giving = [
            joint for joint in axle["sharedJoints"] if joint["rates"]["radial"] and not self.exact
        ]
        self.offset_index = {}
        at = 6
        for joint in self.giving:
            self.offset_index[joint["name"]] = at
            at += 3
        self.arm_index = {}
        for arm in self.arms:
            self.arm_index[arm["name"]] = at
            at += 6
        self.size = at
        finite = [k for k in self.rate if np.isfinite(k)]
        finite += [j["rates"]["radial"] for j in self.giving]
        for arm in self.arms:
            for end in (*arm["axle"], arm["chassis"]):
                finite += [end["rates"][key] for key in ("radial", "axial") if end["rates"][key]]
        self.stiffest = max(finite, default=1.0)

    # --- the model ---

    def place(self, u):
        """Rotation and origin of the axle at the unknowns u."""
        return rotation(u[..., 0:3]), self.origin + u[..., 3:6]

    def ends(self, u):
        """Axle and chassis end of every link, chassis axes."""
        r, o = self.place(u)
        axle_ends, chassis_ends = [], []
        for i, link in enumerate(self.links):
            a = self.in_axle[i] + 0 * o
            c = self.in_chassis[i] + 0 * o
            on_axle = self.offset_index.get(link["axle"]["shared"])
            if on_axle is not None:
                a = a + u[..., on_axle : on_axle + 3]
            on_chassis = self.offset_index.get(link["chassis"]["shared"])
            if on_chassis is not None:
                c = c + u[..., on_chassis : on_chassis + 3]
            axle_ends.append(o + apply(r, a))
            chassis_ends.append(c)
        return axle_ends, chassis_ends

    def arm_place(self, u, arm):
        """Rotation of an arm and the place of its chassis joint's half."""
        at = self.arm_index[arm["name"]]
        pivot = np.asarray(arm["chassis"]["at"], float)
        return rotation(u[..., at : at + 3]), pivot + u[..., at + 3 : at + 6], pivot

    def arm_joint(self, u, arm, end):
        """Offset of a joint's halves (arm less bracket) in the bracket's joint frame, bolt and bore."""
        r, o = self.place(u)
        ra, moved, pivot = self.arm_place(u, arm)
        half = moved + apply(ra, np.subtract(end["at"], pivot) + 0 * o)
        frame = joint_frame(end["bolt"])
        if end is arm["chassis"]:
            bracket = np.asarray(end["at"], float) + 0 * o
            rows = [f + 0 * o for f in frame]
        else:
            bracket = o + apply(r, np.subtract(end["at"], self.origin) + 0 * o)
            rows = [apply(r, f + 0 * o) for f in frame]
        offset = np.stack([dot(row, half - bracket) for row in rows], axis=-1)
        bore = frame[0] if end["bore"] is None else np.asarray(end["bore"], float)
        return offset, rows[0], apply(ra, bore + 0 * o)

    def parts(self, u, travel, free):
        """Residuals whose half sum of squares is the energy, and conditions that hold exactly."""
        r, o = self.place(u)
        energy, rigid = [], []
        for sign, rise in ((1, travel[0]), (-1, travel[1])):
            rigid.append((o + sign * self.half * r[..., :, 1])[..., 2] - self.origin[2] - rise)
        axle_ends, chassis_ends = self.ends(u)
        for i, (a, c) in enumerate(zip(axle_ends, chassis_ends)):
            stretch = length(c - a) - free[i]
            if np.isfinite(self.rate[i]):
                energy.append(np.sqrt(self.rate[i]) * stretch)
            else:
                rigid.append(stretch)
        for joint in self.giving:
            at = self.offset_index[joint["name"]]
            d = u[..., at : at + 3]
            radial, axial = joint["rates"]["radial"], joint["rates"]["axial"] or joint["rates"]["radial"]
            for k, row in zip((axial, radial, radial), joint_frame(joint["bolt"])):
                energy.append(np.sqrt(k) * dot(row, d))
        for arm in self.arms:
            for end in (*arm["axle"], arm["chassis"]):
                offset, bolt, bore = self.arm_joint(u, arm, end)
                rates = end["rates"]
                axial = rates["axial"] if end["bolt"] is not None else rates["radial"]
                for axis, k in enumerate((axial, rates["radial"], rates["radial"])):
                    if k:
                        compliance = 1 / k + (1 / rates["bracket"] if rates["bracket"] else 0)
                        energy.append(offset[..., axis] / np.sqrt(compliance))
                    elif rates["bracket"]:
                        energy.append(offset[..., axis] * np.sqrt(rates["bracket"]))
                    else:
                        rigid.append(offset[..., axis])
                if rates["conical"]:
                    energy.extend(np.sqrt(rates["conical"]) * w for w in tilt(bolt, bore))
        stack = lambda rows: np.stack(rows, axis=-1) if rows else np.zeros((*u.shape[:-1], 0))
        return stack(energy), stack(rigid)

    # --- solving ---

    def gradient(self, u, multiplier, travel, free):
        """Gradient of energy + multiplier · conditions, by complex steps."""
        n_energy = self.parts(u, travel, free)[0].shape[-1]

        def both(v):
            return np.concatenate(self.parts(v, travel, free), axis=-1)

        j = jacobian(both, u)
        energy, rigid = self.parts(u, travel, free)
        je, jc = j[:n_energy], j[n_energy:]
        return je.T @ energy + jc.T @ multiplier, je, jc, energy, rigid

    def curvature(self, u, multiplier, travel, free):
        """Second derivative of energy + multiplier · conditions: complex step inside, central outside."""
        u = np.asarray(u, float)
        step = 1e-5
        n = self.size
        base = np.concatenate([u + step * np.eye(n), u - step * np.eye(n)])
        inner = base[:, None, :] + 1e-30j * np.eye(n)[None]
        energy, rigid = self.parts(inner, travel, free)
        energy_slope, rigid_slope = energy.imag / 1e-30, rigid.imag / 1e-30
        slope = np.sum(energy_slope * energy.real, axis=-1) + rigid_slope @ multiplier
        h = (slope[:n] - slope[n:]) / (2 * step)
        return (h + h.T) / 2

    def start(self, u, travel, free):
        """scipy's optimizer from u; returns unknowns good to about 1e-10."""
        travel, free = np.asarray(travel, float), np.asarray(free, float)
        weight = 1.0 if self.exact else 100 * np.sqrt(self.stiffest)

        def stacked(v):
            energy, rigid = self.parts(v, travel, free)
            return np.concatenate([energy, weight * rigid], axis=-1)

        found = least_squares(
            lambda v: stacked(v),
            np.asarray(u, float),
            jac=lambda v: jacobian(stacked, v),
            method="lm",
            xtol=1e-15,
            ftol=1e-15,
            gtol=1e-15,
            max_nfev=200,
        )
        return found.x, found.fun / weight

    def solve(self, u, travel, free):
        """The pose near u, in extended precision, with the sign that tells its branch.

        Returns (u, multiplier, facts): facts has `rigid` (largest error of an exact condition, in),
        `gradient` (lbf, moments divided by half the track) and `stable` (least eigenvalue of the
        energy's curvature along the free motions, or the determinant's sign for exact layouts).
        """
        guess, _ = self.start(u, travel, free)
        travel = np.asarray(travel, LONG)
        free = np.asarray(free, LONG)
        u = guess.astype(LONG)
        m = self.parts(u, travel, free)[1].shape[-1]
        g, _, jc, _, rigid = self.gradient(u, np.zeros(m, LONG), travel, free)
        jc64 = jc.astype(float)
        multiplier = np.zeros(m, LONG)
        square = m == self.size
        if not square:
            multiplier = np.linalg.lstsq(jc64.T, -g.astype(float), rcond=None)[0].astype(LONG)
            args = (multiplier.astype(float), travel.astype(float), free.astype(float))
            h = self.curvature(u, *args)
            matrix = np.block([[h, jc64.T], [jc64, np.zeros((m, m))]])
            scale = 1 / np.sqrt(np.maximum(np.abs(matrix).max(axis=1), 1e-12))
        last = np.inf
        for _ in range(15):
            g, _, jc, _, rigid = self.gradient(u, multiplier, travel, free)
            if square:
                step = np.linalg.solve(jc.astype(float), -rigid.astype(float))
            else:  # the matrix of the start serves: the start is already close
                right = -np.concatenate([g, rigid]).astype(float)
                both = scale * np.linalg.solve(scale[:, None] * matrix * scale, scale * right)
                step = both[: self.size]
                multiplier = multiplier + both[self.size :]
            size = float(np.abs(step).max())
            if not np.isfinite(size) or size > 1:
                raise Unreachable("the last steps ran away")
            u = u + step
            if size < 1e-17 or (size < 1e-12 and size >= last / 2):
                break
            last = size
        g, _, jc, _, rigid = self.gradient(u, multiplier, travel, free)
        jc64 = jc.astype(float)
        if square:
            stable, slope = np.linalg.slogdet(jc64)[0], 0.0
        else:
            free_motions = np.linalg.svd(jc64)[2][m:].T
            stable = float(np.linalg.eigvalsh(free_motions.T @ h @ free_motions).min())
            scaled = g.astype(float)
            scaled[0:3] /= self.half
            for at in self.arm_index.values():
                scaled[at : at + 3] /= self.half
            slope = float(np.abs(scaled).max())
        worst = float(np.abs(rigid).max())
        if worst > 1e-12:
            raise Unreachable(f"conditions stay open by {worst:.3g} in")
        return u, multiplier, {"rigid": worst, "gradient": slope, "stable": stable}

    # --- what the pose holds ---

    def stretch(self, u, multiplier, travel, free):
        """Stretch (in) and force (lbf) of every link: + is tension."""
        axle_ends, chassis_ends = self.ends(u)
        out = []
        row = 2
        for i, (a, c) in enumerate(zip(axle_ends, chassis_ends)):
            if self.exact:
                out.append((LONG(0), LONG(0)))
            elif np.isfinite(self.rate[i]):
                s = length(c - a) - LONG(free[i])
                out.append((s, LONG(self.rate[i]) * s))
            else:
                out.append((LONG(0), multiplier[row]))
                row += 1
        return out

    def joints(self, u):
        """Offset (in) and force (lbf) of every joint that gives, by name."""
        found = {}
        for joint in self.giving:
            at = self.offset_index[joint["name"]]
            d = u[at : at + 3]
            radial, axial = joint["rates"]["radial"], joint["rates"]["axial"] or joint["rates"]["radial"]
            parts = [k * dot(row, d) for k, row in zip((axial, radial, radial), joint_frame(joint["bolt"]))]
            found[joint["name"]] = (length(d), np.sqrt(sum(p * p for p in parts)))
        for arm in self.arms:
            for end in (*arm["axle"], arm["chassis"]):
                rates = end["rates"]
                if not (rates["radial"] or rates["axial"] or rates["bracket"]):
                    continue
                offset, _, _ = self.arm_joint(u, arm, end)
                axial = rates["axial"] if end["bolt"] is not None else rates["radial"]
                bracket = 1 / rates["bracket"] if rates["bracket"] else 0
                total = LONG(0)
                for axis, k in enumerate((axial, rates["radial"], rates["radial"])):
                    compliance = (1 / k if k else 0) + bracket
                    if compliance:
                        total += (offset[axis] / compliance) ** 2
                found[end["name"]] = (length(offset), np.sqrt(total))
        return found


def tilt(bolt, bore):
    """The angle between two axes times the direction of the turn that closes it; smooth at zero."""
    w = cross(bolt, bore)
    s2 = dot(w, w)
    small = np.abs(s2) < 1e-4
    s = np.sqrt(np.where(small, 0.5, s2))
    ratio = np.where(
        small,
        1 + s2 / 6 + 3 * s2**2 / 40 + 5 * s2**3 / 112 + 35 * s2**4 / 1152 + 63 * s2**5 / 2816,
        np.arcsin(s) / s,
    )
    return [ratio * w[..., i] for i in range(3)]
