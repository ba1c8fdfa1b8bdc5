// Gaps of placed shapes by other code than geometry/solid: once by FCL, once by searches of its own.
//
//   apt-get install g++ libfcl-dev libeigen3-dev libccd-dev
//   g++ -O2 -std=c++17 -I/usr/include/eigen3 solids.cpp -lfcl -lccd -o solids
//   ./solids < cases > gaps            (recordSolids.ts does both)
//
// In:  doubles; the pools of hulls and meshes, then the cases, laid out by recordSolids.ts.
// Out: two doubles a case, in inches: FCL's distance, and that of the search. NaN where one has none: FCL says
//      nothing of overlap and knows no rounded tire; the search leaves two meshes that are apart to FCL.
//      Of two meshes that overlap only that they do is told, by -1.
//
// The search rests on other facts than the library's distance search:
//
//   two convex sets   gap = max over unit n of g(n) = min n.b - max n.a, apart and overlapping alike
//                     (minus g is the support function of their difference). Thousands of directions, and
//                     the normals of faces and edge pairs, then nested golden sections about the best few.
//   mesh and convex   gap = min over the triangles of the signed distance from the convex set, which is
//                     convex, by nested golden sections; a hull's signed distance inside from its planes.
//   inside a mesh     winding number by solid angles (Van Oosterom and Strackee 1983, from memory).
#include <fcl/fcl.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <functional>
#include <limits>
#include <memory>
#include <vector>

using V = Eigen::Vector3d;
using M = Eigen::Matrix3d;
const double NONE = std::numeric_limits<double>::quiet_NaN();
const double FAR = std::numeric_limits<double>::infinity();

static double next() {
  double x;
  if (std::fread(&x, sizeof x, 1, stdin) != 1) {
    std::fprintf(stderr, "cases end too early\n");
    std::exit(1);
  }
  return x;
}
static V nextV() {
  double x = next(), y = next(), z = next();
  return V(x, y, z);
}

struct Place {
  M R;
  V t;
  V carry(const V& p) const { return R * p + t; }
};
static Place nextPlace() {
  Place p;
  for (int i = 0; i < 3; i++)
    for (int j = 0; j < 3; j++) p.R(i, j) = next();
  p.t = nextV();
  return p;
}

struct Hull {
  std::vector<V> points;
  std::vector<std::pair<V, double>> planes;  // outward normal and n.x of the plane
  std::vector<V> edges;                      // directions
  V inner;
  double inradius = 0;
};
struct Mesh {
  std::vector<V> points;
  std::vector<std::array<int, 3>> triangles;
  bool closed;
  std::shared_ptr<fcl::BVHModel<fcl::OBBRSSd>> fclModel;
};
static std::vector<Hull> hulls;
static std::vector<Mesh> meshes;

// ---------------------------------------------------------------- convex sets in the common frame

enum Kind { SPHERE, CAPSULE, BENT, BOX, CYLINDER, TIRE, HULL, MESH };

struct Convex {
  enum Core { SEGMENT, BOXCORE, CYL, POINTS } core;
  double radius = 0;
  V p, q;           // segment; center and axis of a cylinder
  M axes;           // columns of a box
  V half;           // box; half length and radius of a cylinder
  std::vector<V> points;
  const Hull* hull = nullptr;
  Place place;

