#include "picture/scene.h"

#include <embree3/rtcore.h>

#include <algorithm>
#include <limits>
#include <utility>

namespace fanwright::picture {

struct Scene::Tree {
  Surface surface;
  RTCDevice device = nullptr;
  RTCScene scene = nullptr;

  Tree() = default;
  Tree(const Tree&) = delete;
  Tree& operator=(const Tree&) = delete;
  Tree(Tree&&) = delete;
  Tree& operator=(Tree&&) = delete;
  ~Tree() {
    rtcReleaseScene(scene);
    rtcReleaseDevice(device);
  }
};

namespace {

bool attach(RTCDevice device, RTCScene scene, const Surface& surface) {
  RTCGeometry geometry = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
  // Embree reads 16 bytes from each vertex, so its own padded buffer is used instead of sharing ours.
  auto* vertices = static_cast<Vec3*>(rtcSetNewGeometryBuffer(geometry, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3,
                                                              sizeof(Vec3), surface.points.size()));
  if (vertices)
    std::copy(surface.points.begin(), surface.points.end(), vertices);
  rtcSetSharedGeometryBuffer(geometry, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, surface.triangles.data(), 0,
                             sizeof(surface.triangles[0]), surface.triangles.size());
  rtcCommitGeometry(geometry);
  rtcAttachGeometry(scene, geometry);
  rtcReleaseGeometry(geometry);
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

std::optional<Scene> Scene::build(Surface surface) {
  auto tree = std::make_shared<Tree>();
  tree->surface = std::move(surface);
  // One build thread: the tree, and so the order in which ties are met, must not depend on the machine's load.
  tree->device = rtcNewDevice("threads=1");
  if (!tree->device)
    return std::nullopt;
  tree->scene = rtcNewScene(tree->device);
  rtcSetSceneFlags(tree->scene, RTC_SCENE_FLAG_ROBUST);
  if (!attach(tree->device, tree->scene, tree->surface))
    return std::nullopt;
  rtcCommitScene(tree->scene);
  if (rtcGetDeviceError(tree->device) != RTC_ERROR_NONE)
    return std::nullopt;
  return Scene(std::move(tree));
}

std::optional<Hit> Scene::hit(const Ray& ray) const {
  RTCIntersectContext context;
  rtcInitIntersectContext(&context);
  RTCRayHit query{};
  query.ray = embree_ray(ray, std::numeric_limits<float>::infinity());
  query.hit.geomID = RTC_INVALID_GEOMETRY_ID;
  rtcIntersect1(tree_->scene, &context, &query);
  if (query.hit.geomID == RTC_INVALID_GEOMETRY_ID)
    return std::nullopt;
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
    smooth = smooth + tree_->surface.normals[tree_->surface.triangles[hit.triangle][i]] * hit.weights[i];
  hit.normal = unit(smooth) * (dot(smooth, facet) < 0 ? -sign : sign);
  return hit;
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
