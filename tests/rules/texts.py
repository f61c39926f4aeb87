"""A small rule library as texts: one engine family, enough to try the reader, the checks and the priors on."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from app.rules.library import Rules
from app.seed.rule_folder import load_rules

RULES = Path(__file__).parents[2] / "seed_data" / "rules"

FAMILY = """\
name: misfire
scope: The engine misfires or runs rough.
lead: [misfire]
strikes: often

symptoms:
  misfire:
    name: misfire
    at: cylinder
    sense: data
    says: ["engine shakes at the lights", "runs rough"]
    codes: {P0301: cyl-1, P0302: cyl-2}
    without a fault: rarely
    may it be driven: Do not drive on while the warning lamp flashes.
  misfire-only-hot:
    name: misfire only with a hot engine
    at: cylinder
    sense: data
    kind of: misfire
    under: [hot]
    says: ["stumbles once it is warm"]

causes:
  coil-weak:
    name: ignition coil weak
    system: ignition
    acts at: cylinder
    how common: common
    why: The coil no longer reaches the voltage that the gap asks for under load.
    gives: {misfire: usually}
    fixed by: {replace-coil: [ignition coil]}
  exhaust-lash-too-tight:
    name: exhaust valve lash too tight
    system: valve gear
    acts at: {cylinder: 0.9, bank: 0.1}
    how common: occasional
    why: Heat lengthens the valve; with too little lash it no longer seats once hot.
    fits: {valve clearance: [screw, shim]}
    course: grows with use
    gives: {misfire: often, misfire-only-hot: {how: usually, course: at once}}
    raised by:
      - {operation: adjust-lash, duty: measured-cold, at: bank, how: sometimes}
    damages:
      valve-burnt: {how: often, within months: 6}
    fixed by: {adjust-lash: []}
    cautions: [A burnt valve follows within weeks.]
  valve-burnt:
    name: valve burnt
    system: cylinder sealing
    acts at: cylinder
    how common: rare
    why: A valve that does not seat cannot pass its heat to the head.
    gives: {misfire: always}
    fixed by: {renew-valve: [valve, head gasket]}

tests:
  leak-down:
    name: cylinder leak-down
    at: cylinder
    measures: how much air leaves the closed cylinder
    method: Set the cylinder to top dead centre and feed air.
    quantity: leak-rate
    passes when: Loss at most 20 % and no air heard.
    source: Common practice; the maker's figure comes first.
    minutes: {set up: 15, each place: 8}
    needs open: [plugs-out]
    shows: {valve-burnt: strong}
    blind when:
      engine-cold: {valve-burnt: {share: often, why: "A cold valve may still seat, if only just."}}
    cannot show:
      exhaust-lash-too-tight: At top dead centre any lash left lets the valve rest closed.
      ignition: The ignition is dead while the test is made.
    false alarm: rarely
    false alarm because: [cylinder not at top dead centre]
    outcomes: [within limits, leaks]
  coil-swap:
    name: coil swapped with its neighbour
    at: cylinder
    measures: whether the misfire follows the coil
    method: Swap two coils and drive.
    passes when: The misfire stays.
    source: Common practice.
    minutes: {set up: 0, each place: 10}
    shows: {coil-weak: strong}
    cannot show:
      valve gear: Nothing of the valve gear moves with the coil.
      cylinder sealing: Nothing of the cylinder moves with the coil.
    false alarm: rarely
    false alarm because: [misfire comes and goes]
    outcomes: [stayed, followed the coil]
  lash-gauge:
    name: valve lash by feeler gauge
    at: cylinder
    measures: the lash of each valve
    method: Measure at the temperature the figure is given for.
    quantity: valve-lash
    passes when: Within the maker's figure.
    source: The maker's figure.
    minutes: {set up: 5, each place: 4}
    needs open: [valve-cover-off]
    shows: {exhaust-lash-too-tight: certain}
    cannot show:
      valve-burnt: The lash of a burnt valve can be right.
      ignition: The gauge sees only the valve gear.
    false alarm: hardly ever
    false alarm because: [leaf not flat]
"""

OPERATIONS = """\
adjust-lash:
  name: set valve lash
  at: engine
  minutes: 90
  opens: [valve-cover-off]
  touches: {exhaust-lash-too-tight: sets}
  duties:
    measured-cold: {text: engine cold, brings: exhaust-lash-too-tight, verify by: lash-gauge}
    values-written: {text: values written down, otherwise: No proof is left., verify by: The work sheet shows them.}
replace-coil:
  name: replace ignition coil
  at: cylinder
  minutes: 10
  touches: {coil-weak: renews}
renew-valve:
  name: renew valve
  at: cylinder
  minutes: 600
  opens: [valve-cover-off]
  touches: {valve-burnt: renews, exhaust-lash-too-tight: opens}
  cautions: [Lift the head with a helper.]
"""

TEARDOWN = """\
valve-cover-off: {name: valve cover off, reach minutes: 30, restore minutes: 35}
plugs-out: {name: plugs out, reach minutes: 10, restore minutes: 10}
"""

QUANTITIES = """\
leak-rate: {name: leak-down loss, unit: "%", units: {"%": percent}, plausible: [0, 100]}
valve-lash: {name: valve lash, unit: mm, units: {mm: mm, in: inch, thou: thou}, plausible: [0, 1.5]}
"""

SHARED = """\
systems: {ignition: ignition, valve gear: valve gear, cylinder sealing: cylinder sealing}
situations:
  engine-cold: {name: taken with a cold engine, question: Was the engine cold?}
"""


FINDINGS = """\
bolt-left-out: {name: bolt left out, means: The joint can work loose.}
lash-screw-loose:
  name: lock nut of a lash screw loose
  means: The screw turns and the lash closes.
  brings: exhaust-lash-too-tight
  how: rarely
  cautions: [Do not run the engine with a loose screw.]
"""


def texts() -> dict[str, str]:
    """A small library; words, sources and places are the shipped ones."""
    names = ("strengths.yaml", "sources.yaml", "places.yaml", "monitors.yaml")
    shipped = {name: (RULES / name).read_text("utf-8") for name in names}
    return {
        "families/misfire.yaml": FAMILY,
        "operations.yaml": OPERATIONS,
        "teardown.yaml": TEARDOWN,
        "quantities.yaml": QUANTITIES,
        "shared.yaml": SHARED,
        "findings.yaml": FINDINGS,
        **shipped,
    }


def changed(old: str, new: str) -> dict[str, str]:
    """The small library with one piece of text changed, wherever it stands; it must stand somewhere."""
    result = {name: text.replace(old, new, 1) for name, text in texts().items()}
    assert result != texts(), f"{old!r} stands nowhere"
    return result


@cache
def shipped() -> Rules:
    """The rules of the program itself, read once for all tests."""
    return load_rules(RULES)
