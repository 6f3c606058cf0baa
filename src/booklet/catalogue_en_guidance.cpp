#include "booklet/catalogue_texts.h"

namespace fanwright::booklet {

namespace {

using enum Message;

constexpr MessageText texts[] = {
    {idea_leaf,
     "The ornament is made of many paper leaves, all cut alike. Each leaf is folded in half on its spine, like "
     "a greeting card, so that it has two halves that mirror each other."},
    {idea_rows,
     "Narrow strips of glue, the rows, hold it together. Inside rows glue the two halves of one leaf to each other; "
     "between rows glue a leaf to its neighbour. The two kinds take turns up the leaf, so the paper left free between "
     "them can spread into cells."},
    {idea_closed_round,
     "Glued leaf upon leaf you have a flat block. Opened round its spine like a book, through a full circle, the block "
     "becomes the ornament; then its first leaf is glued to its last."},
    {idea_part_round, "Glued leaf upon leaf you have a flat block. Opened round its spine like a fan, through {angle}, "
                      "the block becomes the ornament; then its first and last leaf are fixed to a backing."},
    {means_leaf, "One cut piece of paper. Folded, it has two halves."},
    {means_spine, "The spine is the fold, in the middle of the ornament. The foot is the leaf's lower end."},
    {means_inside_row, "A strip of glue between the two halves of one leaf. It lies on the inner face, the one that is "
                       "hidden when the leaf is folded."},
    {means_between_row, "A strip of glue between two neighbouring leaves. It lies on the outer face."},
    {means_stencil, "A card with windows where the glue goes. Used on every leaf, so that no mark is needed on paper "
                    "that shows."},
    {means_packet, "A packet is leaves glued together so far. In each round packets are glued in pairs, then pressed."},
    {means_block, "All leaves glued together, not yet opened."},
    {means_seam, "The last gluing: first leaf to last."},
    {means_grain, "The direction in which the fibres of the paper lie. Paper bends and folds more easily round a line "
                  "that lies along the grain."},
    {means_fan,
     "A pleated strip that spreads: a wing, a tail, a collar. Two panels, between three creases, make one pleat."},
    {needs_grain, "To find the grain, bend a sheet loosely one way, then the other. It bends more easily round a line "
                  "that lies along the grain. Paper for printers mostly has its grain along the longer side."},
    {needs_grain_of_leaves, "How the leaves lie on the sheet: {grain}."},
    {needs_paper,
     "Take uncoated paper that is dyed right through: white-core paper shows white at every cut and fold, and "
     "slick coated paper cracks and holds glue badly. Another weight than the one named opens to a "
     "somewhat different height and width."},
    {amounts_note, "Nothing is added for waste: take a tenth more, at least two leaves' worth, for trials."},
    {glue_note,
     "Glue: {glue}, in a bottle with a fine tip. A bead {bead} thick spreads to about {spread} when pressed. "
     "A glue that grabs fast but can still be shifted for a moment is best."},
    {tool_knife, "craft knife with new blades, metal ruler and cutting mat; or good scissors"},
    {tool_machine, "cutting machine with mat, and a knife for corners it leaves hanging"},
    {tool_score, "scoring tool: a stylus with a ball of 1 to 1.5\u202fmm, or the back of a knife"},
    {tool_folder, "bone folder, or the back of a spoon"},
    {tool_card, "card of 250 to 300\u202fg/m² for the stencils and the master leaf"},
    {tool_glue, "glue bottle with a fine tip, or a stencil brush or dauber; a damp cloth"},
    {tool_straight_edge,
     "two straight edges that meet squarely, such as a shallow box or two strips of wood: spines stand "
     "against the one, feet against the other"},
    {tool_weights, "two flat boards and a weight of 2 to 5\u202fkg for each press; here {presses} "
                   "{presses:press|presses}"},
    {tool_parting_sheets, "baking paper: glue that is squeezed out does not stick to it"},
    {tool_clips, "small clips and two strips of card for the seam: {clips}"},
    {tool_freeing, "a long, thin, blunt blade: a palette knife, or a strip cut from a plastic card"},
    {tool_thread, "strong thread, a needle and a bead for the hanger"},
    {tool_disc, "a disc of stiff card for the foot, if it is to stand on a smooth table"},
    {tool_backing, "a stiff backing card, somewhat larger than the opened piece"},
    {tool_glitter, "glitter of paper or minerals and a flat brush"},
    {tool_sealer, "clear spray sealer, tried first on a scrap of the same paper"},
    {sizes_note,
     "The flat leaf is measured unfolded, width × height. Height and diameter are computed for the paper named; "
     "a well-made piece lies within ± of them. Each size has its own leaves, rows and paper: do not scale one "
     "size to another."},
    {hours_note, "Hands-on time is that of a practised maker; count on twice as much for the first piece."},
    {file_booklet, "this booklet"},
    {file_print_sheets, "sheets to print and cut by hand, at 100\u202f%; its layers tell cut, score and glue apart"},
    {file_cutting_svg, "for cutting machines that read SVG: true size in mm, one group for each kind of line"},
    {file_cutting_dxf, "for cutting machines that read DXF: true size in mm, one layer for each kind of line"},
    {file_fan_print, "the strips of the fans at full size, to print and cut by hand"},
    {file_stencil, "the glue stencils, one for inside rows and one for between rows"},
    {file_master_leaf, "one leaf to cut from card and trace by hand"},
    {file_picture, "picture of the opened ornament"},
    {file_mesh, "the opened ornament in three dimensions, to turn on a screen"},
    {file_numbers, "all measures of the design, for programs to read"},
    {file_readme, "where to start, in plain text"},

    {step_print, "Print, and check the scale"},
    {step_print_scale,
     "Print one page at 100\u202f%, “actual size”, never “fit to page”. Measure its ruler and its square, "
     "both across the page "
     "and along it: 100\u202fmm must be 100\u202fmm, and the square 50\u202fmm each way. Only then print the rest. "
     "Pages for A4 and for "
     "letter are separate files; take the one for the paper in your printer."},
    {step_print_pages, "Where back pages are included, print on both sides, turned over the long edge: between rows "
                       "then stand on the back. "
                       "You print the leaves only if you cut by hand; a machine works from the cutting files."},
    {step_stencil, "Make the stencils"},
    {step_stencil_cut, "Print the stencils and glue them to card, or let a machine cut them. The card with one notch "
                       "is for the inside rows, the one with two notches for the between rows. Cut the windows first, "
                       "then the card; its straight edges at fold, foot and head must be exact."},
    {step_stencil_use,
     "In use, its long straight edge lies at the fold, its ends level with the lowest and the highest point of the "
     "leaf. Set glue through the windows as the card says, lift it straight up and wipe it: glue under it ends up "
     "where it must not be. Rows too short for a window are named on its page; glue them by eye."},
    {step_stencil_printed, "On printed sheets frames show the same places."},
    {step_stencil_nicks,
     "Tiny nicks in the spine show the rows' heights, so that you see at once if it lies upside down."},
    {step_cut, "Cut the leaves"},
    {step_cut_by_hand,
     "By hand: holes first, the outline last, with several light strokes rather than a heavy one. Turn the "
     "paper, not the knife, in curves."},
    {step_cut_master,
     "Without printed sheets, cut the master leaf from card and trace it with a sharp pencil, its spine "
     "along the grain wanted."},
    {step_cut_by_machine,
     "By machine: load the cutting file at its true size. Check one measure on the screen: the leaf "
     "of size {size} is {width} wide and {height} high. Cut one leaf for trial. Keep the sheets "
     "the way they lie in the file, {grain}."},
    {step_cut_count, "All leaves are alike. You need {leaves}, and two or three more for trials."},
    {step_join, "Join the halves of large leaves"},
    {step_join_which,
     "The sheet does not take these leaves whole: {sizes}. Each is cut as a right half with a lap of {lap} along the "
     "spine and a left half that ends at the spine, one of each for a leaf."},
    {step_join_score, "Lay the right half with its inner face up and score it along the spine, where the lap begins. "
                      "Do not fold it yet."},
    {step_join_glue,
     "Put a thin film of glue on the framed part of the lap, on the same face. Lay the left half on it, its inner face "
     "up too and its straight edge exactly along the score. Press it flat under a board and let it dry for {drying}. "
     "Then go on as with a whole leaf; it is scored already."},
    {step_fold, "Score and fold the spine"},
    {step_fold_score, "Lay the leaf with its inner face up, the printed one if there is print. Press a groove along "
                      "the spine with ruler and "
                      "stylus; with a knife never go deeper than a third of the paper."},
    {step_fold_heavy, "Paper of {grammage} cracks if folded without a score."},
    {step_fold_light, "Light paper folds without a score too, but the score keeps the spine straight."},
    {step_fold_dashed,
     "A machine cuts the spine as dashes of {dash}, {gap} left whole between them; then it needs no score."},
    {step_fold_fold,
     "Fold so that the inner faces meet and the edges lie on each other. Rub the fold flat with the bone "
     "folder through a scrap of paper, so that it does not shine. Pile the leaves with all spines at the "
     "same side and all feet at the same end."},
    {step_inside, "Glue the inside rows"},
    {step_inside_glue, "Lay a leaf open, inner face up, foot towards you, its left half raised. Push the stencil for "
                       "inside rows into the fold and set glue on the right half only: {rows}. Take the stencil off, "
                       "close the leaf, edge on edge, and rub over the rows. Do this with every leaf."},
    {step_inside_thin,
     "Use little glue and keep it inside the windows. What is squeezed out welds cells shut that must open "
     "later. The paper along the edges stays free."},
    {step_inside_press, "Pile the leaves with baking paper after every few and press them for {drying}."},
    {step_first_round, "First round: leaves to pairs"},
    {step_first_round_face,
     "Lay a closed leaf down, spine to the left, foot towards you. With the stencil for between rows on top, its edge "
     "along the spine, set glue on the upper face: {rows}. They lie midway between the rows glued inside."},
    {step_first_round_lay,
     "Set the next leaf on it, the same way round: first spine against spine, both against one straight edge, feet "
     "against "
     "the other, then let it down and rub it on. That is a pair. Go on until every leaf has its partner; one left over "
     "waits for the next round."},
    {step_later_rounds, "Next rounds: pairs to fours, and so on"},
    {step_later_rounds_join, "In each round glue packet to packet: glue on the upper face of the one, the next set on "
                             "it. Glue goes on one of the "
                             "two faces that meet, never on both. The tables “The gluing rounds” tell for each size "
                             "what is joined in each round "
                             "and which packet waits."},
    {step_later_rounds_level,
     "Do not pile the leaves one by one: small slips add up, and a long pile drifts out of level. Set spines and feet "
     "against the straight edges each time."},
    {step_press, "Press after every round"},
    {step_press_weight,
     "Lay the packets between boards, baking paper above and below each, spines turned to both sides in "
     "turn so that the pile stays level. Put 2 to 5\u202fkg on top for {drying} before the next round."},
    {step_press_last, "Leave the finished block under the weight for {last}, better overnight."},
    {step_test, "Open it for trial"},
    {step_test_before_seam, "Before the seam is glued,"},
    {step_test_before_fixing, "Before it is fixed to its backing,"},
    {step_test_open, "{before} hold the block by its two outer halves and open it slowly, a little "
                     "further each time, as "
                     "far as it goes without force. Look at each ring of cells. Close it again. Free any cell that is "
                     "stuck (next step) "
                     "before you go on."},
    {step_test_level,
     "Opened, all rows at one height should form level rings. One leaf that stands out was glued too high "
     "or too low; press its rim back gently, it will hardly show."},
    {step_free, "Free stuck cells"},
    {step_free_blade,
     "Close the block so far that the paper is slack. Slide the blunt blade in from the outer edge, flat "
     "between the two papers, and move it up and down until they part. Never pull: paper tears before "
     "glue does."},
    {step_free_before,
     "It is easiest within the hour after gluing. If many cells stick, use less glue and keep farther "
     "from the edge in your next piece."},
    {step_seam, "Close the seam"},
    {step_seam_glue,
     "With the stencil for between rows put glue on the outer face of the last leaf, as in every round. Open "
     "the block right round until this face meets the first leaf. Begin at the spine, feet and tops "
     "level, and press the rows together outwards."},
    {step_seam_clips,
     "Lay a strip of card on either side of the seam and hold it with clips, spread along it: {clips}. "
     "Leave it for {last}."},
    {step_fix, "Fix it to its backing"},
    {step_fix_backing,
     "Open the block through {angle} and lay it on the backing card. Mark where the two outer faces lie. "
     "Glue first one of them, then the other, along their between rows, and weigh them down for "
     "{last}."},
    {step_pleat, "Pleat the fans"},
    {step_pleat_fan, "{name}: {pleats} {pleats:pleat|pleats}, {depth} deep, to be spread to {angle}°."},
    {step_pleat_front,
     "Cut the strips from the fan pages. The printed face is the front. Score all creases, the mountains on the back "
     "or, with a light hand, on the front; the grain runs along the pleats."},
    {step_pleat_fold,
     "Lay the strip with its front up and its gathered end towards you, the flap at the side where it is drawn. Fold "
     "the flap's crease as a valley, the next as a mountain and so on in turn; mountains stand up towards you. Press "
     "the closed packet flat with the bone folder. Both outer pleats now show the same face."},
    {step_pleat_join,
     "A strip in several parts is joined before it is folded: put a thin film of glue on the front of the hatched lap, "
     "lay the next part on it, and align both on a straight edge along the gathered end. The creases next to the lap "
     "must come to lie one pleat's depth apart."},
    {step_pleat_pair,
     "Fans of a pair are mirror images: one strip is marked right and one left. Never turn one over to "
     "make the other, or its mountains become valleys."},
    {step_spread, "Spread the fans and glue them on"},
    {step_spread_gather,
     "Press the gathered end together and hold it: two turns of thread, or a drop of glue between the pleats over the "
     "last 3 mm. Keep it free to spread at the rim."},
    {step_spread_first,
     "Glue the flap of an opened fan along a leaf's edge of the finished ornament, the fan's front to you, the "
     "gathered "
     "end where the fan begins. Hold it until the glue grips. Hold the fan there first and spread it by hand: it needs "
     "free height above and below, or it cannot spread."},
    {step_spread_last,
     "When the flap is dry, spread the fan evenly until it stands as wide as its drawing: {fans}. Then put a drop of "
     "glue on the upper part of the last pleat and press it to the ornament where it comes to lie."},
    {step_spread_round, "A fan that goes all the way round is closed on itself: bring the last pleat round to the "
                        "first, glue the front of "
                        "the flap to the back of the last pleat, and press for a minute. Push the middle flat and glue "
                        "a disc of card over "
                        "it on either side, radius {radius} or more, until it stays flat under a weight."},
    {step_seat_place,
     "{name}: its gathered end sits {below}, {where}. Measure with a ruler, and mark the leaf's edge."},
    {step_seat_pair,
     "{name}: the gathered end of the right one sits {below}, {where}; the left one mirrors it. Measure "
     "with a ruler, and mark the leaves' edges."},
    {step_seat_edge,
     "Hold the fan with its front {facing} and its first pleat down, and spread it by hand before you glue. Then glue "
     "the first pleat, by its flap, from the mark downwards to leaf edges: {edges}. Leaves are counted from the "
     "seam, counter-clockwise as seen from above."},
    {step_seat_point, "Put glue on the gathered end and set it on the mark: {edges}. Leaves are counted from the seam, "
                      "counter-clockwise as seen from above."},
    {step_seat_cover,
     "Put glue on the disc on its back and press it to the leaf edges round the mark: {edges}. Leaves are counted from "
     "the seam, counter-clockwise as seen from above."},
    {step_seat_cell,
     "Put glue on both faces of the gathered end and push it {depth} deep in between two edges: {edges}. "
     "Leaves are counted from the seam, counter-clockwise as seen from above."},
    {step_seat_lean, "Its middle points {rise} above the horizontal, and its plane is turned by {turn} from upright, "
                     "where 90° is level with its front up."},
    {step_seat_free, "When the glue is dry, spread it evenly to {angle}. Its last pleat stays free."},
    {step_seat_head,
     "When the glue is dry, spread it evenly to {angle}, until its last pleat meets the head. Glue that "
     "pleat there by its upper part: {edges}."},
    {below_neck, "{height} below the neck"},
    {below_top, "{height} below the top"},
    {leaf_half, "leaf {leaf}, half {half}"},
    {leaf_both_halves, "leaf {leaf}, both halves"},
    {edges_of_pair, "right: {right}; left: {left}"},
    {edges_over, "{edges}; over {length}"},
    {faces_front, "to the front of the figure"},
    {faces_right, "to the figure's own right"},
    {faces_back, "to the back of the figure"},
    {faces_left, "to the figure's own left"},
    {where_front, "at the front"},
    {where_front_right, "at the front on its own right"},
    {where_right, "at the figure's own right side"},
    {where_back_right, "at the back on its own right"},
    {where_back, "at the back"},
    {where_back_left, "at the back on its own left"},
    {where_left, "at the figure's own left side"},
    {where_front_left, "at the front on its own left"},
    {step_stand, "Give it a foot"},
    {step_stand_check,
     "Set it on a flat table. It should stand on all its leaves; push the ones that hang too low up from "
     "below, and press a foot that rocks lightly on the table."},
    {step_stand_disc,
     "For a firm stand glue a disc of stiff card under the foot, a little smaller than the foot so that it "
     "does not show. A disc also keeps the ornament from springing open or shut."},
    {step_hang, "Give it a hanger"},
    {step_hang_thread,
     "With the needle lead a strong thread of about 450\u202fmm through the tops of two spines that lie opposite each "
     "other, a "
     "few mm below their ends. Draw both ends even, thread them through the bead, push the bead down onto the top and "
     "knot the ends to a loop of 150 to 200\u202fmm."},
    {step_hang_check,
     "Hang it up. If it tilts, shift the thread in the spines until it hangs straight; then fix the bead with "
     "a drop of glue."},
    {step_glitter, "Finish the edges"},
    {step_glitter_edge, "Put a thin film of glue on the open edges with a nearly dry brush, so that none runs into the "
                        "cells, and sprinkle glitter over it above a sheet of paper. Shake off the rest; let it dry."},
    {step_sealer, "Finish it"},
    {step_sealer_coats,
     "Spray clear sealer outdoors or in a strong draught: two light coats from 200 to 300\u202fmm away while turning "
     "the piece, 10 to 20 minutes apart. Heavy coats soften the paper and glue its cells."},
    {step_store, "Store it flat"},
    {step_store_open,
     "A piece that is to be stored or posted flat keeps its seam unglued: hold it closed round with clips or "
     "a ribbon, and open it only for show."},
    {step_store_flat, "Keep the block in a sleeve with a stiff card, flat, dry and out of the sun. Opened and glued "
                      "pieces are kept in a box of their own height."},

    {rounds_note,
     "In each round neighbours are joined two by two, each two at one joint: the last leaf of the one to the first "
     "leaf of the other. All packets stay in one order; the one that waits is counted from its beginning."},
    {rounds_strips, "Each joint has {count} {count:strip|strips} of glue."},
    {time_note, "Bars show who or what is busy; their numbers stand in the legend, and bars too narrow for a number "
                "follow in its order. Breaks and nights are yours to add."},
    {time_summary, "{size}: {hands_on} of work with the hands, {waiting} of waiting, done after {finish}."},
    {time_hands, "With {hands} {hands:pair|pairs} of hands and {presses} {presses:press|presses}."},
    {cautions_note,
     "Where anything here differs from the label of a product or from the rules of the place where you live, "
     "sell or show the piece, the label and the rules go first."},
    {caution_knife,
     "Knives: use a sharp blade, a metal ruler and a mat; keep the other hand behind the blade; cap it when you "
     "put it down; throw old blades away in a tin. For adults only."},
    {caution_machine, "Cutting machines: follow their manual. Never leave a laser without watch; paper burns."},
    {caution_glue, "Glue: read its label, air the room, keep it off skin and out of eyes."},
    {caution_hot_glue,
     "Hot glue is no good for the rows, as it builds ridges. If you use it on foot or hanger: tip and glue "
     "are at 120 to 200\u202f°C and burn at once. Keep water at hand."},
    {caution_spray,
     "Sprays and solvents are extremely flammable and their cans are under pressure: no flame, spark or hot "
     "surface near, never above 50\u202f°C, only outdoors or in a strong draught, with a mask as the label says. "
     "Let the piece dry before you box it. A sealer does not make paper safe from fire."},
    {caution_glitter,
     "Glitter hurts eyes and should not be breathed in: wear glasses, do not blow, wipe up with a damp cloth. "
     "In some places loose plastic glitter may no longer be sold; glitter of paper or minerals is the "
     "better choice."},
    {caution_fire,
     "Paper burns. Keep the ornament at least 300\u202fmm from candles and any flame, and off lamps that grow hot, "
     "heaters and stoves. Cool battery lights only. Public rooms and schools have fire rules of their own: "
     "ask first."},
    {caution_children,
     "A decoration, not a toy. Beads, clips, glitter and small cells of batteries can be swallowed: keep them "
     "and the ornament from children under 36 months and from pets."},
    {caution_cord,
     "Cords and loops can strangle: keep loops short and hang them out of reach of small children, never over a "
     "cot."},
    {caution_codes, "If you sell pieces, find out which safety and labelling rules hold where you sell."},
    {licence_none, "No licence is stated. Ask whoever gave you these files before you pass them on or sell pieces made "
                   "from them."},
    {licence_predicted, "{title}, version {version}. Measures are predictions for the paper named in this booklet."},
    {licence_measures, "Measures are predictions for the paper named in this booklet."},
    {for_maker_note, "For you alone: these pages are not part of what you hand out."},
    {batch_note, "For a batch of {pieces} {pieces:piece|pieces} of each size."},
    {batch_summary,
     "{size}, {pieces} {pieces:piece|pieces}: {hands_on} of work with the hands, {waiting} in which all hands "
     "wait, done after {finish}."},
    {cost_note,
     "Price = (cost + fixed fee) / (1 − fees − margin), with your own rates: fixed fee {fixed}, fees {fees} of the "
     "price, margin {margin} of the price."},
};

} // namespace

std::span<const MessageText> english_guidance() { return texts; }

} // namespace fanwright::booklet
