"""A case file that uses every key of the form, for the small library in tests/rules/texts.py."""

EXAMPLE = """\
vehicle:
  name: grey estate
  customer: A. Hartwell
  plate: PB 1204
  banks: [[1, 2, 3, 4]]
  firing order: [1, 3, 4, 2]
  traits: {fuel: petrol, rear brakes: drum, valve clearance: screw}
complaint: misfire
complaint at: cyl-3
open now: [plugs-out]
visits:
  - shop: Harbour Garage
    day: 2026-02-11
    odometer: 84200 km
    source: on paper
    complaint: It shakes at the lights.
    symptoms:
      - {symptom: misfire, at: cylinder 3}
    codes:
      - {code: p0303, state: confirmed, freeze frame: {coolant: 92 °C}}
    codes cleared: [{where: Harbour Garage, ago: 20 km}]
    results:
      - {test: coil-swap, at: cyl-3, outcome: stayed}
      - {test: leak-down, at: cyl-3, outcome: normal}
    jobs:
      - operation: adjust-lash
        parts: [{name: cover gasket, number: 4410, receipt: yes}]
        duties:
          measured-cold: {state: found wrong, source: seen here, at visit: 2, note: Set hot.}
          values-written: not checked
    cost: 412.00
    minutes: 120
  - shop: here
    day: vague
    odometer: 53000 mi
    source: seen here
    symptoms:
      - {symptom: misfire, at: cyl-3, under: [hot]}
      - {symptom: misfire, at: cyl-3, is: absent, absent for: 800 km, after visit: 1, source: as told}
    results:
      - test: leak-down
        at: cyl-2
        source: measured here
        reading: 8 %
        specification: {high: 20 %, from: common practice}
        situations: {engine-cold: no}
        after work: yes
      - test: lash-gauge
        readings: {cyl-1: 0.20 mm, cyl-3: 9 thou}
        specification: {low: 0.18 mm, high: 0.22 mm, from: "maker's figure"}
      - {test: coil-swap, at: all, outcome: normal}
"""
