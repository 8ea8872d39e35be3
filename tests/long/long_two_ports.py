"""Two-ports, real lines, files and faults on lines in large numbers, against scikit-rf and against what was built.

Each count is a function of how many cases to try, so that the test command can try a few."""

from __future__ import annotations

import numpy as np
import skrf

from core import (
    CoreError,
    DistributedLine,
    MatchingNetwork,
    NotATouchstoneFile,
    RealSection,
    RealStub,
    Section,
    TwoPort,
    find_faults,
    format_touchstone,
    line_two_port,
    network_two_port,
    parse_two_port,
    single_stub,
    step_response,
)
from core.arrays import Array
from core.board import SPEED_OF_LIGHT
from tests.core.two_ports import random_scattering

AGREED = 1e-10
BATCH = 2_000
HERTZ = np.linspace(1e8, 1e9, BATCH)
FREQUENCY = skrf.Frequency.from_f(HERTZ, unit="Hz")
DESIGN = 434e6
KINDS, FORMS, UNITS = ("S", "Z", "Y", "H", "G"), ("RI", "MA", "DB"), ("Hz", "kHz", "MHz", "GHz")
Counts = dict[str, int]


def main() -> Counts:
    """All counts; those named failed, missed or false must be zero."""
    counts: Counts = {}
    for count, cases in ((cascades, 100), (lines, 300), (networks, 2_000), (files, 2_000), (broken, 50_000)):
        counts |= count(cases)
    return counts | faults(500)


def cascades(batches: int) -> Counts:
    """Cascades of three random two-ports, and the middle one got back, for each of many thousand matrices."""
    failed = 0
    for batch in range(batches):
        ports = [TwoPort(HERTZ, random_scattering(3 * batch + n, BATCH)) for n in range(3)]
        a, b, c = (skrf.Network(frequency=FREQUENCY, s=port.scattering, z0=50) for port in ports)
        whole = ports[0] @ ports[1] @ ports[2]
        inner = whole.after(ports[0]).before(ports[2])
        # what little passes the outer ones limits what can be known of the inner one
        passed = np.abs(np.prod([p.scattering[:, 0, 1] * p.scattering[:, 1, 0] for p in ports], axis=0))
        wrong = np.abs(inner.scattering - ports[1].scattering).max(axis=(1, 2)) > AGREED / np.minimum(
            passed, 1
        )
        failed += int(
            np.sum(np.abs((a**b**c).s - whole.scattering).max(axis=(1, 2)) > AGREED) + np.sum(wrong)
        )
    return {"cascades": batches * BATCH, "failed cascades": failed}


def lines(cases: int) -> Counts:
    """Random lines by resistance, inductance, conductance and capacitance of a metre, at many frequencies."""
    failed = 0
    for seed in range(cases):
        rng = np.random.default_rng(seed)
        line, metres = random_line(rng), float(rng.uniform(0, 5))
        medium = skrf.media.DefinedGammaZ0(
            FREQUENCY,
            gamma=line.propagation_constant(HERTZ),
            z0=line.characteristic_impedance(HERTZ),
            z0_port=50,
        )
        ours = line_two_port(line, metres, HERTZ).scattering
        failed += int(np.sum(np.abs(medium.line(metres, "m").s - ours).max(axis=(1, 2)) > AGREED))
    return {"lines": cases * BATCH, "failed lines": failed}


def networks(cases: int) -> Counts:
    """Stub matches, with a piece of real line before and after, as two-ports with their load against the evaluator."""
    failed, tried = 0, 0
    for seed in range(cases):
        rng = np.random.default_rng(seed)
        load = complex(rng.uniform(5, 300), rng.uniform(-200, 200))
        placement, end = str(rng.choice(["shunt", "series"])), str(rng.choice(["short", "open"]))
        cable = random_line(rng)
        for design in single_stub(load, 50, placement=placement, end=end):
            pieces = (
                RealSection(float(rng.uniform(0, 1)), cable, DESIGN),
                RealStub(0.1, cable, DESIGN, placement, end),
            )
            network = MatchingNetwork(load, 50, (*pieces, *design.elements))
            seen = network_two_port(network, HERTZ[::50], DESIGN).input_reflection(load)
            failed += int(np.sum(np.abs(seen - network.input_reflection(HERTZ[::50] / DESIGN)) > AGREED))
            tried += seen.size
    return {"networks": tried, "failed networks": failed}


