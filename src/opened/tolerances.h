// Every tolerance and numerical weight of the solver, in mm, N and MPa, each with its reason.
#pragma once

#include <cstddef>

namespace fanwright::opened::tolerance {

/// Grid lines wanted nearer to each other than this become one, mm: a row's end moved by half of it shifts the opened
/// edge by less than 0.1 mm, and thinner cells only cost time.
inline constexpr double grid_line_mm = 1.2;

/// Least cells of a gap between two rows. An even number: a gap is crossed in an S, whose middle an odd number would
/// straddle; three are worse than two.
inline constexpr int cells_per_gap = 6;

/// The same of a quick answer, with cells so many times as wide: the edge is then within 0.4 % of the size of one of
/// half the usual cells, on all examples.
inline constexpr int quick_cells_per_gap = 4;
inline constexpr double quick_cells_wide = 2.0;
inline constexpr double quick_grid_line_mm = 2.0;

/// The same of a glance, whose edge lies 0.1 to 1.3 % off, but nearly as far on a leaf changed a little.
inline constexpr int glance_cells_per_gap = 2;
inline constexpr double glance_cells_wide = 3.0;
inline constexpr double glance_grid_line_mm = 3.0;

/// A preview takes the quick grid up to so many cells, and that of a glance beyond: it is there in about 12 ms.
inline constexpr int most_preview_cells = 1000;

/// A quick answer stops when a step would lower the energy by less than this share of it: the edge is then within
/// 0.15 % of the size. Beside a form before also when one has lowered it by less than the second share: what is left
/// are soft ways along which much moves inside the sheet, and its edge by 0.2 % of the size at most. From a guess that
/// is not enough, 0.8 %.
inline constexpr double quick_energy_share = 1e-4;
inline constexpr double quick_fallen_share = 1e-3;

/// A quick answer is not left where no step lowers the energy if the last one has lowered it by more than this share: a
/// form carried far starts at many times its energy, and the factor made there leads to a tenth of that and no further.
inline constexpr double hasty_fallen_share = 0.3;

/// Heights of strip edges closer than this are the same grid line, mm.
inline constexpr double strip_line_mm = 0.3;

/// Cut pieces of a cell smaller than this share of the cell carry no energy of their own.
inline constexpr double sliver_share = 1e-7;

/// Share of the bending stiffness that the empty part of a cut cell keeps, so that control points with hardly any
/// paper under them stay defined. 1e-4 changes the opened edge by less than 0.01 mm.
inline constexpr double ghost_share = 1e-4;

/// Stiffness of contact with a wall, MPa per mm: paper is soft through its thickness (about 40 MPa over half a
/// caliper of 0.1 mm gives 400); 40 lets Newton converge in fewer steps and sinks less than 0.005 mm under the
/// pressures of a few hundredths of a MPa that occur at the hub.
inline constexpr double contact_mpa_per_mm = 40.0;

/// Width over which contact along the spine's fold is spread, mm.
inline constexpr double spine_contact_width_mm = 1.0;

/// Newton stops when the expected further loss of energy is below this share of the energy.
/// At 3e-8 the opened edge is within 0.001 mm of the one at 1e-12.
inline constexpr double energy_share = 3e-8;

/// A line search that finds nothing better is accepted below this share: the edge is then within 0.01 mm.
inline constexpr double stalled_energy_share = 1e-6;

/// Share of a cell's bow that its strain along the leaf's height counts. The paper of a bent cell is longer than the
/// line through its ends by all of it; but splines of second degree overstate how much the slope varies. Where a gap is
/// crossed freely in an S, of slope 4 t (1 - t), the height lost is right for any number n of even cells with 0.6; with
/// 0 it is 0.5 / n^2 too small, with 1 0.35 / n^2 too large.
inline constexpr double bow_share = 0.6;

/// Cells at the two ends of a gap between rows, as a share of the others: there the paper bends most.
inline constexpr double gap_end_share = 0.7;

/// Pieces of a cell with less paper than this share of it are left out when the peak strain is looked for: their
/// control points are barely defined.
inline constexpr double strain_share = 0.25;

/// Most unknowns of one solve; about 5 s and 1 GB.
inline constexpr int most_unknowns = 60000;

/// Spacing of the points on the reported edge, mm, and of the mesh.
inline constexpr double edge_spacing_mm = 0.8;
inline constexpr double mesh_spacing_mm = 1.6;

/// Newton steps taken freely before the energy must have fallen: a linear step that turns the paper stretches it, and
/// the next step takes that back, so that holding each step to a lower energy costs three times as many.
inline constexpr int free_steps = 5;

/// No control point moves further in a free step, mm.
inline constexpr double longest_step_mm = 10.0;

/// Most Newton steps before the solve is called failed.
inline constexpr int most_steps = 250;

/// From a guess, Newton's steps go on until the next would lower the energy by less than this share of it; quasi-Newton
/// steps, which cost a tenth, take it from there along the soft ways in which the paper buckles and rows tilt. With
/// 0.01 or 0.1 the examples take as long or longer.
inline constexpr double guess_energy_share = 0.03;

/// After so many steps this share is enough: tiers that hang free would go on swinging to and fro.
inline constexpr int first_steps = 6;
inline constexpr double later_guess_energy_share = 0.3;

/// Quasi-Newton steps before Newton's method takes over; steps with one factor before it is made anew, which costs as
/// much as a dozen of them; steps remembered; and the share of the energy at which they stop: they close in more
/// slowly than Newton's, so a tighter share is needed for the same nearness, 0.005 % of the size.
inline constexpr int most_relax_steps = 300;
inline constexpr int most_stale_steps = 25;
inline constexpr std::size_t relax_memory = 25;
inline constexpr double relax_energy_share = 3e-8;

/// Beside a form before they also stop when a whole one has lowered the energy by less than this share of it, and the
/// next promises no more than so many times as much, which takes half as many: on all examples the edge is then within
/// 0.02 % of the size and the moment within 0.05 %.
inline constexpr double relax_fallen_share = 3e-6;
inline constexpr double most_promised = 3.0;

/// A form has at most so many times the energy of the one beside it (and of the fourth power of the wedge's growth); a
/// sheet that stops with more is only stuck on the way.
inline constexpr double most_energy_rise = 2.0;

/// A kept factor serves the next quick answer with another count of leaves too when the last took no more steps with it
/// than this: made anew it costs as much as eight of them.
inline constexpr int most_steps_of_kept_factor = 6;

/// A leaf whose outline, cut-outs and rows have moved no further than this is a neighbour of the one before, mm: less
/// than a gap between rows, and the form before still tells where the moved edge will lie.
inline constexpr double neighbour_mm = 6.0;

/// The same for the creased form, whose difference to the elastic one need only be known to a few per cent.
inline constexpr double crease_energy_share = 1e-6;

/// Trade tolerance of grammage, and so of caliper at equal density, as a share of it: +-5 % (US Government Paper
/// Specification Standards, JCP A91, L20 and O-65).
inline constexpr double caliper_share = 0.05;

/// How far papers of one grammage differ in bending stiffness, as a share of it (common practice, no source).
inline constexpr double stiffness_share = 0.30;

/// Surface strain above which card keeps a set: 0.4 to 0.7 % from elastic limit over modulus of common papers (elastic
/// limit 15 to 34 MPa, modulus 3 to 8.9 GPa: Materials and the Environment, data sheet paper and cardboard).
inline constexpr double set_strain = 0.005;

/// Share of a half-panel's energy that is put down to handling when the soft modes' reach is estimated: the largest
/// difference in energy found between forms of one example that were opened from different guesses was 0.28 %.
inline constexpr double tilt_energy_share = 0.003;

/// The height and the diameter that tilt may change are means over the edge within this share of the size round their
/// extreme points, so that one bent tip does not count as the ornament.
inline constexpr double tilt_reach_share = 0.05;

} // namespace fanwright::opened::tolerance
