// How an opened ornament follows a leaf that is being dragged: a coarse form of the changed leaf, corrected by how far
// the form before lies from its own coarse one.
#pragma once

#include "opened/opened.h"

#include <memory>
#include <optional>

namespace fanwright::opened {

/// The form that previews start from, with its coarse one. Does not change once made; may be asked by many threads.
class Preview {
public:
  /// `form` is that of `panel`, in full or quick. Takes some tens of milliseconds, a few where `before` is a preview
  /// from a panel beside this one. Nothing where no coarse form is found. Options: `cancelled` is heeded.
  static std::optional<Preview> from(const Panel& panel, const Form& form, const Preview* before = nullptr,
                                     const Options& options = {});

  /// The form of a panel whose outline, rows or cut-outs have moved by a few millimetres, or with some leaves more or
  /// fewer; nothing where that is too far away. The edge is within 0.4 % of the size, 0.3 % beside a full form, when
  /// points have moved by 2 mm (docs/model.md); moments and pulls to a third, for a first impression. `equilibrium` is
  /// the coarse one. Options: `mesh` and `cancelled` are
  /// heeded.
  std::optional<Form> open(const Panel& panel, const Options& options = {}) const;

  /// Fills the mesh of a form that open() gave without one.
  void make_mesh(Form& form) const;

private:
  struct Base;
  explicit Preview(std::shared_ptr<const Base> base);
  void correct(const Panel& panel, Form& form) const;

  std::shared_ptr<const Base> base_;
};

} // namespace fanwright::opened