  double reach(const V& n) const {
    switch (core) {
      case SEGMENT: return std::max(n.dot(p), n.dot(q)) + radius;
      case BOXCORE: return n.dot(p) + half.dot((axes.transpose() * n).cwiseAbs()) + radius;
      case CYL: {
        double a = n.dot(q);
        return n.dot(p) + half[0] * std::abs(a) + half[1] * (n - a * q).norm() + radius;
      }
      default: {
        double far = -FAR;
        for (const V& each : points) far = std::max(far, n.dot(each));
        return far + radius;
      }
    }
  }
  // normals of flat sides and directions of straight edges, for the search's starts
  void features(std::vector<V>& normals, std::vector<V>& edges) const {
    if (core == SEGMENT && (q - p).norm() > 1e-12) edges.push_back((q - p).normalized());
    if (core == BOXCORE)
      for (int i = 0; i < 3; i++) normals.push_back(axes.col(i)), edges.push_back(axes.col(i));
    if (core == CYL) normals.push_back(q), edges.push_back(q);
    if (core == POINTS && hull) {
      for (auto& each : hull->planes) normals.push_back(place.R * each.first);
      for (auto& each : hull->edges) edges.push_back(place.R * each);
    } else if (core == POINTS && points.size() == 3) {
      V a = points[1] - points[0], b = points[2] - points[0], c = points[2] - points[1];
      if (a.cross(b).norm() > 1e-12) normals.push_back(a.cross(b).normalized());
      for (const V& e : {a, b, c})
        if (e.norm() > 1e-12) edges.push_back(e.normalized());
    }
  }
  // signed distance of a point; hulls by planes inside and NaN outside
  double signedDistance(const V& x) const {
    switch (core) {
      case SEGMENT: {
        V d = q - p;
        double s = d.squaredNorm() > 0 ? std::clamp((x - p).dot(d) / d.squaredNorm(), 0., 1.) : 0;
        return (x - p - s * d).norm() - radius;
      }
      case BOXCORE: {
        V e = (axes.transpose() * (x - p)).cwiseAbs() - half;
        double out = e.cwiseMax(0).norm();
        return (out > 0 ? out : e.maxCoeff()) - radius;
      }
      case CYL: {
        double a = (x - p).dot(q), r = (x - p - a * q).norm();
        double e = std::abs(a) - half[0], f = r - half[1];
        double out = std::hypot(std::max(e, 0.), std::max(f, 0.));
        return (out > 0 ? out : std::max(e, f)) - radius;
      }
      default: {
        V y = place.R.transpose() * (x - place.t);
        double most = -FAR;
        for (auto& each : hull->planes) most = std::max(most, each.first.dot(y) - each.second);
        return most;
      }
    }
  }
};

struct Solid {
  int kind;
  std::vector<Convex> pieces;
  int mesh = -1;
  Place place;
  std::vector<std::pair<std::shared_ptr<fcl::CollisionGeometryd>, fcl::Transform3d>> fclParts;
};

static fcl::Transform3d transform(const M& R, const V& t) {
  fcl::Transform3d T = fcl::Transform3d::Identity();
  T.linear() = R;
  T.translation() = t;
  return T;
}
// turns the third axis to `axis`
static M zTo(const V& axis) {
  V u = axis.unitOrthogonal();
  M R;
  R.col(0) = u;
  R.col(1) = axis.cross(u);
  R.col(2) = axis;
  return R;
}

static std::shared_ptr<fcl::Convexd> fclHull(const Hull& hull) {
  auto vertices = std::make_shared<const std::vector<V>>(hull.points);
  // the search for extreme points looks at all vertices of so small a hull: any face will do
  auto faces = std::make_shared<const std::vector<int>>(std::vector<int>{3, 0, 1, 2});
  return std::make_shared<fcl::Convexd>(vertices, 1, faces);
}

struct Read {
  int kind;
  std::vector<double> numbers;
};
static Read readShape() {
  Read r{int(next()), {}};
  int n = 0;
  switch (r.kind) {
    case SPHERE: n = 4; break;
    case CAPSULE: case CYLINDER: n = 7; break;
    case BENT: r.numbers.push_back(next()); n = 3 * int(r.numbers[0]) + 1; break;
    case BOX: n = 6; break;
    case TIRE: n = 9; break;
    default: n = 1;
  }
  for (int i = 0; i < n; i++) r.numbers.push_back(next());
  return r;
}

