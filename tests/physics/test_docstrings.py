"""What physics says of itself: units, the errors that are raised, and where it comes from."""

import ast
import builtins
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from diagnostics.physics import errors, typed
from diagnostics.physics.computations import told

FOLDER = Path(errors.__file__).parent
MODULES = sorted(FOLDER.rglob("*.py"))
ERRORS = {
    name
    for module in (errors, typed, told, builtins)
    for name, value in vars(module).items()
    if isinstance(value, type) and issubclass(value, Exception)
}
OURS = ERRORS - set(vars(builtins))
# A unit's symbol or name, or what has none: a share, a ratio, a number of something.
UNIT = re.compile(
    r"(?<![\w°])(K|°C|Pa|kPa|V|A|Ω|J|W|kg|g|m|m²|m³|mm²|mm³|s|h|d|rpm|1/s|%|J/kg|kg/m³|m³/kg|kg/s"
    r"|Pa/s|Pa/K|J/\(kg K\)|m³/s|Pa·m³/s|ohm|volts?|amperes?|amps|watts?|kelvin|pascal|joules?"
    r"|kilograms?|grams?|liters?|seconds?|minutes?|hours?|days?|meters?|millimeters?|degrees"
    r"|SI|units?|[Ss]hares?|ratio|quotient|factor|percent|digits|0 to 1|coefficients?|times|gravity"
    r"|multiple|count|steps?|decimals)(?![\w])"
)
SOURCE = re.compile(
    r"\b(ASHRAE|AHRI|IAPWS|ISO|IEC|ICAO|JCGM|GUM|NIST|SAE|EN \d|IPCC|CIPM|IUPAC|DIN|ASTM|AWG|CFR"
    r"|CoolProp|Helmholtz|Regulation|[Tt]rade|[Hh]andbook|[Cc]ommon practice|[Ff]rom memory"
    r"|[Oo]ur (?:own )?judgement|[Bb]y definition|Ohm|Kirchhoff|Akaike|[a-z]\w+ law|law of"
    r"|[Gg]eometry|arithmetic|(?:18|19|20)\d\d)\b|no source"
)
# Where numbers are read, shown and handed on rather than worked out: no formula, no source.
NO_FORMULA = {"errors", "pressure", "typed", "units", "unit_table", "computations"}
# Modules that put another's formulas together; that one names the source.
WORKS_WITH = {"rise": "rise_curves", "single_phase": "helmholtz"}
# The same in any unit, or a number without one.
ANY_UNIT = {
    "rise_curves:criterion",
    "rise_curves:widened",
    "single_phase:at_pressure",  # enthalpy or entropy, as the State it gives
    "uncertainty:place",
}


@dataclass(frozen=True)
class Told:
    """A public function with what stands around it."""

    place: str
    node: ast.FunctionDef
    of_class: str  # its class's docstring
    of_module: str  # the module's text: sources stand in docstrings or beside the numbers

    @property
    def doc(self) -> str:
        return ast.get_docstring(self.node) or ""

    @property
    def raises(self) -> set[str]:
        return named_in_raises(self.doc)


def named_in_raises(doc: str) -> set[str]:
    section = doc.partition("Raises:\n")[2].split("\n\n")[0]
    return set(re.findall(r"^ {4}(\w+):", section, re.MULTILINE))


def public(node: ast.AST) -> bool:
    return not getattr(node, "name", "_").startswith("_")


def functions() -> Iterator[Told]:
    for path in MODULES:
        tree = ast.parse(path.read_text("utf-8"))
        stem, module = path.relative_to(FOLDER).with_suffix(""), path.read_text("utf-8")
        if path.stem in WORKS_WITH:
            other = WORKS_WITH[path.stem]
            assert f"import diagnostics.physics.{other} " in module.replace("from", "import")
            module += (FOLDER / f"{other}.py").read_text("utf-8")
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and public(node):
                yield Told(f"{stem}:{node.name}", node, "", module)
            if not isinstance(node, ast.ClassDef) or not public(node):
                continue
            doc = ast.get_docstring(node) or ""
            for inner in node.body:
                if isinstance(inner, ast.FunctionDef) and public(inner):
                    yield Told(f"{stem}:{node.name}.{inner.name}", inner, doc, module)


