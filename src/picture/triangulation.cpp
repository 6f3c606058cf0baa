#include "picture/triangulation.h"

#include <algorithm>
#include <deque>
#include <utility>

namespace fanwright::picture {
namespace {

__extension__ using Wide = __int128;

constexpr std::size_t next(std::size_t i) { return (i + 1) % 3; }
constexpr std::size_t previous(std::size_t i) { return (i + 2) % 3; }

struct Triangle {
  std::array<int, 3> corner{};                    // counter-clockwise
  std::array<int, 3> across{-1, -1, -1};          // neighbour opposite each corner
  std::array<bool, 3> fixed{false, false, false}; // the edge opposite each corner belongs to a ring
};

/// An edge named from inside one of its two triangles.
struct EdgeOf {
  int triangle = -1;
  std::size_t opposite = 0; // corner that faces it
};

class Builder {
public:
  explicit Builder(const std::vector<Place>& places) : places_(places), incident_(places.size() + 3, 0) {
    // Three far corners around all places; they belong to the outside.
    const std::int64_t far = 4 * most_steps;
    first_far_ = static_cast<int>(places.size());
    places_.insert(places_.end(), {{-far, -far}, {far, -far}, {0, far}});
    triangles_.push_back({{first_far_, first_far_ + 1, first_far_ + 2}, {-1, -1, -1}, {}});
  }

  bool insert(int p);
  bool force(int a, int b);
  Triangles inside() const;

private:
  const Place& place(int p) const { return places_[static_cast<std::size_t>(p)]; }
  Triangle& at(int t) { return triangles_[static_cast<std::size_t>(t)]; }
  const Triangle& at(int t) const { return triangles_[static_cast<std::size_t>(t)]; }

  /// Twice the signed area: positive when c lies left of a -> b.
  std::int64_t turn(int a, int b, int c) const {
    return (place(b).x - place(a).x) * (place(c).z - place(a).z) -
           (place(b).z - place(a).z) * (place(c).x - place(a).x);
  }
  int sign(int a, int b, int c) const {
    const std::int64_t area = turn(a, b, c);
    return area > 0 ? 1 : (area < 0 ? -1 : 0);
  }
  bool crosses(int a, int b, int p, int q) const { return sign(a, b, p) * sign(a, b, q) < 0; }

  bool in_circle(const std::array<int, 3>& corner, int p) const;
  std::size_t corner_of(int t, int p) const;
  std::size_t facing(int t, int p, int q) const;
  void put(int t, const Triangle& triangle);
  void link(std::initializer_list<int> changed);
  void split(int t, int p);
  void split_edge(int t, std::size_t i, int p);
  void flip(EdgeOf edge);
  void settle(std::vector<EdgeOf> doubtful);
  EdgeOf edge_between(int p, int q) const;
  void fix(EdgeOf edge);
  bool clear_way(int a, int b, EdgeOf first, int& reached);
  void flip_away(int a, int b, std::deque<std::pair<int, int>> crossed);