static Solid build(const Read& r, const Place& place) {
  Solid s;
  s.kind = r.kind;
  s.place = place;
  const double* x = r.numbers.data();
  auto at = [&](int i) { return V(x[i], x[i + 1], x[i + 2]); };
  auto segment = [&](const V& p, const V& q, double radius) {
    Convex c;
    c.core = Convex::SEGMENT;
    c.p = place.carry(p);
    c.q = place.carry(q);
    c.radius = radius;
    s.pieces.push_back(c);
    V d = c.q - c.p;
    if (d.norm() < 1e-9) {
      s.fclParts.push_back({std::make_shared<fcl::Sphered>(radius), transform(M::Identity(), c.p)});
    } else {
      s.fclParts.push_back({std::make_shared<fcl::Capsuled>(radius, d.norm()),
                            transform(zTo(d.normalized()), (c.p + c.q) / 2)});
    }
  };
  switch (r.kind) {
    case SPHERE: segment(at(0), at(0), x[3]); break;
    case CAPSULE: segment(at(0), at(3), x[6]); break;
    case BENT: {
      int n = int(x[0]);
      for (int i = 0; i + 1 < n; i++) segment(at(1 + 3 * i), at(4 + 3 * i), x[3 * n + 1]);
      break;
    }
    case BOX: {
      Convex c;
      c.core = Convex::BOXCORE;
      c.p = place.carry(at(0));
      c.axes = place.R;
      c.half = at(3);
      s.pieces.push_back(c);
      V side = 2 * c.half;
      s.fclParts.push_back({std::make_shared<fcl::Boxd>(side), transform(place.R, c.p)});
      break;
    }
    case CYLINDER: case TIRE: {
      Convex c;
      c.core = Convex::CYL;
      V axis;
      if (r.kind == CYLINDER) {
        axis = at(3) - at(0);
        c.p = place.carry((at(0) + at(3)) / 2);
        c.half = V(axis.norm() / 2, x[6], 0);
      } else {
        axis = at(3);
        c.p = place.carry(at(0));
        c.radius = x[8];
        c.half = V(x[7] / 2 - x[8], x[6] / 2 - x[8], 0);
      }
      c.q = (place.R * axis).normalized();
      s.pieces.push_back(c);
      if (r.kind == CYLINDER)
        s.fclParts.push_back({std::make_shared<fcl::Cylinderd>(c.half[1], 2 * c.half[0]),
                              transform(zTo(c.q), c.p)});
      break;
    }
    case HULL: {
      const Hull& hull = hulls[int(x[0])];
      Convex c;
      c.core = Convex::POINTS;
      c.hull = &hull;
      c.place = place;
      for (const V& p : hull.points) c.points.push_back(place.carry(p));
      s.pieces.push_back(c);
      s.fclParts.push_back({fclHull(hull), transform(place.R, place.t)});
      break;
    }
    default:
      s.mesh = int(x[0]);
      s.fclParts.push_back({meshes[s.mesh].fclModel, transform(place.R, place.t)});
  }
  return s;
}

// ---------------------------------------------------------------- searches

// least value of a convex (or quasi-convex) function on an interval
template <class F>
static double golden(double from, double to, int steps, F f, double* where = nullptr) {
  const double share = (std::sqrt(5.) - 1) / 2;
  double p = to - share * (to - from), q = from + share * (to - from), fp = f(p), fq = f(q);
  for (int i = 0; i < steps; i++) {
    if (fp <= fq) {
      to = q, q = p, fq = fp, p = to - share * (to - from), fp = f(p);
    } else {
      from = p, p = q, fp = fq, q = from + share * (to - from), fq = f(q);
    }
  }
  if (where) *where = fp <= fq ? p : q;
  return std::min(fp, fq);
}

static const int SAMPLES = 3000;
static std::vector<V> sphere;
static std::vector<std::vector<int>> neighbors;

static void makeSphere() {
  for (int i = 0; i < SAMPLES; i++) {
    double z = 1 - (2 * i + 1.) / SAMPLES, a = i * M_PI * (3 - std::sqrt(5.)), r = std::sqrt(1 - z * z);
    sphere.push_back(V(r * std::cos(a), r * std::sin(a), z));
  }
  neighbors.resize(SAMPLES);
  for (int i = 0; i < SAMPLES; i++)
    for (int j = 0; j < SAMPLES; j++)
      if (j != i && sphere[i].dot(sphere[j]) > std::cos(0.11)) neighbors[i].push_back(j);
}

