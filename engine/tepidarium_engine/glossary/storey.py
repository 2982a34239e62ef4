"""The storey as a plan: rooms, doorways, manifolds and the ways of tails."""

from __future__ import annotations

from .entries import Entry, Items, Number

STOREY: dict[str, Entry] = {
    "storey_rooms": Items("Rooms of the storey, those that pipes only pass too", 1, 64),
    "storey_doorways": Items("Doorways between the rooms", 0, 128),
    "room_circuits": Number("1", 0, 24, "Circuits of the room; 0 for one that pipes only pass"),
    "allowed_places": Items("Walls at which a manifold may stand; all walls when there is none", 0, 64),
    "maximum_ports": Number("1", 1, 24, "Highest number of circuits on one manifold"),
    "maximum_tail_length": Number(
        "m", 0.5, 200.0, "Longest permitted way from a manifold to a room, one way"
    ),
    "manifolds": Items("The manifolds, each at its best place", 1, 8),
    "ports": Items("Ids of the circuits by port, from the right-hand end", 0, 256, of="id"),
    "manifold_width": Number("m", 0.0, 20.0, "Wall that the pipes of all ports take side by side"),
    "tail_pipe": Number("m", 0.0, 1e6, "Pipe in tails, flow and return together"),
    "room_tails": Items("The ways to the rooms that it serves", 0, 64),
    "way_to_room": Number("m", 0.0, 1e4, "One way from the manifold to where the pipes come into the room"),
    "position_tail_pipe": Number("m", 0.0, 1e6, "Pipe in tails from the position that was given"),
    "position_excess": Number("m", -1e6, 1e6, "Pipe in tails that the given position takes in addition"),
}
