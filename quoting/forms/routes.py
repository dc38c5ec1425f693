"""The ways a garland goes: straight, hanging in swags, or up one side and across. Lengths in cm."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal

from quoting.forms.drafts import HEADINGS, Draft
from quoting.forms.legged_arch import differ
from quoting.geometry.chains import chain_length, chain_sag
from quoting.geometry.curves import CurvePoint
from quoting.geometry.paths import Path, hanging, joined, straight


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A garland's middle line. `path` has its lowest point at the height 0, its middle over x = 0.

    `fixes` tells what is worked out: "length" or, of a hanging garland, "sag".
    `spans` and `sags` are those of its swags, () where it hangs in none; `words` say
    the route to the client. `width_cm` and `height_cm` are those of "up and across".
    """

    name: str
    path: Path
    words: str
    fixes: str = "length"
    spans: tuple[float, ...] = ()
    sags: tuple[float, ...] = ()
    width_cm: float = 0.0
    height_cm: float = 0.0

    @property
    def stands(self) -> bool:
        """True where it begins on the floor."""
        return self.name == "up and across"

    def longest_key(self, draft: Draft) -> str:
        """Give the field that says how long it is, for a problem about its length."""
        keys = ("length", "segments", "width", "height")
        return next((key for key in keys if draft.is_filled(key)), "length")

    def lifted(self, by_cm: float) -> Callable[[float], CurvePoint]:
        """Give a function from a share of the length to the point there, the whole line so much higher."""
        follow = self.path.follow

        def follow_higher(share: float) -> CurvePoint:
            x, y, direction = follow(share)
            return x, y + by_cm, direction

        return follow_higher


def read_route(draft: Draft) -> Route | None:
    """Read the route with its lengths; reports at the cells that are missing or contradict each other."""
    name = draft.text("route")
    route = {"straight": _straight, "swag": _swag, "draped": _draped, "up and across": _up_and_across}[name](draft)
    unused = {"straight": ("width", "height", "sag", "segments"), "swag": ("height", "segments"),
              "draped": ("height",), "up and across": ("sag", "segments")}[name]
    draft.say_unused(f"when it goes {name}", *unused)
    return route


def _needs(draft: Draft, key: str, route: str, example: str) -> float | None:
    value = draft.decimal(key)
    if value is None:
        draft.complain("P561", key, route=route, needs=f"its {HEADINGS[key].lower()}", example=example)
        return None
    return float(value)


def _straight(draft: Draft) -> Route | None:
    length = _needs(draft, "length", "straight", "10 ft or 3 m")
    if length is None:
        return None
    path = straight((-length / 2, 0.0), (length / 2, 0.0))
    return Route(name="straight", path=path, words=f"straight, {draft.long(length)} long", fixes="")


def _swag(draft: Draft) -> Route | None:
    width = _needs(draft, "width", "in a swag", "10 ft or 3 m")
    return None if width is None else _hung(draft, "swag", (width,))


def _draped(draft: Draft) -> Route | None:
    spans = tuple(float(span) for span in draft.items("segments") if isinstance(span, Decimal))
    if not spans:
        draft.complain("P561", "segments", route="draped", needs="its segments", example="4 ft, 4 ft, 3 ft")
        return None
    width = draft.decimal("width")
    if width is not None and differ(float(width), sum(spans)):
        draft.complain("P539", "width", heading=HEADINGS["width"], typed=draft.long(width),
                       rule=f"the segments come to {draft.long(sum(spans))}")
        return None
    return _hung(draft, "draped", spans)


def _hung(draft: Draft, name: str, spans: tuple[float, ...]) -> Route | None:
    """Hang the garland over its spans: all by one sag, or, by its length, all in one shape."""
    typed_length, sag, whole = draft.decimal("length"), draft.decimal("sag"), sum(spans)
    if sag is None and typed_length is None:
        draft.complain("P561", "length", route=name, needs="its length or its sag", example="12 ft, or a sag of 2 ft")
        return None
    if sag is not None:
        sags = (float(sag),) * len(spans)
        length = sum(chain_length(span, float(sag)) for span in spans)
        if typed_length is not None and differ(float(typed_length), length):
            draft.complain("P539", "length", heading=HEADINGS["length"], typed=draft.long(typed_length),
                           rule=f"{draft.long(whole)} with a sag of {draft.long(sag)} takes {draft.long(length)}")
            return None
    else:
        length = float(typed_length or 0)
        if length < whole:
            draft.complain("P560", "length", length=draft.long(length), width=draft.long(whole))
            return None
        sags = tuple(chain_sag(span, span * length / whole) for span in spans)
    return _hanging_route(draft, name, spans, sags, "length" if sag is not None else "sag")


def _hanging_route(
    draft: Draft, name: str, spans: tuple[float, ...], sags: tuple[float, ...], fixes: str
) -> Route:
    left, top = -sum(spans) / 2, max(sags)
    paths = []
    for span, sag in zip(spans, sags, strict=True):
        paths.append(hanging((left, top), span, sag))
        left += span
    path = joined(paths)
    how = "a swag" if name == "swag" else f"draped in {len(spans)}"
    words = f"{how}, {draft.long(sum(spans))} wide with a sag of {draft.long(top)}, {draft.long(path.length)} long"
    return Route(name=name, path=path, words=words, fixes=fixes, spans=spans, sags=sags)


def _up_and_across(draft: Draft) -> Route | None:
    height = _needs(draft, "height", "up and across", "7 ft or 2.1 m")
    width = _needs(draft, "width", "up and across", "6 ft or 1.8 m")
    if height is None or width is None:
        return None
    length = draft.decimal("length")
    if length is not None and differ(float(length), height + width):
        draft.complain("P539", "length", heading=HEADINGS["length"], typed=draft.long(length),
                       rule=f"{draft.long(height)} up and {draft.long(width)} across"
                            f" come to {draft.long(height + width)}")
        return None
    foot, corner, end = (-width / 2, 0.0), (-width / 2, height), (width / 2, height)
    words = f"{draft.long(height)} up and {draft.long(width)} across"
    return Route(name="up and across", path=joined((straight(foot, corner), straight(corner, end))), words=words,
                 width_cm=width, height_cm=height)
