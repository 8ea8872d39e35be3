"""Calls of everything public in the core with arguments of every kind: right, odd, and wrong.

A call may answer, or refuse with an error of the core's own tree; whatever else comes out is counted, and a warning
counts as an error. What is answered is then shown, compared and asked for all that it knows.
"""

from __future__ import annotations

import inspect
import warnings
from collections import Counter
from collections.abc import Callable, Iterator
from typing import Any

import numpy as np

import core
from core import CoreError, chart, line, stubs
from core.readable import Readable

SPECIAL = (
    0,
    0.0,
    -0.0,
    1,
    0.5,
    0.25,
    0.125,
    1e-9,
    1e9,
    -1,
    -0.1,
    2,
    3,
    1e-160,
    1e160,
    1e300,
    5e-324,
    10**400,
    True,
)


def itself(thing: Any) -> Any:
    """A function, where numbers are wanted."""
    return thing


NO_NUMBERS: tuple[Any, ...] = (
    None,
    np.nan,
    np.inf,
    -np.inf,
    "",
    "50",
    "fifty",
    b"50",
    {},
    [],
    (),
    object(),
    [1, [2, 3]],
    "short",
    itself,
)
LOADS = (
    60 - 80j,
    50,
    25 + 50j,
    0,
    np.inf,
    50j,
    1e-12,
    75.0,
    complex(np.nan, np.inf),
    -5 + 1j,
    1e9 - 1e9j,
    120 + 30j,
)
NETWORKS = (
    core.single_stub(60 - 80j, 50)[0],
    core.single_stub(np.array([60 - 80j, 50j, 50]), 50)[1],
    core.l_network(200 - 100j, 100, 5e8)[0],
    core.l_network(np.array([[20, 50j], [200, 50]]), 50)[2],
    core.MatchingNetwork(0, 50, ()),
    core.MatchingNetwork(
        np.inf, 50, (core.Section(0.1, 75, 0.1), core.Stub(0.25, 50), core.Reactance(-30.0))
    ),
    core.single_stub(60 - 80j, 50),
)
MODELS = (
    core.SeriesLoad.of(60 - 80j),
    core.ParallelLoad(100.0),
    core.SampledLoad([0.9, 1.1], [40 - 10j, 60 + 10j]),
)
BOARDS = (
    core.Cable(0.66),
    core.Microstrip(4.4, 1.6),
    core.Stripline(2.2, 3.2),
    core.Microstrip(4.4, 1.6, 0, "textbook"),
)
WORDS = (
    "short",
    "open",
    "shunt",
    "series",
    "generator",
    "load",
    "E12",
    "E24",
    "uniform",
    "normal",
    "textbook",
    "exact",
)
ELEMENTS = (
    core.Section(0.1, 50),
    core.Stub(0.1, 50),
    core.Reactance(30.0),
    core.LumpedPart(np.inf, "shunt", 1e6),
    core.LossyPart(40.0, "series", None, 30),
)
DESIGNS: dict[str, tuple[Any, ...]] = {
    name: tuple(
        tuple(next(e for e in ELEMENTS if type(e) is part) for part in parts)
        for parts in getattr(core, name).made_of
    )
    for name in core.__all__
    if getattr(getattr(core, name), "made_of", ())
}
"""Elements of which each design of a name may consist."""
TEXTS = (
    "# MHz S RI R 50\n433 0.5 -0.5\n435 0 -0.25",
    "[Version] 2.0\n# Hz S MA\n[Number of Ports] 1",
    "[Version 2.0\n",
)
SWEEP = 5e6 * np.arange(1, 41)
BACK = 0.4 * np.exp(-4e-9j * np.pi * SWEEP)
LINES = (
    core.usual_cable("RG-58"),
    core.LossyLine(75.0, 0.8, 0.1),
    core.DistributedLine(0.5, 250e-9, 2e-5, 1e-10),
    core.CoaxialLine(0.9, 2.95, 2.25),
    core.strip_line(core.Microstrip(4.4, 1.6, 0.035), 50),
)
PAD = np.array([[0.1, 0.5], [0.5, 0.2j]])
TWO_PORTS = (
    core.TwoPort(SWEEP, np.broadcast_to(PAD, (40, 2, 2))),
    core.line_two_port(LINES[0], 1.0, [1e8, 2e8]),
    core.TwoPort([1e9], [np.eye(2)], (30, 75)),
    core.TwoPort([1e9], [[[0, 1], [1, 0]]]),
)
TWO_PORT_TEXTS = (
    "# MHz S RI R 50\n433 0.1 0 0.2 0 0.3 0 0.4 0",
    "# MHz Z RI\n433 0.1 0 0.2 0",
    "[Version] 2.0\n",
)
COUNTS = (2, 3, 7, 100, 1.5, -1, 0, "3")
HERTZ = (434e6, 868e6, 1.0, 1e-3, 1e12)
KINDS: dict[str, tuple[Any, ...]] = {
    "load_impedance impedance": LOADS,
    "network": NETWORKS,
    "networks": (*NETWORKS, NETWORKS[:1], [NETWORKS[0], NETWORKS[2]]),
    "load": (*MODELS, None),
    "board": BOARDS,
    "errors": (core.Errors(0.005, 0.01, 0.01, 0.05), core.Errors((0.01, 0.0)), core.Errors(), None),
    "placement end toward formulas series distribution": WORDS,
    "source_impedance": (50, 35 + 10j, 75 - 20j, [50, 20j + 5], 0),
    "frequency_ratio": (0.9, 1.1, 2, 0, [0.9, 1.0, 1.1]),
    "theory": ("exact", "small reflections"),
    "sections steps": (1, 2, 5, 0, 2.5),
    "triple_stub.ends": (("short", "short", "short"), ("open", "short", "open"), ("short", "open")),
    "triple_stub.stub_impedances": (None, (50, 75, 100), (50, 75)),
    "spacings": ((0.125, 0.125), (0.25, 0.1), [0.3, [0.1, 0.2]], (0.5,)),
    "quality_factor quality inductor_quality capacitor_quality": (3, 50.0, np.inf, [20, 100], 0),
    "ends": (("short", "open"), ["open", "open"], ("short",), "so"),
    "stub_impedances": ((50, 75), None, [50, [50, 75]], (0, 1)),
    "elements": (ELEMENTS, ELEMENTS[:1], ELEMENTS[:2], 2 * ELEMENTS[:2], 2 * ELEMENTS[3:], (), ELEMENTS[0]),
    "text": TEXTS,
    "trials points seed count": COUNTS,
    "frequency frequency_hz design_frequency_hz design_frequency": HERTZ,
    "circle first second": (chart.RIM, chart.UNIT_CONDUCTANCE_CIRCLE, chart.Circle(0.2 + 0.1j, 0.7)),
    "reflection": (0.5, -0.3j, 1, -1, 1j, 0, 1.2, 1 + 1e-15, 0.6 - 0.8j, BACK),
    "element": ELEMENTS,
    "clockwise open_end_correction": (True, False, "no"),
    "arc_between.start arc_between.end": (0.5, 1j, -0.3),
    "half_wave_difference.first half_wave_difference.second": (0.1, -0.3, np.array([0.2, 0.7]), 12),
    "SampledLoad.frequency_ratio": ([0.9, 1.1], np.array([0.5, 1.0]), [1.1, 0.9]),
    "SampledLoad.impedance": ([50, 60 - 80j], [0, np.inf], 50),
    "line": LINES,
    "two_port port other left right": TWO_PORTS,
    "response": (core.step_response(SWEEP, BACK),),
    "matrix scattering": (np.eye(2)[None] / 2, PAD[None], TWO_PORTS[0].scattering, np.zeros((3, 2, 2))),
    "kind parameter": ("S", "Z", "Y", "H", "G", "ABCD"),
    "name": ("RG-58", "RG-6"),
    "version": ("1.1", "2.0"),
    "form": ("RI", "DB"),
    "unit": ("MHz", "Hz"),
    "comment": ("hut", ""),
    "reference": (50.0, (30.0, 75.0)),
    "length_m": (3.0, 0.1, np.array([0.1, 0.2])),
    "noise": (None, np.ones((2, 5))),
    "limits": ((1e6, 1e9), (0, 1)),
    "db_per_m": (0.1, [0.1, 0.2, 0.3]),
    "velocity velocity_factor loss_tangent thickness_mm": (0.66, 0.01),
    "StriplineLine.board": (BOARDS[2],),
    "MicrostripLine.board": (BOARDS[1], core.Microstrip(4.4, 1.6, 0.035)),
    "OnePort.frequency OnePort.reflection echoes.frequency step_response.frequency": (
        SWEEP,
        SWEEP,
        SWEEP / 1e9,
    ),
    "echoes.reflection step_response.reflection": (BACK, np.zeros(40)),
    "TwoPort.frequency two_port_from.frequency line_two_port.frequency": (SWEEP, [1e9], [1e8, 2e8, 3e8]),
    "fit_attenuation.frequency network_two_port.frequency": ([1e8, 2e8, 3e8], [1e8, 3e8]),
    "parse_two_port.text": TWO_PORT_TEXTS,
    **{f"{name}.elements": elements for name, elements in DESIGNS.items()},
    "MultiSection.count Taper.count": (1, 2, 3),
    "MultiSection.elements Taper.elements": (ELEMENTS[:1], 2 * ELEMENTS[:1], (ELEMENTS[1], ELEMENTS[0])),
}
MODULES = (core, line, chart, stubs)
LEFT_OUT = {"read_touchstone", "read_two_port", "write_touchstone"}  # they ask the disk
LEFT_OUT |= {"round_trip", "wrapped"}  # kernels
KERNELS = {
    "act",
    "factor",
    "heat",
    "impedance_fraction",
    "state",
    "states",
    "input_state",
    "waves",
}  # between elements and evaluator
Call = tuple[str, Callable[..., Any], dict[str, Any]]


