"""The rows of each table that tells of a layout."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from fitter.domain.carried import carried_pieces
from fitter.domain.corner_words import foam_told, notch_told, zip_kept, zip_told
from fitter.domain.layout import Face, Layout, PostRole, Side
from fitter.domain.notching import cut_cushions
from fitter.domain.outcome import FitResult, LayoutResult
from fitter.domain.project import Project
from fitter.domain.uncovered import beyond_gap
from fitter.report.setting import purchases, sizes
from fitter.report.words import (
    Teller,
    corner_name,
    money,
    objective_bound,
    objective_name,
    objective_value,
    run_name,
)
from rooms.survey.wording import listed

Row = tuple[str, ...]


def summary(result: FitResult, tell: Teller) -> Iterator[Row]:
    """One row for each layout, with what the objectives count."""
    for shown in result.layouts:
        layout = shown.layout
        counts = (layout.seats, layout.notches, sum(row.buy for row in layout.purchases), len(layout.posts))
        lengths = len(layout.rail_lengths)
        yield str(shown.rank), kind(layout), *map(str, counts), str(lengths), tell(layout.off_edge)


def kind(layout: Layout) -> str:
    """Shape, hand and corner of a layout in short."""
    shape = f"{layout.shape}, {layout.hand}" if layout.hand else str(layout.shape)
    return f"{shape}, {layout.corner}" if layout.corner else shape


def objectives(project: Project, shown: LayoutResult, tell: Teller) -> Iterator[Row]:
    """One row for each objective that was reached."""
    for proof in shown.proofs:
        name = objective_name(proof.objective)
        value = objective_value(proof.objective, proof.value, project, tell)
        yield name, value, objective_bound(proof, project, tell, shown.rank)


def runs(layout: Layout, tell: Teller) -> Iterator[Row]:
    """One row for each run."""
    for run in layout.runs:
        length = tell(run.pitch * run.count)
        laid = _laid(run.cushion, turned=run.turned)
        yield run_name(run.side), laid, str(run.count), tell(run.pitch), length, _ends(layout, run.side)


def _laid(cushion: str, *, turned: bool) -> str:
    return f"{cushion}, turned" if turned else cushion


def _ends(layout: Layout, side: Side) -> str:
    """How a run stops; which is right and which left is told where it has two ends."""
    ends = [end for end in layout.ends if end.run is side]
    kinds = [str(end.kind) for end in ends]
    if not ends:
        return "corners"
    if len(ends) == 1:
        return kinds[0]
    return f"both {kinds[0]}" if kinds[0] == kinds[1] else listed([f"{end.kind} {end.hand}" for end in ends])


def corners(layout: Layout, cut: Teller) -> Iterator[Row]:
    """One row for each corner place: what lies there, what is cut from it, what it leaves bare but the gap behind."""
    for module in layout.corners:
        laid = "a table" if module.cushion is None else _laid(module.cushion, turned=module.turned)
        notch = notch_told(module.notch, cut) if module.notch else "none"
        strips = [sizes(strip, cut) for strip in beyond_gap(layout, module)]
        bare = listed(strips) if strips else "nothing"
        yield corner_name(layout, module.corner), str(layout.corner), laid, notch, bare


def foam(project: Project, layout: Layout) -> Iterator[Row]:
    """One row for each cushion that is cut: how much foam, from which sides, and whether the zip is in one of them."""
    for cut in cut_cushions(layout, project.cushions):
        away = foam_told(cut, imperial=project.unit.imperial)
        yield corner_name(layout, cut.corner), away, listed(list(map(str, cut.sides))), zip_told(cut)


def zips(project: Project, layout: Layout) -> Iterator[str]:
    """A sentence for each cushion whose zip would be cut: how it stays whole."""
    yield from (told for cut in cut_cushions(layout, project.cushions) if (told := zip_kept(layout, cut)))


def rails(layout: Layout, cut: Teller) -> Iterator[Row]:
    """Rails of one line and length in one row."""
    groups: dict[tuple[Side, Face, str], list[int]] = {}
    for rail in layout.rails:
        groups.setdefault((rail.run, rail.face, cut(rail.length)), []).append(rail.bay)
    for (run, face, length), bays in groups.items():
        of = corner_name(layout, run) if face is Face.CROSS else run_name(run)
        yield of, str(face), ", ".join(map(str, bays)), str(len(bays)), length


def posts(layout: Layout) -> Iterator[Row]:
    """Posts of one line in one row, those beside splits in another; those of a corner stand where its runs meet."""
    groups: dict[tuple[Side, str], list[int]] = {}
    for post in layout.posts:
        if post.role is PostRole.SUPPORT and post.line is not None:
            groups.setdefault((post.run, str(post.face)), []).append(post.line)
    for (run, face), lines in groups.items():
        splits = layout.split_lines(run)
        alone = [line for line in lines if line not in splits]
        if alone:
            yield run_name(run), face, str(len(alone)), f"centred {_stand(layout, run, alone)}"
        pairs = [line for line in splits if lines.count(line) > 1]
        if pairs:
            told = "a pair" if len(pairs) == 1 else "pairs"
            yield run_name(run), face, str(2 * len(pairs)), f"{told} {_stand(layout, run, pairs)}"
        if single := [line for line in splits if lines.count(line) == 1]:
            yield run_name(run), face, str(len(single)), "beside the post where the fronts meet"
    for post in layout.posts:
        if post.role is not PostRole.SUPPORT:
            where = "where the fronts meet" if post.role is PostRole.INNER_CORNER else "where the backs meet"
            yield corner_name(layout, post.run), str(post.face), "1", where


def _stand(layout: Layout, side: Side, lines: Sequence[int]) -> str:
    """Module lines in words; the first and the last may be those where a corner place ends."""
    count = next(each.count for each in layout.runs if each.side is side)
    between = [line for line in lines if 0 < line < count]
    after = f"after module{'s' * (len(between) > 1)} {listed(list(map(str, between)))}" if between else ""
    first = "between the corner place and module 1" if 0 in lines else ""
    last = f"between module {count} and the corner place" if count in lines else ""
    return listed([part for part in (first, after, last) if part])


def pieces(layout: Layout, tell: Teller) -> Iterator[Row]:
    """One row for each piece that is carried in, where there are several."""
    for piece in carried_pieces(layout):
        modules = f"{piece.first} to {piece.last}" if piece.first < piece.last else str(piece.first)
        parts = [modules] if piece.first <= piece.last else []
        parts += [f"the {corner_name(layout, arm)}" for arm in piece.corners]
        yield run_name(piece.run), listed(parts), tell(piece.length)


def cushions(project: Project, layout: Layout) -> Iterator[Row]:
    """What of each kind is used, owned and bought."""
    for row in purchases(project, layout):
        own = "not said" if row.own is None else str(row.own)
        each = "unknown" if row.price is None else money(row.price)
        cost = "unknown" if row.cost is None else money(row.cost)
        yield row.cushion, str(row.used), own, str(row.buy), each, cost


def routes(project: Project, layout: Layout, tell: Teller) -> Iterator[Row]:
    """Each route with the width that was found, and its doors where they are narrower."""
    asked = {route.name: route for route in project.room.routes}
    for route in layout.routes:
        ends = [project.room.opening(name) for name in (asked[route.name].start, asked[route.name].end)]
        narrow = [f"{end.name} is only {tell(end.width)}" for end in ends if end.width < route.asked]
        found = "unknown" if route.clear is None else tell(route.clear)
        yield route.name, tell(route.asked), found, listed(narrow) if narrow else "wide enough"
