"""Where manifolds, joints, tails and circuits lie."""

from __future__ import annotations

from .kind import NOTE, VIOLATION, WARNING, Kind
from .undrawn import NOT_DRAWN

__all__ = ["KINDS"]

KINDS: dict[str, Kind] = {
    **NOT_DRAWN,
    "crosses_movement_joint": Kind(
        VIOLATION,
        "A circuit crosses a movement joint, which can tear the pipe.",
        "Let the joint run from wall to wall and lay each part of the floor by itself; only tails "
        "may cross, each in a sleeve.",
        cause="A joint ends within the floor, or it was drawn after the circuits were planned.",
        calculations=("designs", "routes"),
    ),
    "movement_joint_proposed": Kind(
        WARNING + NOTE,
        "Without movement joints this screed may crack.",
        "Agree them with whoever plans the floor and its covering.",
        cause="The field is large, long or has a narrow place, and no joint was given.",
        calculations=("routes", "designs"),
    ),
    "movement_joints_adopted": Kind(
        NOTE,
        "Movement joints are laid out as proposed.",
        "Agree them with whoever plans the floor and its covering before pipe is laid.",
        cause="Joints are due and the request asks to lay them out.",
        calculations=("designs",),
    ),
    "manifold_moved": Kind(
        WARNING,
        "The manifold was given away from a wall and is laid out on the nearest one.",
        "Give a place on the wall where it will hang.",
        cause="The position was measured to the middle of the cabinet or clicked by hand.",
        calculations=(
            "designs",
            "manifold-position",
        ),
    ),
    "manifold_in_doorway": Kind(
        WARNING,
        "The manifold stands in a doorway, so its ports are drawn on the wall beside it.",
        "Give a place on a wall.",
        cause="The position lies within a doorway.",
        calculations=("designs",),
    ),
    "manifold_added": Kind(
        WARNING,
        "A manifold was added: those you asked for have too few ports, or would be too far from some rooms.",
        "Add it to your manifolds if you agree.",
        cause="Many rooms, few ports or long ways on one storey.",
        calculations=("designs",),
    ),
    "position_reaches_not_all": Kind(
        WARNING,
        "From this position some rooms cannot be reached.",
        "Open a doorway that takes a pair of pipes, or move the manifold.",
        cause="A room has no doorway to the others, or the doorway is too narrow.",
        calculations=("manifold-position",),
    ),
    "tail_without_way": Kind(
        WARNING,
        "The tail of a circuit finds no way to its room.",
        "See for each what would help.",
        cause="A doorway or a hall is too narrow for all the tails.",
        calculations=("manifold-position",),
    ),
    "doorway_narrower": Kind(
        WARNING,
        "The walls of both rooms face each other over less than the doorway's width, and pipes pass "
        "only there.",
        "Check its place and width.",
        cause="The doorway was drawn wider than the walls that both rooms share.",
        calculations=("manifold-position", "designs"),
    ),
    "floor_cut_off": Kind(
        WARNING,
        "Tails cut floor off from a room's own circuits, and no pipe lies near enough to warm it.",
        "Move the manifold or the doorway.",
        cause="Many tails lie side by side across a room.",
        calculations=("designs",),
    ),
    "sleeve_aslant": Kind(
        WARNING,
        "A tail passes a movement joint askew, where its sleeve may not protect it.",
        "Bend it so that it lies square to the joint.",
        cause="A tail bends where it crosses the joint.",
        calculations=("designs",),
    ),
    "drawing_not_settled": Kind(
        WARNING,
        "No drawing was found in which all circuits keep their limits, so one is too long or loses "
        "too much pressure.",
        "Allow more circuits, take a wider pipe or add a manifold.",
        cause="The rooms are large for the pipe, or tails are long.",
        calculations=("designs",),
    ),
    "several_manifolds": Kind(
        NOTE,
        "One manifold does not take all circuits within the permitted tail lengths, so several serve "
        "the storey.",
        "Check the limits if you want fewer.",
        cause="There are more circuits than ports, or ways are long.",
        calculations=("manifold-position",),
    ),
    "better_position": Kind(
        NOTE,
        "Another allowed place would take less pipe in the tails.",
        "Move the manifold there if you can.",
        cause="The manifold stands far from the rooms that need most pipe.",
        calculations=("designs", "manifold-position"),
    ),
    "position_found": Kind(
        NOTE,
        "The manifold had no position and was placed where its tails take least pipe.",
        "Give the position to keep it there.",
        cause="The request gave no position of the manifold.",
        calculations=("designs",),
    ),
    "ports_moved": Kind(
        NOTE,
        "The ports do not fit at the manifold's position and are drawn aside of it.",
        "Give that place, or one with more wall to both sides.",
        cause="The manifold stands in a corner or beside a doorway.",
        calculations=("designs",),
    ),
    "manifold_without_rooms": Kind(
        NOTE,
        "A manifold serves no room, as others are nearer.",
        "Leave it out.",
        cause="Two manifolds stand close to each other.",
        calculations=("designs",),
    ),
    "entry_moved": Kind(
        NOTE,
        "The entry was moved to where its pipes stand side by side on one wall.",
        "Check that the pipes can come in there.",
        cause="The entry lies in a corner or away from the wall, or too near a corner for the bends of all circuits.",
        calculations=("routes",),
    ),
    "sleeves_due": Kind(
        NOTE,
        "Tails pass a movement joint, which can tear them.",
        "Put each pipe there in a sleeve of at least 300 mm, half of it on either side of the joint.",
        cause="Circuits beyond the joint get their water from this side.",
        calculations=("routes",),
    ),
}
