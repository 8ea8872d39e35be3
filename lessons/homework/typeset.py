"""Brings a line as it was typeset, or copied from a page, into the plain signs that the reader knows.

    $d_{1} = 0.110\\,\\lambda$        d_1 = 0.110 λ
    \\frac{60 - j80}{50}            ((60 - j80)/(50))
    2.94 × 10⁻² S                  2.94e-2 S

What is changed is writing alone: every digit stays.
"""

from __future__ import annotations

import re
import unicodedata

MOST_NESTED = 8  # fractions within fractions; nobody writes more
_INVISIBLE = re.compile("[\u00ad\u200b-\u200f\u2060-\u2064\ufeff\ufe00-\ufe0f\u0300-\u036f]")
_STYLED = re.compile(
    "[\U0001d400-\U0001d7ff\ufb00-\ufb06\uff01-\uff5e\u2100-\u214f]"
)  # letters in another shape, ligatures
_SIGNS = str.maketrans(
    dict.fromkeys("−–—‒﹣－", "-")
    | dict.fromkeys("◦∘º˚", "°")
    | dict.fromkeys("≃≅≐∼≊", "≈")
    | dict.fromkeys("⋅·∙×✕∗", "*")
    | dict.fromkeys("⁄∕÷", "/")
    | dict.fromkeys(
        "\t\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f", " "
    )
    | {"∟": "∠", "ȷ": "j", "ı": "i", "″": "′′", "’": "'", "‘": "'", "´": "'"}
)
_LETTERS = {
    "lambda": "λ", "Gamma": "Γ", "gamma": "γ", "rho": "ρ", "beta": "β", "theta": "θ", "pi": "π", "Omega": "Ω",
    "omega": "ω", "ell": "l", "jmath": "j", "imath": "i", "infty": "∞", "angle": "∠", "circ": "°", "degree": "°",
    "pm": "±", "mp": "∓", "cdot": "*", "times": "*", "div": "/", "approx": "≈", "simeq": "≈", "cong": "≈", "sim": "≈",
    "to": "→", "rightarrow": "→", "Rightarrow": "⇒", "implies": "⇒", "Longrightarrow": "⇒", "prime": "'",
    "quad": " ", "qquad": " ", "exp": "exp", "lvert": "|", "rvert": "|", "vert": "|", "mid": "|",
}  # fmt: skip
_COMMAND = re.compile(r"\\([A-Za-z]+)")
_SPACING = re.compile(
    r"\\[,;:!> ]|\\(?:left|right|bigl?|bigr?|Bigl?|Bigr?)(?![A-Za-z])\.?|\\[()\[\]]|\$|(?<!\s)~|~(?!\s)"
)
_ENVIRONMENT = re.compile(r"\\(?:begin|end)\s*\{[a-z]*\*?\}(?:\{[lcr|]*\})?")
_DRESSED = re.compile(
    r"\\(?:mathrm|mathit|mathbf|mathsf|text|textrm|textit|textbf|operatorname|bar|hat|tilde|vec|underline|overline|"
    r"boxed|underbrace|mbox|rm|ensuremath)\s*\{([^{}]*)\}"
)
_FRACTION = re.compile(r"\\[dt]?frac\s*\{([^{}]*)\}\s*\{([^{}]*)\}")
_UNIT = re.compile(r"\\(?:SI|qty)\s*\{([^{}]*)\}\s*\{([^{}]*)\}")
_BESIDE = re.compile(r"_\s*\{([^{}]*)\}")
_POWER = re.compile(r"\^\s*\{([^{}]*)\}")
_COMMA_BRACE = re.compile(r"(?<=\d)\{,\}(?=\d)")
_DEGREES = re.compile(r"\^\s*(?:\(\s*°\s*\)|°)")
_TEN = re.compile(r"(?<=[\d.])\s*[*x]\s*10\s*(?:\^\s*\(?\s*([+-]?\d{1,3})\s*\)?|([⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+))")
_RAISED = str.maketrans("⁺⁻⁰¹²³⁴⁵⁶⁷⁸⁹", "+-0123456789")
_PRIME = re.compile(r"\^\s*\(?\s*('+|′+)\s*\)?(?=\s|$|[=:≈_])")
_ELL = re.compile(r"(?<![A-Za-z])ell(?![A-Za-z])")
_FOLLOWS = re.compile(r"(?:=>|⇒|⟹)(?=[^=:≈]{0,200}[=:≈])")
_AT_ANGLE = re.compile(
    r"\s+at(?:\s+an)?(?:\s+angle)?(?:\s+of)?\s+(?=[-+]?[\d.,]+\s*(?:°|deg|rad))", re.IGNORECASE
)
_ANGLE_SPELLED = re.compile(r"(?<=[\d)])\s+angle\s+(?=[-+]?[\d.])", re.IGNORECASE)
_ANGLE_BESIDE = re.compile(  # Γ = 0.593, -46.8°: of a reflection a size and an angle
    r"^((?:Γ|gamma|ρ|rho)[^=,|]{0,20}=\s*[\d.]+)\s*,\s*(?=[-+]?[\d.]+\s*(?:°|deg|rad))", re.IGNORECASE
)
_UNDERLINED = re.compile(r"(?<=[\d)])\s*/_+\s*(?=[-+]?[\d.])")  # 0.593/_-46.8: an angle, as it is typed
_ABOUT = re.compile(r"\s~\s")


def plain(line: str) -> str:
    """A line in plain signs: what is invisible left out, letters of other shapes and commands of a typesetter put into
    the letters that they stand for."""
    text = _INVISIBLE.sub("", line) if not line.isascii() else line
    text = _STYLED.sub(lambda found: unicodedata.normalize("NFKC", found[0]), text).translate(_SIGNS)
    text = re.sub(r"\s{2,}", " ", text)
    if "\\" in text or "$" in text or "{" in text:
        text = _untypeset(text)
    text = _FOLLOWS.sub(" ; ", _ABOUT.sub(" ≈ ", text)).replace("=>", "⇒")
    text = _TEN.sub(lambda found: f"e{(found[1] or found[2]).translate(_RAISED)}", text)
    text = _ANGLE_SPELLED.sub(" ∠ ", _UNDERLINED.sub(" ∠ ", text))
    text = _ANGLE_BESIDE.sub(r"\1 ∠ ", text)
    return _AT_ANGLE.sub(" ∠ ", _ELL.sub("l", _PRIME.sub(lambda found: found[1], text))).strip()


def _untypeset(text: str) -> str:
    """A line without the commands of a typesetter."""
    text = _COMMA_BRACE.sub(",", _ENVIRONMENT.sub("", text.replace("\\\\", " ; ")))
    text = _SPACING.sub(" ", text).replace("&", " ")
    for _ in range(MOST_NESTED):
        before = text
        text = _DRESSED.sub(r"\1", text)
        text = _FRACTION.sub(r"((\1)/(\2))", _UNIT.sub(r"\1 \2", text))
        text = _POWER.sub(r"^(\1)", _BESIDE.sub(_subscript, text))
        if text == before:
            break
    text = _COMMAND.sub(lambda found: _LETTERS.get(found[1], f" {found[1]} "), text)
    return _DEGREES.sub("°", text.replace("{", "").replace("}", ""))


def _subscript(found: re.Match[str]) -> str:
    """`{s,near}` as _s_near and `{1,2}` as _12: no comma in a name is one between two statements."""
    inner = found[1].strip()
    return "_" + re.sub(r"\s*,\s*(?=\d)", "", re.sub(r"\s*,\s*(?=\D)|\s+", "_", inner))