// g(n) = min n.b - max n.a
static double between(const Convex& a, const Convex& b, const V& n) {
  return -b.reach(-n) - a.reach(n);
}

// Climbs from n by nested golden sections on shrinking squares of the plane that touches the sphere there.
static double climb(const Convex& a, const Convex& b, V n, double window) {
  double best = between(a, b, n);
  while (window > 1e-9) {
    V e = n.unitOrthogonal(), f = n.cross(e), center = n;
    double u = 0, v = 0;
    double least = golden(-window, window, 26, [&](double s) {
      return golden(-window, window, 26, [&](double t) {
        return -between(a, b, (center + s * e + t * f).normalized());
      });
    }, &u);
    golden(-window, window, 26,
           [&](double t) { return -between(a, b, (center + u * e + t * f).normalized()); }, &v);
    V found = (center + u * e + v * f).normalized();
    double value = between(a, b, found);
    (void)least;
    if (value > best) best = value, n = found;
    window *= std::max(std::abs(u), std::abs(v)) > 0.8 * window ? 0.7 : 0.02;
  }
  return best;
}

static double convexGap(const Convex& a, const Convex& b) {
  std::vector<double> values(SAMPLES);
  for (int i = 0; i < SAMPLES; i++) values[i] = between(a, b, sphere[i]);
  std::vector<std::pair<double, V>> starts;
  for (int i = 0; i < SAMPLES; i++) {
    bool top = true;
    for (int j : neighbors[i]) top = top && values[j] <= values[i];
    if (top) starts.push_back({values[i], sphere[i]});
  }
  std::vector<V> normalsA, normalsB, edgesA, edgesB;
  a.features(normalsA, edgesA);
  b.features(normalsB, edgesB);
  std::vector<std::pair<double, V>> exact;
  auto add = [&](const V& n) {
    for (double sign : {-1., 1.}) exact.push_back({between(a, b, sign * n), sign * n});
  };
  for (auto& n : normalsA) add(n);
  for (auto& n : normalsB) add(n);
  for (auto& e : edgesA)
    for (auto& f : edgesB) {
      V n = e.cross(f);
      if (n.norm() > 1e-9) add(n.normalized());
    }
  auto higher = [](const std::pair<double, V>& p, const std::pair<double, V>& q) {
    return p.first > q.first;
  };
  std::sort(starts.begin(), starts.end(), higher);
  std::sort(exact.begin(), exact.end(), higher);
  double best = -FAR;
  int climbed = 0;
  for (auto& each : starts) {
    if (climbed++ == 5) break;
    best = std::max(best, climb(a, b, each.second, 0.1));
  }
  for (int i = 0; i < int(exact.size()) && i < 2; i++) {
    best = std::max(best, exact[i].first);
    best = std::max(best, climb(a, b, exact[i].second, 0.02));
  }
  return best;
}

static Convex triangleOf(const V& a, const V& b, const V& c) {
  Convex t;
  t.core = Convex::POINTS;
  t.points = {a, b, c};
  return t;
}

static double windingNumber(const Mesh& mesh, const V& at) {
  double sum = 0;
  for (auto& t : mesh.triangles) {
    V a = mesh.points[t[0]] - at, b = mesh.points[t[1]] - at, c = mesh.points[t[2]] - at;
    double x = a.norm(), y = b.norm(), z = c.norm();
    sum += std::atan2(a.dot(b.cross(c)), x * y * z + a.dot(b) * z + b.dot(c) * x + c.dot(a) * y);
  }
  return sum / (2 * M_PI);
}

