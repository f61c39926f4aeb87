"""The desk: all that can be written, by one person, at one moment, in one transaction."""

from __future__ import annotations

from app.history.strike import Striking
from app.history.write_figures import FigureWrites
from app.history.write_proof import ProofWrites
from app.history.write_vehicles import VehicleWrites


class Desk(VehicleWrites, FigureWrites, ProofWrites, Striking):
    """Handed out by `history.write(person, now)`; what was written is stored when that block ends without an error."""

    __slots__ = ()
