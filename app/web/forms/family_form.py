"""The shop's word for a vehicle's family, by which its own minutes are found."""

from __future__ import annotations

from dataclasses import dataclass

from app.history.values import VehicleOnFile
from app.web.forms.fields import NONE, Field, FieldMaker, Problems, Sent, too_long
from app.web.forms.figure_form import LONGEST_FAMILY


class FamilySent(Sent):
    family: str = ""
    version: str = ""


@dataclass(frozen=True, slots=True)
class FamilyForm:
    """`theirs`: the vehicle was changed in the meantime, and its family is now this."""

    family: Field
    version: str
    action: str
    theirs: str
    yours: str
    saved: str


def family_form(
    on_file: VehicleOnFile,
    *,
    sent: FamilySent | None = None,
    problems: Problems = NONE,
    theirs: str = "",
    saved: str = "",
) -> FamilyForm:
    make = FieldMaker("vehicle", problems)
    typed = sent.family if sent else on_file.vehicle.family
    return FamilyForm(
        family=make.line(
            "family",
            "Vehicle family, in your words",
            value=typed,
            hint="Minutes set for it under Settings hold for this vehicle. Such as: big estate.",
        ),
        version=str(on_file.version),
        action=f"/vehicles/{on_file.id}/family",
        theirs=theirs,
        yours=typed if theirs else "",
        saved=saved,
    )


def family_problems(sent: FamilySent) -> Problems:
    return Problems(too_long("family", sent.family, limit=LONGEST_FAMILY))