def targets() -> list[tuple[str, Callable[..., Any]]]:
    """All public functions and classes, and classes' own ways to make one, by name."""
    found: dict[str, Callable[..., Any]] = {}
    for module in MODULES:
        for name in getattr(module, "__all__", vars(module)):
            thing = getattr(module, name)
            if name[0] == "_" or name in LEFT_OUT or not callable(thing) or _is_an_error(thing):
                continue
            if module is not core and getattr(thing, "__module__", "") != module.__name__:
                continue
            found[name] = thing
            if inspect.isclass(thing):
                found |= {
                    f"{name}.{way}": getattr(thing, way)
                    for way in ("of", "from_components")
                    if hasattr(thing, way)
                }
    return sorted(found.items())


def calls(count: int, seed: int) -> Iterator[Call]:
    """So many calls, each of a target in turn, with arguments drawn by chance."""
    chance, all_targets = np.random.default_rng(seed), targets()
    for number in range(count):
        name, target = all_targets[number % len(all_targets)]
        yield name, target, _arguments(target, chance)


def faults(count: int, seed: int) -> tuple[Counter[str], Counter[str]]:
    """What came out beside answers and refusals, each with how often; and how many calls were answered, by name."""
    wrong: Counter[str] = Counter()
    answered: Counter[str] = Counter()
    chance = np.random.default_rng([seed, 1])
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        for name, target, arguments in calls(count, seed):
            try:
                ask(target(**arguments), chance)
                answered[name] += 1
            except CoreError as refusal:
                if not str(refusal).endswith("."):
                    wrong[f"{name}: {refusal!s} is no sentence"] += 1
            except Exception as fault:  # noqa: BLE001 - whatever it is, it is the finding
                wrong[f"{name}: {type(fault).__name__}: {fault}"[:160] + f" {_shown(arguments)}"] += 1
    return wrong, answered


