// Longer work that ends in files to download: kits, pictures, meshes. In a temporary folder, each in its own thread.
#pragma once

#include "studio/asked.h"
#include "studio/http.h"
#include "studio/listeners.h"
#include "studio/work_folder.h"

#include <atomic>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

namespace fanwright::studio {

class Jobs {
public:
  static constexpr int most_at_once = 4;
  static constexpr std::size_t most_kept = 12; ///< finished ones whose files are still there

  /// Jobs tell how far they are to those who listen to their design.
  explicit Jobs(Listeners& listeners);
  ~Jobs(); ///< cancels all and removes their files

  Reply kit(const std::string& design, const asked::Kit& asked);
  Reply picture(const std::string& design, const asked::Picture& asked);
  Reply mesh_file(const std::string& design, const asked::MeshFile& asked);

  Reply cancel(const std::string& id);

  /// A file of a finished job: "kit.zip", "for-you-only.zip", "picture.png", "mesh.glb".
  Reply file(const std::string& id, const std::string& name);

private:
  struct Job {
    std::string id, kind, design;
    std::filesystem::path folder;
    std::atomic<bool> cancelled = false, done = false;
    std::string title; ///< of the files as they are downloaded
    std::thread thread;
  };
  /// What a job is to do in its folder: a sentence when it fails.
  using Work = std::function<std::optional<std::string>(Job&)>;

  Reply start(const std::string& kind, const std::string& design, const std::string& title, Work work);
  void tell(const Job& job, double share, std::string_view doing, const std::optional<std::string>& sentence);
  void forget_oldest();

  Listeners& listeners_;
  std::optional<WorkFolder> folder_; ///< empty until it is needed
  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<Job>> jobs_;
  std::vector<std::string> order_; ///< ids, oldest first
};

} // namespace fanwright::studio
