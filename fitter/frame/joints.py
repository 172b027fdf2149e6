"""What holds each contact: every joint of a frame with its fasteners in their places."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import groupby
from math import sqrt

from fitter.domain.layout import Side
from fitter.domain.project import Project
from fitter.domain.species import species
from fitter.domain.woodwork import Fastener, Fixing, Joint, Part, PartRole
from fitter.frame.bodies import Body, Floats, Patch
from fitter.frame.clearance import Taken
from fitter.frame.contacts import Contact, contacts
from fitter.frame.driving import drive
from fitter.frame.patterns import How, Meeting, Toward, pattern
from fitter.frame.spots import BEHIND, Shop, Task
from rooms.lengths import format_length

_LATER = frozenset((
    PartRole.SEAT_SLAT, PartRole.BACK_SLAT, PartRole.TABLE_BOARD, PartRole.TABLE_BEARER, PartRole.SHELF_SLAT,
    PartRole.ARM_BOARD, PartRole.FOOT,
))  # fmt: skip
"""What is laid when the rest stands, so that heads may lie under it."""


_BACKS = frozenset((PartRole.UPRIGHT, PartRole.BOTTOM_RAIL, PartRole.TOP_RAIL))
"""What the boards of an angle post are screwed to when they have been screwed to each other."""


def joints(parts: Sequence[Part], project: Project, *, joined: bool = False) -> tuple[Joint, ...]:
    """Fasten a frame: one joint for every two parts that touch.

    Args:
        parts: of the whole frame; no two overlap.
        project: for units, the wood and how slats are held.
        joined: whether backs are to hold each other at corners, as no post does.

    Returns:
        Joints in the order of their parts' indices; those that need nothing have no fastener, and say so.
    """
    bodies = [Body(part, i) for i, part in enumerate(parts)]
    touching = [list(pair) for _, pair in groupby(contacts(parts), key=lambda contact: (contact.first, contact.second))]
    noted = [[_noted(contact, bodies) for contact in pair] for pair in touching]
    found = [_plan(pair, patches, bodies, project, joined) for pair, patches in zip(touching, noted, strict=True)]
    shop, taken = _shop(bodies, project), Taken()
    made: dict[int, Joint] = {}
    for i in sorted(range(len(found)), key=lambda i: (found[i].pattern.turn, i)):
        made[i] = _joint(found[i], shop, taken, project)
    return tuple(made[i] for i in range(len(found)))


def _noted(contact: Contact, bodies: Sequence[Body]) -> tuple[Patch, Patch]:
    """Both sides of a contact, each in the axes of its part."""
    one, other = bodies[contact.first], bodies[contact.second]
    away, back = _unit(contact.normal), _unit((-contact.normal[0], -contact.normal[1], -contact.normal[2]))
    return (
        one.note(contact.patches, away, later=_later(one.part, other.part)),
        other.note(contact.patches, back, later=_later(other.part, one.part)),
    )


def _later(part: Part, other: Part) -> bool:
    """Whether the other part is laid on it when the rest stands, or both come together only then."""
    return other.role in _LATER or (part.role is PartRole.CORNER_BOARD and other.role in _BACKS)


def _unit(normal: tuple[int, int, int]) -> Floats:
    long = sqrt(sum(x * x for x in normal))
    return normal[0] / long, normal[1] / long, normal[2] / long


def _plan(
    pair: Iterable[Contact],
    noted: Iterable[tuple[Patch, Patch]],
    bodies: Sequence[Body],
    project: Project,
    joined: bool,
) -> Task:
    """How two parts are joined: in the first plane of contact for which there is a rule."""
    tasks = []
    for contact, patches in zip(pair, noted, strict=True):
        meeting = Meeting(bodies[contact.first], bodies[contact.second], _unit(contact.normal))
        way, found = pattern(meeting, project.frame.carpentry.slat_fixing, joined=joined)
        patch = patches[0 if way.held is meeting.held else 1]
        if way.held.part.role is PartRole.SEAT_SLAT and 2 * (patch.top[1] - patch.low[1]) < way.held.size[1]:
            # The greater part of its width bears on the next cleat.
            found = replace(found, spare=True)
        tasks.append(Task(way, patch, found))
    return next((task for task in tasks if task.pattern.how is not How.NONE), tasks[0])


def _shop(bodies: Sequence[Body], project: Project) -> Shop:
    middles: dict[Side, Floats] = {}
    for side in Side:
        spots = [body.world(_half(body.size)) for body in bodies if body.part.run is side]
        if spots:
            x, y, z = (sum(axis) / len(spots) for axis in zip(*spots, strict=True))
            middles[side] = (x, y, z)
    return Shop(project.unit.imperial, project.mark.units, _gravity(project.frame.carpentry.species), middles)


def _half(size: Floats) -> Floats:
    return size[0] / 2, size[1] / 2, size[2] / 2


def _gravity(name: str) -> Fraction:
    """Specific gravity for fasteners: of the group that the wood is sold in, else its own."""
    wood = species(name)
    figure = wood.design.gravity if wood.design else wood.gravity
    return Fraction(str(figure.value))


def _joint(task: Task, shop: Shop, taken: Taken, project: Project) -> Joint:
    held, into = task.meeting.held, task.meeting.into
    pair = (held.number, into.number)
    fasteners, wanted = drive(task, shop, taken) if task.pattern.how is not How.NONE else ([], 0)
    if not fasteners and (task.pattern.spare or not wanted):
        return _bare(task.meeting)
    housed = bool(into.part.housings) and _in_housing(task)
    return Joint(
        pair,
        tuple(fasteners),
        glued=task.pattern.glued or housed,
        housed=housed,
        says=_says(task, fasteners, wanted, project),
    )


def _bare(meeting: Meeting) -> Joint:
    """A contact that needs nothing; of two that lie on each other the upper one is told first."""
    pair = meeting.held.number, meeting.into.number
    if meeting.toward is Toward.LEVEL:
        return Joint(pair, says="only touches")
    return Joint(pair if meeting.toward is Toward.DOWN else pair[::-1], says="bears on it")


def _in_housing(task: Task) -> bool:
    """Whether the held part ends inside of the other."""
    held, into = task.meeting.held, task.meeting.into
    middle = [(low + top) / 2 for low, top in zip(task.patch.low, task.patch.top, strict=True)]
    a, b, c = into.local(held.world((middle[0], middle[1], middle[2])))
    return all(1 < at < size - 1 for at, size in zip((a, b, c), into.size, strict=True))


def _says(task: Task, fasteners: Sequence[Fastener], wanted: int, project: Project) -> str:
    """How the joint is made, such as `2 screws #8 x 2 1/2", from above`."""
    words = []
    for (kind, size, length), number in Counter((f.kind, f.size, f.length) for f in fasteners).items():
        words.append(
            f"{number} {kind}{'s' if number > 1 else ''} {size} × {format_length(length, project.unit, feet=False)}"
        )
    text = " and ".join(words) or "no room for a fastener"
    if fasteners:
        bored = "bored " if fasteners[0].kind is Fixing.POCKET_SCREW else ""
        text += f", {bored}{_from(fasteners[0], task.meeting)}"
    if fasteners and not task.pattern.spare and len(fasteners) < min(wanted, task.pattern.least):
        text += f"; no room for {wanted}"
    return "; ".join(word for word in (text, task.pattern.says) if word)


def _from(fastener: Fastener, meeting: Meeting) -> str:
    """Where the head looks, for a person who stands before the run; of a corner's boards, before the back behind it."""
    held, run = meeting.held, meeting.held.part.run
    if held.part.role is PartRole.CORNER_BOARD:
        run = meeting.into.part.run if meeting.into.part.role in _BACKS else Side.MAIN
    x, y, z = (float(a - b) for a, b in zip(fastener.head, fastener.tip, strict=True))
    if fastener.kind is Fixing.POCKET_SCREW:
        # The bore lies along the held part; what is told is the face that it begins in.
        way = held.turned((x, y, z))
        axis = 2 if abs(way[2]) < abs(way[0]) or held.size[1] != held.size[2] else 1
        x, y, z = held.facing(axis, high=way[axis] > 0)
    long = sqrt(x * x + y * y + z * z)
    if abs(z) > 0.7 * long:
        return "from above" if z > 0 else "from below"
    back = BEHIND[run]
    behind = (x * back[0] + y * back[1]) / long
    return "from behind" if behind > 0.7 else "from the front" if behind < -0.7 else "from the side"
