"""A bare network written as JSON: the two forms of the oracle files, read into a network and its questions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal, InvalidOperation

from app.network.noisy_or import (
    Document,
    Effect,
    Event,
    Finding,
    Group,
    Hypothesis,
    Leaf,
    NoisyOr,
    Questions,
    Report,
    Soft,
    State,
)
from app.problem import Problem, Refused

FLAT, GROUPED = "noisy-or-oracle/1", "noisy-or-oracle/2"
DEEPEST, MOST_DOCUMENTS = 20, 6
LARGEST_WEIGHT = Decimal("1e100")
SCHEMAS = f"Use “{FLAT}” or “{GROUPED}”."


@dataclass(frozen=True, slots=True)
class BareNetwork:
    """A network with its questions; `schema` says in which form it was written."""

    schema: str
    network: NoisyOr
    questions: Questions


@dataclass(slots=True)
class Reader:
    """Reads values and collects what is wrong with them, so that all of it can be said at once."""

    problems: list[Problem] = field(default_factory=list)

    def wrong(self, where: str, sentence: str, mend: str) -> None:
        """Note a problem."""
        self.problems.append(Problem(where, sentence, mend))

    def number(self, value: object, where: str, highest: Decimal = LARGEST_WEIGHT) -> Decimal:
        """A number of at least 0, written as a number or as decimal text; 0 stands in for a wrong one."""
        try:
            if isinstance(value, bool) or not isinstance(value, str | int | float):
                raise InvalidOperation
            number = Decimal(str(value))
        except InvalidOperation:
            self.wrong(where, f"“{value}” is not a number.", "Write a decimal number such as 0.05.")
            return Decimal(0)
        if not number.is_finite() or not 0 <= number <= highest:
            bounds = "0 or more" if highest == LARGEST_WEIGHT else f"between 0 and {highest}"
            self.wrong(where, f"{value} is out of range.", f"It must be {bounds}.")
            return Decimal(0)
        return number

    def chance(self, value: object, where: str) -> float:
        """A probability."""
        return float(self.number(value, where, Decimal(1)))

    def index(self, value: object, size: int, where: str) -> int | None:
        """An index below `size`; None if it is not one."""
        if isinstance(value, bool) or not isinstance(value, int) or not 0 <= value < size:
            self.wrong(where, f"“{value}” is not the index of anything.", f"Use a whole number from 0 to {size - 1}.")
            return None
        return value

    def items(self, holder: object, key: str, where: str) -> Sequence[object]:
        """The list under `key`; empty if it is missing or not a list."""
        value = holder.get(key) if isinstance(holder, Mapping) else None
        if not isinstance(value, list):
            self.wrong(where, f"There is no list “{key}”.", f"Add “{key}”: [...].")
            return ()
        return value

    def value(self, holder: object, key: str, where: str) -> object:
        """The value under `key`."""
        if not isinstance(holder, Mapping) or key not in holder:
            self.wrong(where, f"“{key}” is missing.", f"Add “{key}”.")
            return 0
        found: object = holder[key]
        return found


def read_bare_network(data: object) -> BareNetwork:
    """Read either form, alone or under "input"; raises Refused with every problem found."""
    reader = Reader()
    schema = data.get("schema") if isinstance(data, Mapping) else None
    body = data.get("input", data) if isinstance(data, Mapping) else None
    if schema not in (FLAT, GROUPED):
        reader.wrong("schema", f"The schema “{schema}” is not known.", SCHEMAS)
        raise Refused(reader.problems)
    read = _read_flat if schema == FLAT else _read_grouped
    network, questions = read(body, reader)
    if reader.problems:
        raise Refused(reader.problems)
    return BareNetwork(str(schema), network, questions)


def _read_flat(body: object, reader: Reader) -> tuple[NoisyOr, Questions]:
    priors = [
        reader.number(prior, f"priors[{i}]", Decimal(1))
        for i, prior in enumerate(reader.items(body, "priors", "input"))
    ]
    findings = reader.items(body, "findings", "input")
    leaves: list[list[Effect]] = [[] for _ in priors]
    for f, finding in enumerate(findings):
        for k, link in enumerate(reader.items(finding, "links", f"findings[{f}]")):
            where = f"findings[{f}].links[{k}]"
            parent = reader.index(reader.value(link, "h", where), len(priors), where)
            leaf = Leaf(f, reader.chance(reader.value(link, "q", where), where))
            if parent is not None:
                leaves[parent].append(leaf)
    reports, ratios = _flat_evidence(body, len(findings), len(priors), reader)
    hypotheses = tuple(
        Hypothesis((State(float(1 - prior)), State(float(prior * ratios.get(h, Decimal(1))), tuple(leaves[h]))))
        for h, prior in enumerate(priors)
    )
    read = tuple(
        Finding(reader.chance(reader.value(x, "leak", f"findings[{f}]"), f"findings[{f}].leak"), reports.get(f))
        for f, x in enumerate(findings)
    )
    events = tuple(Event(((h, 1),)) for h in range(len(priors)))
    tests = _tests(body, read, reader)
    return NoisyOr(read, hypotheses, events=events), Questions(tests, informing=tuple((t,) for t in tests))


def _flat_evidence(
    body: object, findings: int, hypotheses: int, reader: Reader
) -> tuple[dict[int, Report], dict[int, Decimal]]:
    evidence = reader.value(body, "evidence", "input")
    reports: dict[int, Report] = {}
    for key, report in (("positive", Report.PRESENT), ("negative", Report.ABSENT)):
        for i, value in enumerate(reader.items(evidence, key, "evidence")):
            where = f"evidence.{key}[{i}]"
            finding = reader.index(value, findings, where)
            if finding is not None and reports.setdefault(finding, report) is not report:
                reader.wrong(where, f"Finding {finding} is both positive and negative.", "Keep one of the two.")
    ratios: dict[int, Decimal] = {}
    soft = evidence.get("soft_lr", {}) if isinstance(evidence, Mapping) else {}
    if not isinstance(soft, Mapping):
        reader.wrong("evidence.soft_lr", "This is not a table.", "Write {“hypothesis index”: “ratio”}.")
        soft = {}
    for key, value in soft.items():
        where = f"evidence.soft_lr.{key}"
        number = int(key) if isinstance(key, str) and key.isdecimal() else key
        hypothesis, ratio = reader.index(number, hypotheses, where), reader.number(value, where)
        if hypothesis is not None:
            ratios[hypothesis] = ratio
    return reports, ratios


def _tests(body: object, findings: Sequence[Finding], reader: Reader) -> tuple[int, ...]:
    tests = []
    for i, value in enumerate(reader.items(body, "tests", "input")):
        test = reader.index(value, len(findings), f"tests[{i}]")
        if test is None:
            continue
        if findings[test].report is not None:
            reader.wrong(f"tests[{i}]", f"Finding {test} already has a report.", "Test only findings without one.")
        tests.append(test)
    return tuple(tests)


def _read_grouped(body: object, reader: Reader) -> tuple[NoisyOr, Questions]:
    findings = tuple(
        _finding(x, f"findings[{f}]", reader) for f, x in enumerate(reader.items(body, "findings", "input"))
    )
    hypotheses = tuple(
        Hypothesis(
            tuple(
                _state(state, len(findings), f"hypotheses[{h}].states[{s}]", reader)
                for s, state in enumerate(reader.items(hypothesis, "states", f"hypotheses[{h}]"))
            )
        )
        for h, hypothesis in enumerate(reader.items(body, "hypotheses", "input"))
    )
    documents = tuple(
        _document(x, len(findings), f"documents[{d}]", reader)
        for d, x in enumerate(reader.items(body, "documents", "input"))
    )
    _check_documents(documents, findings, reader)
    events = tuple(
        _event(x, hypotheses, f"events[{e}]", reader) for e, x in enumerate(reader.items(body, "events", "input"))
    )
    complaint = reader.index(reader.value(body, "complaint", "input"), len(findings), "complaint")
    if complaint is not None and findings[complaint].report is not Report.PRESENT:
        reader.wrong("complaint", f"Finding {complaint} is not reported present.", "Name one that is.")
    if any(complaint in document.findings for document in documents):
        reader.wrong("complaint", f"Finding {complaint} stands on a document.", "Name one that stands on none.")
    everybody = tuple(range(len(hypotheses)))
    return NoisyOr(findings, hypotheses, documents, events), Questions(
        tests=_tests(body, findings, reader),
        complaint=() if complaint is None else (complaint,),
        blamed=(*((h,) for h in everybody), everybody),
    )


def _finding(data: object, where: str, reader: Reader) -> Finding:
    leak = reader.chance(reader.value(data, "leak", where), f"{where}.leak")
    report = reader.value(data, "report", where)
    match report:
        case None:
            return Finding(leak)
        case "present":
            return Finding(leak, Report.PRESENT)
        case "absent":
            return Finding(leak, Report.ABSENT)
        case Mapping():
            present = reader.number(reader.value(report, "present", where), f"{where}.report.present")
            absent = reader.number(reader.value(report, "absent", where), f"{where}.report.absent")
            return Finding(leak, Soft(float(present), float(absent)))
    mend = "Write “present”, “absent”, null, or {“present”: w1, “absent”: w0}."
    reader.wrong(f"{where}.report", f"“{report}” is not a report.", mend)
    return Finding(leak)


def _state(data: object, findings: int, where: str, reader: Reader) -> State:
    weight = float(reader.number(reader.value(data, "weight", where), f"{where}.weight"))
    return State(weight, _effects(data, findings, where, reader))


def _effects(data: object, findings: int, where: str, reader: Reader) -> tuple[Effect, ...]:
    if where.count(".effects[") >= DEEPEST:
        reader.wrong(where, f"Groups are nested more than {DEEPEST} deep.", "Put effects on fewer levels.")
        return ()
    read = []
    for i, effect in enumerate(reader.items(data, "effects", where)):
        read.append(_effect(effect, findings, f"{where}.effects[{i}]", reader))
    return tuple(read)


def _effect(data: object, findings: int, where: str, reader: Reader) -> Effect:
    if isinstance(data, Mapping) and "acts" in data:
        return Group(reader.chance(data["acts"], f"{where}.acts"), _effects(data, findings, where, reader))
    finding = reader.index(reader.value(data, "finding", where), findings, f"{where}.finding")
    return Leaf(finding or 0, reader.chance(reader.value(data, "q", where), f"{where}.q"))


def _document(data: object, findings: int, where: str, reader: Reader) -> Document:
    listed = reader.items(data, "findings", where)
    return Document(
        reader.chance(reader.value(data, "reliability", where), f"{where}.reliability"),
        reader.chance(reader.value(data, "normal_if_invented", where), f"{where}.normal_if_invented"),
        tuple(reader.index(f, findings, f"{where}.findings[{i}]") or 0 for i, f in enumerate(listed)),
    )


def _check_documents(documents: Sequence[Document], findings: Sequence[Finding], reader: Reader) -> None:
    seen: set[int] = set()
    if len(documents) > MOST_DOCUMENTS:
        reader.wrong("documents", f"There are more than {MOST_DOCUMENTS} documents.", "Leave some out.")
    for d, document in enumerate(documents):
        for finding in document.findings:
            if not findings or not isinstance(findings[finding].report, Report):
                reader.wrong(
                    f"documents[{d}]", f"Finding {finding} has no hard report.", "Report it present or absent."
                )
            if finding in seen:
                reader.wrong(f"documents[{d}]", f"Finding {finding} stands on two documents.", "Keep it on one.")
            seen.add(finding)


def _event(data: object, hypotheses: Sequence[Hypothesis], where: str, reader: Reader) -> Event:
    pairs = []
    for i, pair in enumerate(reader.items(data, "any_of", where)):
        at = f"{where}.any_of[{i}]"
        if not isinstance(pair, list) or len(pair) != 2:
            reader.wrong(at, f"“{pair}” is not a pair.", "Write [hypothesis, state].")
            continue
        hypothesis = reader.index(pair[0], len(hypotheses), at)
        if hypothesis is not None:
            pairs.append((hypothesis, reader.index(pair[1], len(hypotheses[hypothesis].states), at) or 0))
    return Event(tuple(pairs))
