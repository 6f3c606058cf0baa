// The designs on the bench: each with its text, its journal and its engine.
#pragma once

#include "studio/engine.h"
#include "studio/folder.h"
#include "studio/journal.h"
#include "studio/listeners.h"
#include "studio/solving.h"
#include "studio/told.h"

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fanwright::studio {

class OpenDesigns {
public:
  static constexpr std::size_t most = 24;

  OpenDesigns(std::filesystem::path folder, Listeners& listeners);

  const Folder& folder() const { return folder_; }

  /// Opens the file of this name, or gives the design that has it open already.
  Reply open_file(const std::string& name);

  /// A design without a file. `unsaved`: its text is kept even if nothing is done to it.
  Reply open_text(const std::string& text, bool unsaved);

  /// The design with its journal.
  Reply tell(const std::string& id);

  Reply append(const std::string& id, const asked::Journal& asked);
  Reply save(const std::string& id, const asked::Save& asked);
  Reply copy(const std::string& id, const asked::Copy& asked);
  Reply close(const std::string& id);

  /// The engine of a design; null when there is no such design.
  std::shared_ptr<Engine> engine(const std::string& id);

  std::vector<told::OpenDesign> list();

  /// Tells the pages of files that have changed on the disk since they were read or saved. To be called now and then.
  void look_at_disk();

  /// Lets all engines go; journals without unsaved gestures are taken away.
  void end();

private:
  struct Open {
    std::string id;
    std::shared_ptr<Engine> engine;
    std::uint64_t used = 0;          ///< under the bench's mutex
    std::mutex mutex;                ///< of all that follows
    std::optional<std::string> name; ///< empty: never saved
    std::optional<Journal> journal;
    Stamp seen; ///< of the file when it was last looked at
  };
  using Shared = std::shared_ptr<Open>;

  std::filesystem::path journal_of(const std::optional<std::string>& name, const std::string& id) const;
  Shared find(const std::string& id);
  std::vector<Shared> all();
  bool is_open(const std::string& name, const Open& but);
  Reply begin(const Shared& design, const std::string& text, const std::string& fingerprint, bool unsaved);
  Reply begin_to_show(const Shared& design, const std::string& text, const std::string& fingerprint, bool unsaved);
  std::optional<Reply> make_room();
  void let_go(const Shared& design);
  Reply told_of(const Open& design) const;
  Reply write_file(Open& design, const std::string& name, const std::string& text);
  void take_up_unsaved();

  Folder folder_;
  Listeners& listeners_;
  Solving solving_{2};
  std::mutex mutex_; ///< of the list; never waited for while a design's own is held
  std::map<std::string, Shared> open_;
  std::uint64_t uses_ = 0;
};

} // namespace fanwright::studio
