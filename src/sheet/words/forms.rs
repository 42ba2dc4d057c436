//! The sentences that steps are told in, and the short facts beside them. Each names its slots; a language says how they
//! are put together.

use super::pattern::patterns;

patterns! {
    /// Sentences of steps: imperative, right sides together said in each that sews two edges, figures last.
    SentenceForms {
        // --- what things are called ---
        /// What a maker calls something, as it stands in a sentence.
        name(name);
        /// A seam on one side of the body.
        left_name(name);
        /// The same on the other.
        right_name(name);
        /// One edge of pieces.
        edge(name, pieces);
        /// The edges of both halves of a piece that is cut on the fold.
        both_edges(name, piece);
        /// The same edge of several pieces.
        edges(name, pieces);
        /// A run of an edge that is sewn by itself.
        run_of_edge(name, pieces);
        /// Edges of one piece with unlike names.
        several_edges(names, piece);
        /// Lines of one piece with unlike names.
        several_lines(names, piece);
        /// A line inside pieces.
        line(name, pieces);
        /// The same line of several pieces.
        lines(name, pieces);
        /// An edge of the piece that was named.
        bare_edge(name);
        /// Several of them.
        bare_edges(names);
        /// The same edge of the left one.
        the_left_one();
        /// The same edge of the right one.
        the_right_one();
        /// The same edges of the left one.
        the_left_ones();
        /// The same edges of the right one.
        the_right_ones();
        /// The other of both edges.
        each_other();
        /// The left one, where no edge is named.
        the_left_piece();
        /// The right one, where no edge is named.
        the_right_piece();
        /// An end of an edge.
        end_of(edge);
        /// A seam and its letter.
        seam_called(name, letter);
        /// A corner or a mark of a piece.
        place_of(name, piece);
        /// A place on an edge, so far from a point.
        on_edge(edge, amount, from);
        /// A place on an edge, so far from where another begins.
        on_edge_from(edge, amount, from);
        /// A place on an edge that runs on across the fold of its piece.
        on_edge_from_middle(edge, amount);
        /// The middle of an edge.
        middle_of_edge(edge);
        /// A piece in one of several layers.
        piece_in(piece, layer);
        /// The left one of a piece.
        left_piece(piece);
        /// The right one.
        right_piece(piece);
        /// The left and the right one of a piece that are cut differently, each with its number.
        either(one, other);
        /// The left half of a piece that is cut once, on the fold.
        left_half(piece);
        /// The right half of it.
        right_half(piece);
        /// A layer.
        layer(name);
        /// Between two things of a list.
        comma();
        /// Between the last two.
        and();

        // --- seams ---
        /// A seam that is sewn once.
        sew(name, letter, first, second);
        /// A seam that is sewn several times.
        sew_several(name, letter, first, second);
        /// How many copies of one piece lie on one another in it.
        copies_at_once(piece, count);
        /// The same is done in several layers.
        each_layer(layers);
        /// The same as in an earlier step, in another layer.
        as_step(step, layer);
        /// A seam that went away when its pieces were joined.
        joined_away(name);
        /// A seam whose edges the next sentences list.
        sew_long(name, letter);
        /// The same, several times.
        sew_long_several(name, letter);
        /// A French seam whose edges the next sentences list.
        sew_french_long(name, letter);
        /// The same, several times.
        sew_french_long_several(name, letter);
        /// What lies on the one side of it.
        one_side(edges);
        /// What lies on the other.
        other_side(edges);
        /// What lies on something else in a part of a seam.
        lies_on(over, host);
        /// Several that do.
        lie_on(over, host);
        /// Which faces of what lies inside and of what lies outside come to lie on one another.
        wrong_sides_face(inner, outer);
        /// More of the same side.
        further(edges);
        /// A seam with stretches between that are sewn by themselves.
        in_stretches(count);
        /// What is sewn to the end of a band that lies under the other.
        underlap(edge, amount);
        /// The end of a strap that hangs free is turned in.
        free_end(piece, amount);
        /// The same of an end that is stitched down on the cloth, where a seam catches the other.
        sewn_end_in(piece, amount);
        /// The same of both ends.
        both_ends_in(piece, amount);
        /// Which way a strap lies whose end a seam catches.
        strap_inward();
        /// How long each of two copies is that are sewn in one go.
        fact_length_on_each_side(amount);
        /// Where a run of an edge is that is sewn by itself, from a corner on.
        stretch_from(edges, amount, from);
        /// The same, so far from a corner.
        stretch_beyond(edges, amount, distance, from);
        /// A corner that something is counted from.
        corner_named(name);
        /// The same in a sentence.
        corner_called(name);
        /// A corner without a name: where another edge meets it.
        corner_beside(name);
        /// The same seam of other pieces, with no more to be said of it.
        likewise(first, second);
        /// A French seam, sewn the first time.
        sew_french(name, letter, first, second);
        /// The same, several times.
        sew_french_several(name, letter, first, second);
        /// The second time.
        turn_both_in();
        /// A seam between layers that is closed by hand.
        sew_by_hand(name, letter, first, second);
        /// The same without what it joins.
        sew_by_hand_long(name, letter);
        /// A French seam is sewn once more.
        french_again(width);
        /// A lapped seam.
        sew_lapped(name, letter, over, under);
        /// The same, several times.
        sew_lapped_several(name, letter, over, under);
        /// Where it is sewn through.
        lapped_through(width);
        /// A folded piece is sewn to itself across its fold.
        sew_across_fold(name, letter, edges);
        /// What is sewn across its fold is turned.
        turn_after();
        /// The allowances of an inner curve, of what is turned.
        clip_curve();
        /// Along one that bulges they would lie in folds.
        notch_curve();
        /// Of a corner that points into the cloth the allowance is clipped, before its second edge is sewn.
        clip_into(piece, corner);
        /// Those of inner corners.
        clip_corners();
        /// Those of outer corners.
        trim_corners();
        /// Where a stretch of an edge ends whose plies are turned there.
        clip_ends();
        /// Two plies that lie on one another, of which neither lies inside.
        turn_out();
        /// The ply that lies inside is turned there.
        turn_in(pieces);
        /// Each copy of a piece to the next.
        sew_each_to_next(name, letter, first, second);
        /// One joint of pieces that are sewn in a ring.
        joint(number, name);
        /// Several joints, one after the other.
        joints(from, to, name);
        /// Joints are sewn by themselves.
        sew_joint(what, letter);
        /// What a joint joins.
        joint_joins(first, second);
        /// Others are sewn before.
        rest_of_joints();
        /// A piece is folded before it is sewn on.
        fold_first(piece, edge, onto);
        /// A seam's own allowance.
        own_allowance(amount);
        /// One side of a seam has no cloth beyond its stitches.
        no_allowance(pieces);
        /// One pair of notches.
        match_notch();
        /// Several.
        match_notches(count);
        /// What the signs of the picture stand for.
        signs(list);
        /// Those of them that one sentence could not bear.
        more_signs(list);
        /// One of them.
        at_sign(sign, what);
        /// The middle of what is cut on the fold.
        middle_of(piece);
        /// Where two edges of one piece meet.
        corner_of(one, other);
        /// Ends or corners that meet.
        let_meet(one, other);
        /// The longer side is eased in.
        ease(longer, amount);
        /// Only on a part of the seam.
        ease_between(longer, from, to, amount);
        /// The longer side is gathered.
        gather(longer, long, short);
        /// Only on a part of the seam.
        gather_between(longer, from, to, long, short);
        /// The shorter side is stretched.
        stretch(shorter, amount);
        /// Only on a part of the seam.
        stretch_between(shorter, from, to, amount);
        /// A zip lies between the sides.
        zip_between(name, letter);
        /// Loops do.
        loops_between(letter);
        /// Ties do.
        ties_between(letter);
        /// An edge of a placed piece is caught.
        catch_edge(edge);
        /// An end of a strap is caught.
        catch_strap(piece, place);
        /// Both ends, where they lie on one another.
        catch_loop(piece, place);
        /// A gap is left.
        leave_gap(amount);
        /// A gap is left in one of the seams.
        leave_gap_in(place, amount);
        /// A slit whose sides are all sewn.
        cut_slit(name, piece);
        /// A slit without a window that begins at an edge is cut open after it is faced.
        cut_slit_line(name, piece);
        /// What goes straight on where the other side has a corner is clipped there.
        clip_at_corners(pieces);
        /// A slit from an edge, before its sides are bound or sewn to a strip.
        cut_slit_first(name, piece);
        /// The same of one that opens a window.
        cut_window_first(name, piece);
        /// A ring between two layers that is closed before the work is turned.
        reach_through();
        /// It lies so far along the seam from a place.
        gap_from(place, begin, end);
        /// The same on one edge of the seam.
        gap_from_along(edge, place, begin, end);
        /// It begins at a place.
        gap_at(place);
        /// It begins there and goes along one edge.
        gap_at_along(edge, place);
        /// It lies in the middle of the seam.
        gap_middle();
        /// It lies in the middle of an edge.
        gap_middle_of(edge);
        /// The wearer's left, as a place.
        at_left();
        /// The wearer's right.
        at_right();
        /// A felled seam: what is trimmed.
        fell_trim(under, amount);
        /// What is folded over it.
        fell_over(over, width);
        /// Both allowances are stitched down.
        topstitch_seam(over, width);
        /// The allowances are bound.
        bind_allowances(width);
        /// Tape that is sewn in.
        seam_tape(width, length);
        /// Tape of any width.
        seam_tape_any(length);
        /// Tape where no side is the shorter one.
        seam_tape_along(width, length);
        /// The same of any width.
        seam_tape_along_any(length);

        // --- take-ups ---
        /// A dart.
        dart(name, letter, piece);
        /// Several of them: one on each copy.
        darts(name, letter, piece);
        /// A dart with two points.
        dart_inside(name, letter, piece);
        /// Several of them.
        darts_inside(name, letter, piece);
        /// A pleat that its edge's seam holds.
        pleat_basted(name, letter, piece);
        /// Several folds, or several copies.
        pleats_basted(name, letter, piece);
        /// A pleat that is sewn shut for a stretch.
        pleat_sewn(name, letter, piece, length);
        /// Several of them.
        pleats_sewn(name, letter, piece, length);
        /// The two folds of a box pleat.
        folds_apart();
        /// The two folds of an inverted pleat that meet.
        folds_meet();
        /// The two folds of an inverted pleat that do not meet.
        folds_toward();
        /// A tuck.
        tuck(name, letter, piece);
        /// Several of them.
        tucks(name, letter, piece);
        /// Which way a fold is laid.
        lay_toward(toward);
        /// Which way something is pressed.
        press_it(toward);
        /// Toward an edge, a line or a mark.
        toward(name);
        /// Toward an edge.
        toward_edge(name);
        /// Up the piece.
        upward();
        /// Down the piece.
        downward();
        /// To the right as the piece is drawn.
        to_the_right();
        /// To the left as the piece is drawn.
        to_the_left();

        // --- finishes ---
        /// A hem turned once.
        hem_once(edges, letter, depth);
        /// A hem whose raw edge is turned under.
        hem_under(edges, letter, under, depth);
        /// A hem turned twice by as much.
        hem_twice(edges, letter, depth);
        /// A turn-up.
        turn_up(depth);
        /// An overlocked edge.
        overlock(edges, letter);
        /// A bound edge.
        bind(edges, letter, width);
        /// A binding that is cut from cloth.
        binding_cut_from(cloth);
        /// A binding that runs on.
        binding_runs_on(amount);
        /// A binding that makes a loop.
        binding_loop(place, amount);
        /// A casing.
        casing(edges, letter, under, depth);
        /// Where it is stitched.
        casing_stitched();
        /// Of a casing all round a stretch stays open to draw the elastic in.
        casing_left_open();
        /// Once the elastic is in.
        casing_closed();
        /// A casing whose raw edge is not turned under.
        casing_once(edges, letter, depth);
        /// Elastic that is drawn through it.
        elastic_through(width, length);
        /// Its ends lie on one another.
        elastic_joined(overlap);
        /// The same of elastic that does not go round: its ends are held.
        elastic_held(amount);
        /// Elastic that is drawn through a finished casing.
        thread_elastic(edges, letter, width, length);
        /// Elastic that is sewn on.
        elastic_on(edges, letter, width);
        /// How much of something is cut.
        cut_of_it(length);
        /// Tape over a raw edge.
        tape(edges, letter);
        /// Tape of a width that is said.
        tape_wide(edges, letter, width);
        /// An edge that is felled by hand.
        turn_under_onto(edges, letter, seam, seam_letter);
        /// The same, onto the tape of a zip.
        turn_under_onto_zip(edges, letter, zip, zip_letter);
        /// What is felled beside a zip does not run into it.
        clear_of_teeth();
        /// An edge that is left as it is cut.
        leave_raw(edges, letter);

        // --- placed pieces and straps ---
        /// A piece is laid on another.
        place(piece, letter, host, corners);
        /// One on each of several.
        place_each(piece, letter, host, corners);
        /// Allowances are folded under before a piece is laid on and stitched along these edges.
        press_under(edges);
        /// Those of several plies that are sewn together and laid on as one are folded in between these.
        press_between(edges);
        /// A corner of it at a mark.
        corner_at(corner, mark);
        /// The middle of an edge of what is cut on the fold at a mark.
        middle_at(edge, mark);
        /// All its edges are stitched.
        topstitch_all_round();
        /// An edge is stitched.
        topstitch_edge(edge);
        /// An edge that is there on both halves of a piece that is cut on the fold, among others.
        two_edges(edge);
        /// Several are.
        topstitch_edges(edges);
        /// Both edges that a fold brings onto one another are stitched.
        topstitch_folded(edges);
        /// An edge stays open.
        stays_open(edge);
        /// Several do.
        stay_open(edges);
        /// An edge that is sewn to another ply hangs free.
        hangs_free(edge);
        /// Several do.
        hang_free(edges);
        /// An edge is caught later.
        caught_later(edge, seam);
        /// A strap that is folded in four.
        fold_strap(piece, width);
        /// A strap that is sewn on by both ends.
        strap(piece, letter, from, to);
        /// A strap of which both ends are sewn on in one place: a loop.
        strap_loop(piece, letter, from);
        /// A strap with an end that hangs free.
        strap_free(piece, letter, from);
        /// A strap of which one end is sewn on and the other caught.
        strap_one(piece, letter, from);
        /// A strap whose end is laid where a seam catches it.
        strap_laid(piece, letter, place, seam);
        /// Its other end.
        strap_laid_too(piece, letter, place, seam);
        /// Both ends in one place.
        strap_laid_double(piece, letter, place, seam);
        /// How much of each end is sewn on.
        strap_sewn(amount);
        /// Where there is a left and a right one.
        each_side();
        /// The same in a box.
        strap_boxed(amount);
        /// The same of one whose other end is not sewn down.
        strap_boxed_there(amount);
        /// A strap's end that a seam catches.
        strap_caught(place, seam);

        // --- closures ---
        /// A separating zip is basted before a seam takes it in.
        baste_zip_open(name, letter, edges);
        /// Another zip is.
        baste_zip(name, letter, edges);
        /// A separating zip.
        sew_zip_open(name, letter, edges);
        /// A zip that stays together below.
        sew_zip(name, letter, edges);
        /// A concealed zip.
        sew_zip_concealed(name, letter, edges);
        /// How every zip lies as it is sewn.
        zip_lies();
        /// A zip that the seams which enclose it have sewn in.
        zip_is_in(name, letter);
        /// What no seam holds of a zip that is basted.
        sew_zip_beyond(name, letter, edges);
        /// How a concealed one does.
        zip_lies_concealed();
        /// The end at which its sides come apart.
        zip_closes_toward(corner);
        /// What becomes of its tape there.
        zip_tape_ends();
        /// The edges that a long zip runs along.
        zip_along(edges);
        /// The edges that the other side of a zip is sewn to.
        zip_other_side(edges);
        /// How much of a zip shows.
        zip_shows(amount);
        /// On the left side of the body.
        only_left();
        /// On the right side of the body.
        only_right();
        /// Which zip belongs to the size.
        zip_long(length);
        /// One buttonhole.
        buttonhole(letter, edges, length);
        /// Several.
        buttonholes(letter, edges, count, length);
        /// One buttonhole and its button, where it is not said which side lies over.
        button_either(letter, edges, size);
        /// Several.
        buttons_either(letter, edges, count, size, spacing);
        /// How long the buttonholes are.
        buttonholes_long(length);
        /// The same edges on the left and on the right.
        on_both(edges);
        /// One button.
        button(edges, size);
        /// Several.
        buttons(edges, count, size, spacing);
        /// One snap.
        snap(letter, first, second, size);
        /// Several.
        snaps(letter, first, second, count, size, spacing);
        /// Which side lies over the other.
        left_over();
        /// The other one does.
        right_over();
        /// One hook and eye.
        hook(letter, first, second);
        /// Several.
        hooks(letter, first, second, count, spacing);
        /// Hooks, of which the next sentence says how many.
        hooks_alone(letter, first, second);
        /// Snaps, likewise.
        snaps_alone(letter, first, second);
        /// Toggles, likewise.
        toggles_and_loops(letter, first, second);
        /// How many these are.
        so_many(count, spacing);
        /// How many these are, and how large.
        so_many_of(count, size, spacing);
        /// One toggle.
        toggle(letter, first, second, size);
        /// Several.
        toggles(letter, first, second, count, size, spacing);
        /// A toggle whose loop is sewn on already.
        toggle_alone(letter, edges, size);
        /// Several.
        toggles_alone(letter, edges, count, size, spacing);
        /// A loop that is basted before a seam takes its ends in.
        baste_loop(letter, edges);
        /// Several.
        baste_loops(letter, edges, count, spacing);
        /// Where the first of several fasteners lies.
        first_lies(place);
        /// What lies raw beyond a line of buttons.
        stand_beyond(edges, wide);
        /// So much of it is folded in.
        stand_folded(under);
        /// At the end of a folded band, which has two layers.
        stand_turned_in(under);
        /// Where the buttons lie then.
        stand_line(stand);
        /// Where the only one lies.
        it_lies(place);
        /// At a corner or a mark.
        at_point(point);
        /// So far below it.
        below_point(amount, point);
        /// So far above it.
        above_point(amount, point);
        /// So far from the end from which a row is counted.
        from_upper_end(amount);
        /// The same of a row that runs across.
        from_an_end(amount);
        /// So far from a seam, in a row that goes all round.
        from_a_seam(amount);
        /// A buckle.
        buckle(letter, first, second, size);
        /// One pair of ties whose ends a seam will take in.
        baste_tie(letter, first, second, size);
        /// Several.
        baste_ties(letter, first, second, count, size);
        /// The same of one side alone.
        baste_tie_on_one(letter, edges, size);
        /// Several.
        baste_ties_on_one(letter, edges, count, size);
        /// A tie whose other one is basted already.
        tie_alone(letter, edges, size);
        /// Several.
        ties_alone(letter, edges, count, size);
        /// One pair of ties.
        tie(letter, first, second, size);
        /// Several.
        ties(letter, first, second, count, size);
        /// How far apart such are.
        apart(spacing);
        /// Ties that are pieces.
        tie_pieces(letter, first, second);
        /// How many times such a closure is there.
        closure_times(count);

        // --- threads, rows, tacks, the rest ---
        /// A cord.
        thread(name, letter, edges, length);
        /// A cord whose length is not known.
        thread_any(name, letter, edges);
        /// A cord that lies in piping is laid in before that is sewn.
        lay_cord(name, letter, edges, length);
        /// The same of any length.
        lay_cord_any(name, letter, edges);
        /// What hangs out of it.
        cord_ends(amount);
        /// Where a cord comes out of a folded band.
        in_and_out(places);
        /// A row of topstitching.
        topstitch(letter, edges, distance);
        /// Several rows.
        topstitch_rows(letter, edges, rows, distance);
        /// How far rows are apart.
        rows_apart(amount);
        /// What is turned before its edge is topstitched.
        turned_first(piece);
        /// What is turned through a strap before the way round that is closed.
        drawn_through(first, second);
        /// What is turned before is topstitched.
        through_both();
        /// A row along lines inside.
        topstitch_along(letter, edges);
        /// Understitching.
        understitch(letter, edges, distance);
        /// A tack by hand.
        tack(letter, place);
        /// A tack that holds one place to another.
        tack_to(letter, one, other);
        /// A bar.
        bar_tack(letter, place, width);
        /// A bar over two places.
        bar_tack_to(letter, one, other, width);
        /// What is bought and set at places.
        set_notion(notion, letter, places);
        /// How many of them there are.
        set_count(count);
        /// What is fused on.
        fuse(cloth, pieces);
        /// What is fused on some of the copies that are cut alike.
        fuse_some(cloth, fused, of, pieces);
        /// It is turned.
        turn_through(name, letter);
        /// It is turned through whichever gap there is.
        turn();
        /// The gap is closed.
        close_gap(own, name, letter);
        /// The gap, whose length is known.
        close_gap_long(own, name, letter, length);
        /// Several gaps of one seam.
        close_gaps(count, own, name, letter, lengths);
        /// The layer that was turned through it lies inside in the end.
        push_inside(layer);
        /// A seam is basted.
        baste_seam(name, letter, first, second);
        /// A seam is pressed.
        press_seam(name, letter);
        /// Several of one name.
        press_seams(name, letter);
        /// An edge or a piece is pressed.
        press(what, letter);
        /// A dart, a pleat or a tuck is pressed.
        press_take_up(name, letter, piece);
        /// Several of one name.
        press_take_ups(name, letter, piece);
        /// The same, that way.
        press_take_up_toward(name, letter, piece, toward);
        /// Several of one name.
        press_take_ups_toward(name, letter, piece, toward);
        /// Something else is basted.
        baste(what, letter);

        // --- short facts ---
        /// The allowance.
        fact_allowance(amount);
        /// The allowance of some of the pieces.
        fact_allowance_of(amount, pieces);
        /// One seam.
        fact_seam();
        /// Several seams.
        fact_seams(count);
        /// One time.
        fact_once();
        /// Several times.
        fact_times(count);
        /// How many edges.
        fact_edges(count);
        /// How many edges there are, done one after the other without a stop.
        fact_in_one_go(count);
        /// How many edges there are, in fewer goes.
        fact_in_goes(count, goes);
        /// How long each is.
        fact_length(amount);
        /// How long the left one is, where the right one is not as long.
        fact_length_left(amount);
        /// How long the right one is.
        fact_length_right(amount);
        /// How long each of several is.
        fact_length_each(amount);
        /// A stitch with a name.
        fact_stitch(name, number);
        /// A stitch without one.
        fact_stitch_number(number);
        /// Which layers.
        fact_layer(names);
        /// It goes round.
        fact_round();
        /// So many things are gone round.
        fact_rounds(count);
        /// A zip's length.
        fact_zip(length);
        /// How wide a dart is at its edge.
        fact_width(amount);
        /// How wide a dart inside a piece is where it is widest.
        fact_widest(amount);
        /// How long a dart is, or a buttonhole.
        fact_legs(amount);
        /// How deep a fold is.
        fact_depth(amount);
        /// How many folds there are on a piece.
        fact_folds(count);
        /// How far from one fold to the next.
        fact_folds_apart(amount);
        /// How much binding, tape or elastic there is to cut, for each.
        fact_cut_length(amount);
        /// How much of it there is to cut for several, all together.
        fact_cut_in_all(amount);
        /// How much of a strap is free.
        fact_free(amount);
    }
}
