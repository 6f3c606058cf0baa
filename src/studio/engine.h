// The engine of one open design: estimates at once, forms that settle behind, and what follows from them. The last
// request wins.
#pragma once

#include "fit/follow.h"
#include "opened/preview.h"
#include "opened/solver.h"
#include "studio/asked.h"
#include "studio/listeners.h"
#include "studio/solving.h"
#include "studio/told.h"

#include <atomic>
#include <condition_variable>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <variant>
#include <vector>

namespace fanwright::studio {

class Engine {
public:
  /// News goes to those who listen to `id`; `listeners` and `solving` must outlive the engine.
  Engine(std::string id, Listeners& listeners, Solving& solving);
  ~Engine();
  Engine(const Engine&) = delete;
  Engine& operator=(const Engine&) = delete;

  /// A page is about to ask for this text: the first form of its first size is begun meanwhile.
  void expect(const std::string& text);

  /// Answers with an estimate and lets the form settle. 409 where a newer revision has come already.
  Reply shape(const asked::Shape& asked);

  /// The mesh of a size, of the first where `asked` is empty, at a share (0..1) of its opening. A size of the newest
  /// revision that was not asked for is opened for it. `shown`: that of the estimate will do. 410 for revisions that
  /// are known no more.
  Reply mesh(std::uint64_t revision, const std::string& asked, double share, bool fine, bool shown);

  /// The fans of a size in their seats (fan_mesh.h); sizes and revisions as for mesh().
  Reply fans(std::uint64_t revision, const std::string& asked);

  std::uint64_t revision() const;

  /// Lets go of what is being computed; the engine is asked nothing more.
  void end();

private:
  /// An estimate without its mesh, and the preview that gave it.
  struct Shown {
    std::shared_ptr<const fit::Followed> followed;
    opened::Preview preview;
    std::uint64_t revision = 0;
  };

  /// What is known of one size; the pointers' targets never change.
  struct Known {
    std::shared_ptr<const fit::Followed> last; ///< estimates go on from it
    std::uint64_t revision = 0;                ///< of `last`
    std::optional<opened::Preview> preview;    ///< beside the form that settled last
    std::optional<Shown> shown;                ///< the last estimate, where a preview gave it
    std::shared_ptr<const opened::Spread> spread;
    std::map<double, std::shared_ptr<const opened::Form>> openings; ///< by share of the whole opening
    std::map<std::string, std::shared_ptr<const std::string>> meshes;
    std::uint64_t used = 0; ///< counts up; the one used longest ago is forgotten
  };

  /// Work on one size of the newest revision, stage by stage.
  enum class Stage { begin, settle, checks, spread, openings, takes, remedies, done };
  struct Wanted {
    std::string size;
    Stage next = Stage::settle;
  };

  struct Task {
    std::shared_ptr<const design::Design> design;
    design::Size size;
    std::uint64_t revision = 0;
    Stage stage = Stage::settle;
    std::string text;
  };

  using Settled = std::variant<std::shared_ptr<const fit::Followed>, fit::Failure>;

  Reply estimated(const asked::Shape& asked, const std::shared_ptr<const design::Design>& design,
                  const design::Size* size, const design::Refusal* refusal);
  void want(std::uint64_t revision, const std::string& size);
  void work();
  std::optional<Task> next_task();
  static std::optional<Task> expected_task(const std::string& text);
  Stage perform(const Task& task);
  Stage settle(const Task& task);
  Stage measure_spread(const Task& task);
  Stage open_stepwise(const Task& task);
  Stage check(const Task& task);
  Stage tell_takes(const Task& task);
  Stage try_remedies(const Task& task);
  Settled settled_now(const Task& task, opened::Solver& solver);
  std::variant<std::shared_ptr<const fit::Followed>, Reply> opened_beside(std::uint64_t revision,
                                                                          const std::string& name);
  std::variant<std::shared_ptr<const fit::Followed>, Reply> opened_for(std::uint64_t revision,
                                                                       const std::string& asked);
  std::shared_ptr<const fit::Followed> shown_for(std::uint64_t revision, const std::string& size);
  void keep_preview(const Task& task, const fit::Followed& followed);
  std::optional<opened::Preview> preview_of(const std::string& size);
  Reply mesh_of(const std::shared_ptr<const fit::Followed>& followed, double share, bool fine);
  void tell_form(const Task& task, const fit::Followed& followed, const std::optional<opened::Spread>& spread);
  bool tell(const Task& task, const std::string& kind, const std::string& text);
  bool stale(const Task& task) const { return ending_ || newest_ != task.revision; }
  std::shared_ptr<const fit::Followed> settled_of(const Task& task) const;
  std::shared_ptr<const fit::Followed> last_or_begun(const design::Design& design, const design::Size& size,
                                                     std::uint64_t revision, std::optional<fit::Failure>& failure);
  Known& known(const std::string& size);
  std::string mesh_address(const std::string& size, std::uint64_t revision, bool shown) const;

  const std::string id_;
  Listeners& listeners_;
  Solving& solving_;

  std::mutex beginning_; ///< held while a first form is begun; waited for only without the other
  mutable std::mutex mutex_;
  std::condition_variable asked_;
  std::atomic<std::uint64_t> newest_ = 0;
  std::atomic<bool> ending_ = false;
  std::chrono::steady_clock::time_point newest_came_;
  std::shared_ptr<const design::Design> design_; ///< of the newest revision
  std::string text_;
  std::string expected_; ///< not begun yet; empty: nothing
  std::vector<Wanted> wanted_;
  std::map<std::string, Known> known_;
  std::map<std::string, opened::Solver> solvers_; ///< the worker's own
  std::uint64_t uses_ = 0;
  std::uint64_t takes_told_ = 0;                              ///< revision; the worker's own
  std::map<std::string, std::vector<fit::Finding>> findings_; ///< of the newest revision by size; the worker's own
  std::thread worker_;                                        ///< last: it uses all of the above
};

} // namespace fanwright::studio