def files(cases: int) -> Counts:
    """Random two-ports written and read in every version, kind, form and unit."""
    failed = 0
    for seed in range(cases):
        rng = np.random.default_rng(seed)
        version, reference = ("1.1", 75.0) if seed % 2 else ("2.0", tuple(rng.uniform(10, 200, 2)))
        port = TwoPort(np.sort(rng.uniform(1e6, 1e10, 7)), random_scattering(seed, 7), reference)
        words = (str(rng.choice(choices)) for choices in (KINDS, FORMS, UNITS))
        again = parse_two_port(format_touchstone(port, version, *words))
        failed += bool(np.abs(again.scattering - port.scattering).max() > AGREED)
    return {"files": cases, "failed files": failed}


def broken(cases: int) -> Counts:
    """Files with signs lost, doubled and exchanged: read, or refused with the line; nothing else."""
    whole = [
        format_touchstone(TwoPort([1e8, 2e8], random_scattering(3, 2)), version) for version in ("1.1", "2.0")
    ]
    read, failed = 0, 0
    for seed in range(cases):
        rng = np.random.default_rng(seed)
        signs = list(whole[seed % 2])
        for _ in range(rng.integers(1, 8)):
            place = int(rng.integers(len(signs)))
            another = str(rng.choice(list("[]#!\n 0-e.9SZRI\f\u2028")))
            signs[place] = ["", signs[place] * 2, another][rng.integers(3)]
        try:
            parse_two_port("".join(signs))
            read += 1
        except NotATouchstoneFile:
            pass
        except Exception:  # noqa: BLE001 - whatever else comes is what is counted
            failed += 1
    return {"broken files": cases, "of them read": read, "failed on broken files": failed}


def faults(cases: int) -> Counts:
    """Lines of one to three changes of impedance, and what was found of them: all, where they are, and no more."""
    sweep = 2e6 * np.arange(1, 1001)
    missed, false, tried = 0, 0, 0
    for seed in range(cases):
        places, ohms = random_changes(np.random.default_rng(seed))
        pieces = [
            Section(float(metres) * DESIGN / SPEED_OF_LIGHT, float(impedance))
            for metres, impedance in zip(np.diff(places, prepend=0.0), [50.0, *ohms[:-1]], strict=True)
        ]
        network = MatchingNetwork(float(ohms[-1]), 50, tuple(reversed(pieces)))
        try:
            found = find_faults(step_response(sweep, network.input_reflection(sweep / DESIGN)))
        except CoreError:
            missed += len(places)
            continue
        right = sum(
            any(abs(f.distance_m - x) < 0.02 and abs(f.impedance_after / z - 1) < 0.02 for f in found)
            for x, z in zip(places, ohms, strict=True)
        )
        missed, false, tried = missed + len(places) - right, false + len(found) - right, tried + len(places)
    return {"changes of impedance": tried, "missed changes": missed, "false changes": false}


def random_line(rng: np.random.Generator) -> DistributedLine:
    """A line near what can be bought, lossy or not."""
    impedance, velocity = rng.uniform(20, 150), SPEED_OF_LIGHT * rng.uniform(0.5, 1)
    losses = rng.uniform(0, 20), rng.uniform(0, 0.01)
    return DistributedLine(losses[0], impedance / velocity, losses[1], 1 / (impedance * velocity))


def random_changes(rng: np.random.Generator) -> tuple[Array, Array]:
    """Where a line changes, metres, half a metre apart at least; and its ohms after each change, clearly others."""
    count = int(rng.integers(1, 4))
    places = np.cumsum(rng.uniform(0.5, 3.0, count))
    steps = rng.uniform(0.05, 0.4, count) * rng.choice([-1, 1], count)
    return places, 50 * np.cumprod((1 + steps) / (1 - steps))