  std::vector<Place> places_;
  std::vector<int> incident_; // one triangle at each place
  std::vector<Triangle> triangles_;
  int first_far_ = 0;
  int last_ = 0; // where the last place went in
};

// Sign of the determinant that tells on which side of the corners' circle p lies.
bool Builder::in_circle(const std::array<int, 3>& corner, int p) const {
  std::array<Wide, 3> x{}, z{}, square{};
  for (std::size_t i = 0; i < 3; ++i) {
    x[i] = place(corner[i]).x - place(p).x;
    z[i] = place(corner[i]).z - place(p).z;
    square[i] = x[i] * x[i] + z[i] * z[i];
  }
  const Wide sum = square[0] * (x[1] * z[2] - x[2] * z[1]) + square[1] * (x[2] * z[0] - x[0] * z[2]) +
                   square[2] * (x[0] * z[1] - x[1] * z[0]);
  return sum > 0;
}

std::size_t Builder::corner_of(int t, int p) const {
  const auto& corner = at(t).corner;
  return static_cast<std::size_t>(std::find(corner.begin(), corner.end(), p) - corner.begin());
}

/// Corner of t that faces its edge p -> q; 3 when t has no such edge.
std::size_t Builder::facing(int t, int p, int q) const {
  for (std::size_t i = 0; i < 3; ++i)
    if (at(t).corner[next(i)] == p && at(t).corner[previous(i)] == q)
      return i;
  return 3;
}

void Builder::put(int t, const Triangle& triangle) {
  if (t == static_cast<int>(triangles_.size()))
    triangles_.emplace_back();
  at(t) = triangle;
  for (int corner : triangle.corner)
    incident_[static_cast<std::size_t>(corner)] = t;
}

/// Tells the neighbours of the changed triangles about them.
void Builder::link(std::initializer_list<int> changed) {
  for (int t : changed)
    for (std::size_t i = 0; i < 3; ++i)
      if (const int other = at(t).across[i]; other >= 0)
        at(other).across[facing(other, at(t).corner[previous(i)], at(t).corner[next(i)])] = t;
}

void Builder::split(int t, int p) {
  const Triangle old = at(t);
  const auto [a, b, c] = old.corner;
  const int t1 = static_cast<int>(triangles_.size()), t2 = t1 + 1;
  put(t, {{a, b, p}, {t1, t2, old.across[2]}, {}});
  put(t1, {{b, c, p}, {t2, t, old.across[0]}, {}});
  put(t2, {{c, a, p}, {t, t1, old.across[1]}, {}});
  link({t, t1, t2});
  settle({{t, 2}, {t1, 2}, {t2, 2}});
}

void Builder::split_edge(int t, std::size_t i, int p) {
  const Triangle old = at(t);
  const int u = old.across[i], a = old.corner[i], b = old.corner[next(i)], c = old.corner[previous(i)];
  const Triangle other = at(u);
  const std::size_t j = facing(u, c, b);
  const int d = other.corner[j];
  const int t2 = static_cast<int>(triangles_.size()), u2 = t2 + 1;
  put(t, {{a, b, p}, {u2, t2, old.across[previous(i)]}, {}});
  put(t2, {{a, p, c}, {u, old.across[next(i)], t}, {}});
  put(u, {{d, c, p}, {t2, u2, other.across[previous(j)]}, {}});
  put(u2, {{d, p, b}, {t, other.across[next(j)], u}, {}});
  link({t, t2, u, u2});
  settle({{t, 2}, {t2, 1}, {u, 2}, {u2, 1}});
}

/// Turns the diagonal of the two triangles at an edge; the corner that faced it becomes corner 0 of both.
void Builder::flip(EdgeOf edge) {
  const int t = edge.triangle;
  const std::size_t i = edge.opposite;
  const Triangle old = at(t);
  const int u = old.across[i], a = old.corner[i], b = old.corner[next(i)], c = old.corner[previous(i)];
  const Triangle other = at(u);
  const std::size_t j = facing(u, c, b);
  const int d = other.corner[j];
  // u is d, c, b: the edge b d faces c (next of j), d c faces b (previous of j).
  put(t, {{a, b, d},
          {other.across[next(j)], u, old.across[previous(i)]},
          {other.fixed[next(j)], false, old.fixed[previous(i)]}});
  put(u, {{a, d, c},
          {other.across[previous(j)], old.across[next(i)], t},
          {other.fixed[previous(j)], old.fixed[next(i)], false}});
  link({t, u});
}

/// Flips until no edge near the doubtful ones has a place inside its triangle's circle.
void Builder::settle(std::vector<EdgeOf> doubtful) {
  while (!doubtful.empty()) {
    const EdgeOf edge = doubtful.back();
    doubtful.pop_back();
    const Triangle& t = at(edge.triangle);
    const int u = t.across[edge.opposite];
    if (u < 0 || t.fixed[edge.opposite])
      continue;
    const int b = t.corner[next(edge.opposite)], c = t.corner[previous(edge.opposite)];
    const int d = at(u).corner[facing(u, c, b)];
    if (!in_circle(t.corner, d))
      continue;
    flip(edge);
    for (const int changed : {edge.triangle, u})
      for (std::size_t i = 0; i < 3; ++i)
        doubtful.push_back({changed, i});
  }
}

/// False when the place is already there.
bool Builder::insert(int p) {
  int t = last_;
  for (std::size_t i = 0; i < 3;) {
    const auto& corner = at(t).corner;
    if (sign(corner[next(i)], corner[previous(i)], p) < 0) {
      t = at(t).across[i];
      i = 0;
    } else {
      ++i;
    }
  }
  std::size_t on = 3;
  int zeros = 0;
  for (std::size_t i = 0; i < 3; ++i)
    if (sign(at(t).corner[next(i)], at(t).corner[previous(i)], p) == 0)
      on = i, ++zeros;
  if (zeros > 1)
    return false;
  if (zeros == 1)
    split_edge(t, on, p);
  else
    split(t, p);
  last_ = incident_[static_cast<std::size_t>(p)];
  return true;
}

EdgeOf Builder::edge_between(int p, int q) const {
  const int start = incident_[static_cast<std::size_t>(p)];
  int t = start;
  do {
    const std::size_t i = corner_of(t, p);
    if (at(t).corner[next(i)] == q)
      return {t, previous(i)};
    t = at(t).across[next(i)];
  } while (t != start && t >= 0);
  return {};
}

void Builder::fix(EdgeOf edge) {
  Triangle& t = at(edge.triangle);
  t.fixed[edge.opposite] = true;
  const int u = t.across[edge.opposite];
  at(u).fixed[facing(u, t.corner[previous(edge.opposite)], t.corner[next(edge.opposite)])] = true;
}

/// Makes a -> b an edge, or edges where places lie on it. False when it crosses a fixed edge.
bool Builder::force(int a, int b) {
  while (a != b) {
    if (const EdgeOf edge = edge_between(a, b); edge.triangle >= 0) {
      fix(edge);
      return true;
    }
    const int start = incident_[static_cast<std::size_t>(a)];
    int t = start, reached = -1;
    do {
      const std::size_t i = corner_of(t, a);
      const int p = at(t).corner[next(i)], q = at(t).corner[previous(i)];
      const Place along{place(b).x - place(a).x, place(b).z - place(a).z};
      const std::int64_t ahead = along.x * (place(p).x - place(a).x) + along.z * (place(p).z - place(a).z);
      if (sign(a, b, p) == 0 && ahead > 0) {
        fix(edge_between(a, p));
        reached = p;
      } else if (sign(a, b, p) < 0 && sign(a, b, q) > 0) {
        if (!clear_way(a, b, {t, i}, reached))
          return false;
      }
      t = at(t).across[next(i)];
    } while (reached < 0 && t != start);
    if (reached < 0)
      return false;
    a = reached;
  }
  return true;
}

/// Flips away all edges between a and the next place on the way to b, which becomes `reached`.
bool Builder::clear_way(int a, int b, EdgeOf edge, int& reached) {
  std::deque<std::pair<int, int>> crossed;
  int p = at(edge.triangle).corner[next(edge.opposite)], q = at(edge.triangle).corner[previous(edge.opposite)];
  int t = edge.triangle;
  for (;;) {
    const std::size_t i = facing(t, p, q);
    if (at(t).fixed[i])
      return false;
    crossed.emplace_back(p, q);
    t = at(t).across[i];
    const int d = at(t).corner[facing(t, q, p)];
    const int side = sign(a, b, d);
    if (side == 0) {
      reached = d;
      break;
    }
    (side > 0 ? q : p) = d;
  }
  flip_away(a, reached, std::move(crossed));
  return true;
}

void Builder::flip_away(int a, int b, std::deque<std::pair<int, int>> crossed) {
  std::vector<std::pair<int, int>> fresh;
  while (!crossed.empty()) {
    const auto [p, q] = crossed.front();
    crossed.pop_front();
    const EdgeOf edge = edge_between(p, q);
    const int x = at(edge.triangle).corner[edge.opposite];
    const int u = at(edge.triangle).across[edge.opposite];
    const int y = at(u).corner[facing(u, q, p)];
    if (!crosses(x, y, p, q)) { // the four corners are not convex yet
      crossed.emplace_back(p, q);
      continue;
    }
    flip(edge);
    if (x != a && x != b && y != a && y != b && crosses(a, b, x, y))
      crossed.emplace_back(x, y);
    else
      fresh.emplace_back(x, y);
  }
  fix(edge_between(a, b));
  for (const auto& [p, q] : fresh)
    if (const EdgeOf edge = edge_between(p, q); edge.triangle >= 0)
      settle({edge});
}

/// Every crossing of a ring changes between outside and inside.
Triangles Builder::inside() const {
  std::vector<int> depth(triangles_.size(), -1);
  std::vector<int> open{incident_[static_cast<std::size_t>(first_far_)]};
  depth[static_cast<std::size_t>(open.front())] = 0;
  Triangles kept;
  while (!open.empty()) {
    const int t = open.back();
    open.pop_back();
    const int here = depth[static_cast<std::size_t>(t)];
    if (here == 1)
      kept.push_back(at(t).corner);
    for (std::size_t i = 0; i < 3; ++i)
      if (const int u = at(t).across[i]; u >= 0 && depth[static_cast<std::size_t>(u)] < 0) {
        depth[static_cast<std::size_t>(u)] = at(t).fixed[i] ? 1 - here : here;
        open.push_back(u);
      }
  }
  std::ranges::sort(kept);
  return kept;
}

} // namespace

std::optional<Triangles> triangulated(const std::vector<Place>& places, const std::vector<std::vector<int>>& rings) {
  for (const Place& p : places)
    if (std::max({p.x, -p.x, p.z, -p.z}) > most_steps)
      return std::nullopt;
  Builder builder(places);
  for (int p = 0; p < static_cast<int>(places.size()); ++p)
    if (!builder.insert(p))
      return std::nullopt;
  for (const auto& ring : rings)
    for (std::size_t k = 0; k < ring.size(); ++k)
      if (!builder.force(ring[k], ring[(k + 1) % ring.size()]))
        return std::nullopt;
  return builder.inside();
}

} // namespace fanwright::picture