static double meshGap(const Solid& meshSolid, const Solid& other) {
  const Mesh& mesh = meshes[meshSolid.mesh];
  std::vector<V> points;
  for (const V& p : mesh.points) points.push_back(meshSolid.place.carry(p));
  double best = FAR;
  for (const Convex& piece : other.pieces) {
    // nearest triangles first, by a bound: the signed distance changes by no more than the point moves
    std::vector<std::pair<double, int>> order;
    for (int i = 0; i < int(mesh.triangles.size()); i++) {
      auto& t = mesh.triangles[i];
      V a = points[t[0]], b = points[t[1]], c = points[t[2]], m = (a + b + c) / 3;
      double r = std::max({(a - m).norm(), (b - m).norm(), (c - m).norm()});
      // planes give a lower bound of a hull's distance outside too
      order.push_back({piece.signedDistance(m) - r, i});
    }
    std::sort(order.begin(), order.end());
    for (auto& each : order) {
      if (each.first >= best) break;
      auto& t = mesh.triangles[each.second];
      V a = points[t[0]], b = points[t[1]], c = points[t[2]];
      double least = golden(0, 1, 50, [&](double u) {
        return golden(0, 1 - u, 50, [&](double v) {
          return piece.signedDistance(a + u * (b - a) + v * (c - a));
        });
      });
      // planes give no more than a lower bound outside of a hull
      if (piece.core == Convex::POINTS && least > -1e-7 && least < best)
        least = std::max(least, convexGap(triangleOf(a, b, c), piece));
      best = std::min(best, least);
    }
    if (mesh.closed) {
      V inner = piece.core == Convex::SEGMENT ? V((piece.p + piece.q) / 2)
                : piece.core == Convex::POINTS ? piece.place.carry(piece.hull->inner)
                                               : piece.p;
      V at = meshSolid.place.R.transpose() * (inner - meshSolid.place.t);
      if (std::abs(windingNumber(mesh, at)) > 0.5) {
        double depth = piece.core == Convex::POINTS ? piece.hull->inradius
                                                    : -piece.signedDistance(inner);
        best = std::min(best, -depth);
      }
    }
  }
  return best;
}

// -1 for a mesh wholly inside a closed one, whose surfaces do not cross
static double meshInMesh(const Solid& a, const Solid& b) {
  V inA = a.place.R.transpose() * (b.place.carry(meshes[b.mesh].points[0]) - a.place.t);
  V inB = b.place.R.transpose() * (a.place.carry(meshes[a.mesh].points[0]) - b.place.t);
  if (meshes[a.mesh].closed && std::abs(windingNumber(meshes[a.mesh], inA)) > 0.5) return -1;
  if (meshes[b.mesh].closed && std::abs(windingNumber(meshes[b.mesh], inB)) > 0.5) return -1;
  return NONE;
}

static double searched(const Solid& a, const Solid& b) {
  if (a.mesh >= 0 && b.mesh >= 0) return meshInMesh(a, b);
  if (a.mesh >= 0) return meshGap(a, b);
  if (b.mesh >= 0) return meshGap(b, a);
  double best = FAR;
  for (auto& p : a.pieces)
    for (auto& q : b.pieces) best = std::min(best, convexGap(p, q));
  return best;
}

static double byFcl(const Solid& a, const Solid& b) {
  if (a.kind == TIRE || b.kind == TIRE) return NONE;
  double best = FAR;
  for (auto& p : a.fclParts)
    for (auto& q : b.fclParts) {
      fcl::CollisionRequestd hit;
      fcl::CollisionResultd hits;
      fcl::collide(p.first.get(), p.second, q.first.get(), q.second, hit, hits);
      if (hits.isCollision()) return a.mesh >= 0 && b.mesh >= 0 ? -1 : NONE;
      fcl::DistanceRequestd request(false, false, 0, 0, 1e-12, fcl::GST_LIBCCD);
      fcl::DistanceResultd result;
      double d = fcl::distance(p.first.get(), p.second, q.first.get(), q.second, request, result);
      if (d < 0) return a.mesh >= 0 && b.mesh >= 0 ? -1 : NONE;
      best = std::min(best, d);
    }
  return best;
}

// ---------------------------------------------------------------- pools