def ask(answer: Any, chance: np.random.Generator) -> None:
    """Show an answer, compare it with itself, and ask for everything that it knows."""
    repr(answer)
    if isinstance(answer, tuple):
        assert answer == answer
        for one in answer:
            ask(one, chance)
        return
    if not type(answer).__module__.startswith("core"):
        return
    assert answer == answer
    for name, thing in inspect.getmembers(type(answer)):
        if name[0] == "_":
            continue
        if isinstance(thing, property):
            repr(_quietly(getattr, answer, name))
        elif inspect.isfunction(thing) and name not in KERNELS and not hasattr(answer, "act"):
            _quietly(_asked, getattr(answer, name), chance)
    if isinstance(answer, Readable):
        answer._repr_html_()


def _asked(method: Callable[..., Any], chance: np.random.Generator) -> None:
    """A method's answer, to its end where it comes piece by piece."""
    answer = method(**_arguments(method, chance))
    if inspect.isgenerator(answer):
        list(answer)


def _quietly(question: Callable[..., Any], *arguments: Any) -> Any:
    """The answer, or none where the core refuses."""
    try:
        return question(*arguments)
    except CoreError:
        return None


def _arguments(target: Callable[..., Any], chance: np.random.Generator) -> dict[str, Any]:
    drawn = {}
    for name, parameter in inspect.signature(target).parameters.items():
        if parameter.kind in (parameter.VAR_POSITIONAL, parameter.VAR_KEYWORD):
            continue
        if parameter.default is parameter.empty or chance.random() < 0.5:
            drawn[name] = _value(getattr(target, "__name__", ""), name, chance)
    return drawn


def _value(target: str, name: str, chance: np.random.Generator) -> Any:
    """Mostly what the argument is made for; now and then anything."""
    luck = chance.random()
    fitting = _kind(f"{target}.{name}") or _kind(name)
    if luck < 0.12:
        return _one_of(NO_NUMBERS + SPECIAL + LOADS + NETWORKS + WORDS, chance)
    if fitting is not None and not (fitting is LOADS and luck < 0.5):
        return _one_of(fitting, chance)
    if luck < 0.7:
        return float(10 ** chance.uniform(-2, 2)) if luck < 0.55 else float(chance.random() / 2)
    if luck < 0.8:
        return _one_of(SPECIAL, chance)
    shape = _one_of(((3,), (2, 2), (1,), (2, 1), (0,), (2,)), chance)
    reals = 10 ** chance.uniform(-2, 2, shape)
    return reals if luck < 0.9 else reals * chance.choice([0, 1, 1j, 1 - 1j], shape)


def _kind(name: str) -> tuple[Any, ...] | None:
    return next((values for names, values in KINDS.items() if name in names.split()), None)


def _one_of(values: tuple[Any, ...], chance: np.random.Generator) -> Any:
    return values[int(chance.integers(len(values)))]


def _is_an_error(thing: Any) -> bool:
    return inspect.isclass(thing) and issubclass(thing, Exception)


def _shown(arguments: dict[str, Any]) -> str:
    return ", ".join(f"{name}={value!r}"[:70] for name, value in arguments.items())