def classes() -> Iterator[tuple[str, ast.ClassDef]]:
    for path in MODULES:
        for node in ast.parse(path.read_text("utf-8")).body:
            if isinstance(node, ast.ClassDef) and public(node):
                yield f"{path.relative_to(FOLDER).with_suffix('')}:{node.name}", node


ALL = list(functions())
CLASSES = list(classes())
each = pytest.mark.parametrize("told", ALL, ids=[one.place for one in ALL])
each_class = pytest.mark.parametrize(
    "node", [node for _place, node in CLASSES], ids=[place for place, _node in CLASSES]
)


def raised_in(node: ast.AST) -> set[str]:
    """Errors of ours raised in so many words in the body, and not in a function inside it."""
    calls = (inner.exc for inner in ast.walk(node) if isinstance(inner, ast.Raise))
    names = (call.func if isinstance(call, ast.Call) else call for call in calls)
    return {name.id for name in names if isinstance(name, ast.Name)} & OURS


def takes_or_gives_numbers(node: ast.FunctionDef) -> bool:
    asked = [one.annotation for one in (*node.args.args, *node.args.kwonlyargs)]
    return any(
        re.search(r"\b(float|Decimal|Measured)\b", ast.unparse(one))
        for one in (*asked, node.returns)
        if one is not None
    )


def names_of(node: ast.FunctionDef) -> str:
    """Words of its own and its arguments' names: `kelvin`, `pressure_ratio` name a unit, too."""
    names = (node.name, *(one.arg for one in (*node.args.args, *node.args.kwonlyargs)))
    return " ".join(names).replace("_", " ")


NUMBERS = [
    one
    for one in ALL
    if takes_or_gives_numbers(one.node)
    and one.place not in ANY_UNIT
    and not one.place.startswith("computations/")  # units are data there: test_catalogue.py
]
FORMULAS = [one for one in NUMBERS if one.place.split(":")[0].split("/")[0] not in NO_FORMULA]


def test_there_is_something_to_look_at():
    assert len(FORMULAS) > 30
    assert "Malformed" in OURS


@each
def test_a_public_function_says_what_it_gives(told):
    assert told.doc


@each_class
def test_a_public_class_says_what_it_is(node):
    assert ast.get_docstring(node)


@each
def test_an_error_named_under_raises_exists(told):
    assert told.raises <= ERRORS


@each_class
def test_an_error_named_under_raises_of_a_class_exists(node):
    assert named_in_raises(ast.get_docstring(node) or "") <= ERRORS


@each
def test_an_error_raised_is_named_under_raises(told):
    assert raised_in(told.node) <= told.raises


@each_class
def test_an_error_raised_while_one_is_made_is_named_by_its_class(node):
    made = [
        inner
        for inner in node.body
        if isinstance(inner, ast.FunctionDef) and inner.name in ("__init__", "__post_init__")
    ]
    doc = ast.get_docstring(node) or ""
    assert set().union(*map(raised_in, made)) <= named_in_raises(doc)


@pytest.mark.parametrize("told", NUMBERS, ids=[one.place for one in NUMBERS])
def test_a_function_of_numbers_names_their_units(told):
    assert UNIT.search(f"{told.doc}\n{told.of_class}\n{names_of(told.node)}")


@pytest.mark.parametrize("told", FORMULAS, ids=[one.place for one in FORMULAS])
def test_a_formula_names_its_source(told):
    assert SOURCE.search(f"{told.doc}\n{told.of_module}")


def test_the_rules_see_what_is_missing():
    bad = ast.parse(
        "def f(x: float) -> float:\n    '''Gives more.'''\n    raise Impossible('no')\n"
    ).body[0]
    assert isinstance(bad, ast.FunctionDef)
    told_ = Told("bad:f", bad, "", "")
    assert takes_or_gives_numbers(bad)
    assert raised_in(bad) == {"Impossible"}
    assert told_.raises == set()
    assert not UNIT.search(told_.doc)
    assert not SOURCE.search(told_.doc)
