#include "picture/scene.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <limits>
#include <utility>

namespace fanwright::picture {

struct Scene::Tree {
  Surface surface;
  RTCDevice device = nullptr;
  RTCScene scene = nullptr, edges = nullptr; // edges: null without cut edges

  Tree() = default;
  Tree(const Tree&) = delete;
  Tree& operator=(const Tree&) = delete;
  Tree(Tree&&) = delete;
  Tree& operator=(Tree&&) = delete;
  ~Tree() {
    rtcReleaseScene(scene);
    if (edges)
      rtcReleaseScene(edges);
    rtcReleaseDevice(device);
  }
};

namespace {

using TriangleList = std::vector<std::array<unsigned, 3>>;

bool attach(RTCDevice device, RTCScene scene, const Surface& surface, const TriangleList& triangles, bool draft) {
  RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
  // Embree reads 16 bytes from each vertex, so its own padded buffer is used instead of sharing ours.
  auto* vertices = static_cast<Vec3*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                                              sizeof(Vec3), surface.points.size()));
  if (vertices)
    std::copy(surface.points.begin(), surface.points.end(), vertices);
  rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, triangles.data(), 0,
                             sizeof(triangles[0]), triangles.size());
  rtcSetSceneFlags(scene, RTC_SCENE_FLAG_ROBUST);
  rtcSetSceneBuildQuality(scene, draft ? RTC_BUILD_QUALITY_LOW : RTC_BUILD_QUALITY_MEDIUM);
  rtcCommitGeometry(geometry);
  rtcAttachGeometry(scene, geometry);
  rtcReleaseGeometry(geometry);
  rtcCommitScene(scene);
  return vertices != nullptr;
}

RTCRay embree_ray(const Ray& ray, float distance) {
  RTCRay out{};
  out.org_x = ray.origin.x, out.org_y = ray.origin.y, out.org_z = ray.origin.z;
  out.dir_x = ray.direction.x, out.dir_y = ray.direction.y, out.dir_z = ray.direction.z;
  out.tfar = distance;
  out.mask = ~0u;
  return out;
}

} // namespace

Scene::Scene(std::shared_ptr<const Tree> tree) : tree_(std::move(tree)) {}

std::optional<Scene> Scene::build(Surface surface, bool draft) {
  auto tree = std::make_shared<Tree>();
  tree->surface = std::move(surface);
  // One build thread: the tree, and so the order in which ties are met, must not depend on the machine's load.
  tree->device = rtcNewDevice("threads=1");
  if (!tree->device)
    return std::nullopt;
  tree->scene = rtcNewScene(tree->device);
  if (!attach(tree->device, tree->scene, tree->surface, tree->surface.triangles, draft))
    return std::nullopt;
  if (!tree->surface.edge_triangles.empty()) {
    tree->edges = rtcNewScene(tree->device);
    if (!attach(tree->device, tree->edges, tree->surface, tree->surface.edge_triangles, draft))
      return std::nullopt;
  }
  if (rtcGetDeviceError(tree->device) != RTC_ERROR_NONE)
    return std::nullopt;
  return Scene(std::move(tree));
}

namespace {

// The nearest triangle of a search tree, if nearer than `nearest`, which it then replaces.
bool find_nearer(RTCScene tree, const Surface& surface, const TriangleList& triangles, const Ray& ray,
                 std::optional<Hit>& nearest) {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRayHit query{};
  query.ray = embree_ray(ray, nearest ? nearest->distance : std::numeric_limits<float>::infinity());
  query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
  rtcIntersect1(tree, &context, &query);
  if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID)
    return false;
  Hit hit;
  hit.distance = query.ray.tfar;
  hit.triangle = query.hit.primID;
  hit.weights = {1 - query.hit.u - query.hit.v, query.hit.u, query.hit.v};
  const Vec3 facet = unit({query.hit.Ng_x, query.hit.Ng_y, query.hit.Ng_z});
  hit.side = dot(facet, ray.direction) > 0 ? 1 : 0;
  const float sign = hit.side == 0 ? 1.0F : -1.0F;
  hit.facet_normal = facet * sign;
  Vec3 smooth;
  for (std::size_t i = 0; i < 3; ++i)
    smooth = smooth + surface.normals[triangles[hit.triangle][i]] * hit.weights[i];
  hit.normal = unit(smooth) * (dot(smooth, facet) < 0 ? -sign : sign);
  nearest = hit;
  return true;
}

} // namespace

std::optional<Hit> Scene::hit(const Ray& ray) const {
  std::optional<Hit> nearest;
  find_nearer(tree_->scene, tree_->surface, tree_->surface.triangles, ray, nearest);
  return nearest;
}

std::optional<Hit> Scene::seen(const Ray& ray) const {
  auto nearest = hit(ray);
  const auto& edges = tree_->surface.edge_triangles;
  if (tree_->edges && find_nearer(tree_->edges, tree_->surface, edges, ray, nearest)) {
    nearest->on_edge = true;
    // A cut edge has one side only: its normals point outward and records lie there.
    nearest->side = 0;
  }
  return nearest;
}

const std::array<unsigned, 3>& Scene::corners(const Hit& hit) const {
  return (hit.on_edge ? tree_->surface.edge_triangles : tree_->surface.triangles)[hit.triangle];
}

const Surface& Scene::surface() const { return tree_->surface; }

bool Scene::blocked(const Ray& ray, float distance) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRay query = embree_ray(ray, distance);
  rtcOccluded1(tree_->scene, &context, &query);
  return query.tfar < 0;
}

} // namespace fanwright::picture