static void finishHull(Hull& h) {
  int n = int(h.points.size());
  for (int i = 0; i < n; i++)
    for (int j = i + 1; j < n; j++)
      for (int k = j + 1; k < n; k++) {
        V normal = (h.points[j] - h.points[i]).cross(h.points[k] - h.points[i]);
        if (normal.norm() < 1e-9) continue;
        normal.normalize();
        double at = normal.dot(h.points[i]), least = FAR, most = -FAR;
        for (auto& p : h.points) {
          least = std::min(least, normal.dot(p) - at);
          most = std::max(most, normal.dot(p) - at);
        }
        auto add = [&](const V& m, double d) {
          for (auto& each : h.planes)
            if ((each.first - m).norm() < 1e-9) return;
          h.planes.push_back({m, d});
        };
        if (most < 1e-9) add(normal, at);
        if (least > -1e-9) add(-normal, -at);
        if (most < 1e-9 || least > -1e-9)
          for (auto& e : {h.points[j] - h.points[i], h.points[k] - h.points[i], h.points[k] - h.points[j]}) {
            bool known = false;
            for (auto& f : h.edges) known = known || e.normalized().cross(f).norm() < 1e-9;
            if (!known) h.edges.push_back(e.normalized());
          }
      }
  // a plate has both sides of one plane only: planes through its rim, square to it, keep the rest out
  if (h.planes.size() == 2) {
    V across = h.planes[0].first;
    for (int i = 0; i < n; i++)
      for (int j = 0; j < n; j++) {
        V normal = (h.points[j] - h.points[i]).cross(across);
        if (normal.norm() < 1e-9) continue;
        normal.normalize();
        double at = normal.dot(h.points[i]), most = -FAR;
        for (auto& p : h.points) most = std::max(most, normal.dot(p) - at);
        if (most < 1e-9) h.planes.push_back({normal, at});
      }
  }
  // largest ball inside: the point that is deepest under all planes, by nested golden sections
  auto depth = [&](double x, double y, double z) {
    double most = -FAR;
    for (auto& each : h.planes) most = std::max(most, each.first.dot(V(x, y, z)) - each.second);
    return most;
  };
  auto least = [&](double x, double y) { return golden(-8, 8, 60, [&](double z) { return depth(x, y, z); }); };
  double x = 0, y = 0, z = 0;
  double r = golden(-8, 8, 60, [&](double s) {
    return golden(-8, 8, 60, [&](double t) { return least(s, t); });
  }, &x);
  golden(-8, 8, 60, [&](double t) { return least(x, t); }, &y);
  golden(-8, 8, 60, [&](double t) { return depth(x, y, t); }, &z);
  h.inner = V(x, y, z);
  h.inradius = std::max(0., -r);
}

int main() {
  makeSphere();
  int n = int(next());
  for (int i = 0; i < n; i++) {
    Hull h;
    int count = int(next());
    for (int k = 0; k < count; k++) h.points.push_back(nextV());
    finishHull(h);
    hulls.push_back(h);
  }
  n = int(next());
  for (int i = 0; i < n; i++) {
    Mesh m;
    m.closed = next() != 0;
    int points = int(next()), triangles = int(next());
    for (int k = 0; k < points; k++) m.points.push_back(nextV());
    for (int k = 0; k < triangles; k++) {
      int a = int(next()), b = int(next()), c = int(next());
      m.triangles.push_back({a, b, c});
    }
    m.fclModel = std::make_shared<fcl::BVHModel<fcl::OBBRSSd>>();
    m.fclModel->beginModel();
    for (auto& t : m.triangles)
      m.fclModel->addTriangle(m.points[t[0]], m.points[t[1]], m.points[t[2]]);
    m.fclModel->endModel();
    meshes.push_back(m);
  }
  n = int(next());
  for (int i = 0; i < n; i++) {
    Read ra = readShape();
    Place pa = nextPlace();
    Read rb = readShape();
    Place pb = nextPlace();
    Solid a = build(ra, pa), b = build(rb, pb);
    double out[2] = {byFcl(a, b), searched(a, b)};
    std::fwrite(out, sizeof out, 1, stdout);
  }
  return 0;
}
