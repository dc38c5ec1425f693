"""What colour words look like in pictures: everyday words of the trade, then an open standard's named colours."""

from __future__ import annotations

import zlib

RGB = tuple[int, int, int]
"""Red, green, blue, each 0 to 255."""

# Names without spaces; how balloons of these names commonly look, judged by eye: common practice, no source.
_EVERYDAY = {
    "ivory": 0xF7F0DC, "cream": 0xF6EBCF, "vanilla": 0xF4E7BE, "champagne": 0xEBD8B7, "nude": 0xE3BFA6,
    "sand": 0xDCC8A4, "stone": 0xBEB6A8, "taupe": 0xA6948A, "mocha": 0x8F6B56, "coffee": 0x6B4A3A, "cocoa": 0x6F4E37,
    "caramel": 0xBD8449, "camel": 0xC19A6B, "cinnamon": 0xA8623A, "rust": 0xAE5730, "terracotta": 0xC66F50,
    "clay": 0xB9785E, "brick": 0x9C4434, "copper": 0xBC7243, "bronze": 0x8E6B3D, "rosegold": 0xD79C8E,
    "mustard": 0xD4A02E, "lemon": 0xF8E45C, "butter": 0xF8E9A6, "apricot": 0xF6B98C, "peach": 0xF8C3A2,
    "blush": 0xF1CBC3, "rose": 0xDC7F8F, "dustyrose": 0xCB9490, "dustypink": 0xD5A2A0, "mauve": 0xB48DA4,
    "lilac": 0xC6A6D8, "wisteria": 0xAE9BCF, "aubergine": 0x4F2C47, "wine": 0x6B2237, "burgundy": 0x751F35,
    "berry": 0x97305A, "raspberry": 0xC22F5E, "cherry": 0xB81F33, "ruby": 0xA61C3C, "red": 0xD22730,
    "scarlet": 0xD8301F, "sage": 0xA7B598, "eucalyptus": 0x88A596, "mint": 0xA9DDC3, "pistachio": 0xB9CF94,
    "moss": 0x79834B, "forest": 0x2F5440, "emerald": 0x1F8A5B, "bottlegreen": 0x1E4D3A, "green": 0x2F9150,
    "duckegg": 0xBCD9D5, "seaglass": 0xA8D3C5, "powderblue": 0xB3CFE4, "babyblue": 0xA9CDEB, "babypink": 0xF7C6D2,
    "dustyblue": 0x8FA9BF, "denim": 0x4B6A8E, "petrol": 0x1F5B6B, "ink": 0x26324B, "midnight": 0x1E2547,
    "navy": 0x1F2C56, "blue": 0x2457B8, "royalblue": 0x2A4FB0, "purple": 0x6A358F, "charcoal": 0x40464C,
    "slate": 0x6E7F8D, "graphite": 0x4B5054, "smoke": 0x9A9FA3, "silver": 0xC2C6CA, "gold": 0xD9AE4A,
    "pewter": 0x8D9196, "pearl": 0xEFEAE2, "black": 0x1D1D20, "white": 0xFDFDFB, "yellow": 0xF6D32B,
    "orange": 0xF0872A, "pink": 0xF2A0B9, "fuchsia": 0xD63384, "magenta": 0xCF2B86, "lime": 0xA7D13E,
    "brown": 0x70482F, "transparent": 0xE9F1F4, "clear": 0xE9F1F4, "olive": 0x7C7C3E, "aqua": 0x56C3CB,
    "violet": 0x7E57B5, "lavender": 0xC9BCE3, "teal": 0x1F7F83, "chocolate": 0x5E3A28, "plum": 0x7A3B68,
    "natural": 0xEADBC0, "oat": 0xE6DAC3, "honey": 0xDDA34A, "walnut": 0x6A4A36, "fern": 0x5C8A52, "storm": 0x6C7580,
    "ecru": 0xE2D4BA, "sky": 0xA9D3EE, "mist": 0xC4CCCE, "fog": 0xBFC3C4, "pebble": 0xB0A99F, "almond": 0xEAD9C2,
    "butterscotch": 0xDFA04E, "marigold": 0xEFA62C, "saffron": 0xEBAA31, "sunflower": 0xF4C430, "tangerine": 0xF2873A,
    "pumpkin": 0xD9742B, "watermelon": 0xEE6A72, "flamingo": 0xF08C9B, "bubblegum": 0xF7A3C2, "amethyst": 0x8C62A8,
    "grape": 0x5E3770, "heather": 0xA893B5, "cornflower": 0x7794D6, "cobalt": 0x2C52A0, "jade": 0x4DA883,
    "pine": 0x2B5A49, "spruce": 0x3A6156, "avocado": 0x7F8B45, "cranberry": 0x9A2740, "claret": 0x7B2038,
    "bordeaux": 0x6E1F33, "ochre": 0xC68A36, "amber": 0xE3A233, "toffee": 0xA86F3E, "hazelnut": 0xA47A56,
    "chestnut": 0x7F4A32, "espresso": 0x4A342B, "onyx": 0x232427, "ebony": 0x2C2A29, "ash": 0xB4B2AC,
    "platinum": 0xD5D5D2, "opal": 0xD9E3DF, "hotpink": 0xF0489B, "nudepink": 0xE8C2B4, "iceblue": 0xCFE3EC,
    "ocean": 0x3E7CA6,
}

# Named colours of the CSS Color Module Level 4 (W3C), written from memory.
_STANDARD = {
    "aliceblue": 0xF0F8FF, "antiquewhite": 0xFAEBD7, "aqua": 0x00FFFF, "aquamarine": 0x7FFFD4, "azure": 0xF0FFFF,
    "beige": 0xF5F5DC, "bisque": 0xFFE4C4, "black": 0x000000, "blanchedalmond": 0xFFEBCD, "blue": 0x0000FF,
    "blueviolet": 0x8A2BE2, "brown": 0xA52A2A, "burlywood": 0xDEB887, "cadetblue": 0x5F9EA0, "chartreuse": 0x7FFF00,
    "chocolate": 0xD2691E, "coral": 0xFF7F50, "cornflowerblue": 0x6495ED, "cornsilk": 0xFFF8DC, "crimson": 0xDC143C,
    "cyan": 0x00FFFF, "darkblue": 0x00008B, "darkcyan": 0x008B8B, "darkgoldenrod": 0xB8860B, "darkgray": 0xA9A9A9,
    "darkgreen": 0x006400, "darkgrey": 0xA9A9A9, "darkkhaki": 0xBDB76B, "darkmagenta": 0x8B008B,
    "darkolivegreen": 0x556B2F, "darkorange": 0xFF8C00, "darkorchid": 0x9932CC, "darkred": 0x8B0000,
    "darksalmon": 0xE9967A, "darkseagreen": 0x8FBC8F, "darkslateblue": 0x483D8B, "darkslategray": 0x2F4F4F,
    "darkslategrey": 0x2F4F4F, "darkturquoise": 0x00CED1, "darkviolet": 0x9400D3, "deeppink": 0xFF1493,
    "deepskyblue": 0x00BFFF, "dimgray": 0x696969, "dimgrey": 0x696969, "dodgerblue": 0x1E90FF, "firebrick": 0xB22222,
    "floralwhite": 0xFFFAF0, "forestgreen": 0x228B22, "fuchsia": 0xFF00FF, "gainsboro": 0xDCDCDC,
    "ghostwhite": 0xF8F8FF, "gold": 0xFFD700, "goldenrod": 0xDAA520, "gray": 0x808080, "green": 0x008000,
    "greenyellow": 0xADFF2F, "grey": 0x808080, "honeydew": 0xF0FFF0, "hotpink": 0xFF69B4, "indianred": 0xCD5C5C,
    "indigo": 0x4B0082, "ivory": 0xFFFFF0, "khaki": 0xF0E68C, "lavender": 0xE6E6FA, "lavenderblush": 0xFFF0F5,
    "lawngreen": 0x7CFC00, "lemonchiffon": 0xFFFACD, "lightblue": 0xADD8E6, "lightcoral": 0xF08080,
    "lightcyan": 0xE0FFFF, "lightgoldenrodyellow": 0xFAFAD2, "lightgray": 0xD3D3D3, "lightgreen": 0x90EE90,
    "lightgrey": 0xD3D3D3, "lightpink": 0xFFB6C1, "lightsalmon": 0xFFA07A, "lightseagreen": 0x20B2AA,
    "lightskyblue": 0x87CEFA, "lightslategray": 0x778899, "lightslategrey": 0x778899, "lightsteelblue": 0xB0C4DE,
    "lightyellow": 0xFFFFE0, "lime": 0x00FF00, "limegreen": 0x32CD32, "linen": 0xFAF0E6, "magenta": 0xFF00FF,
    "maroon": 0x800000, "mediumaquamarine": 0x66CDAA, "mediumblue": 0x0000CD, "mediumorchid": 0xBA55D3,
    "mediumpurple": 0x9370DB, "mediumseagreen": 0x3CB371, "mediumslateblue": 0x7B68EE, "mediumspringgreen": 0x00FA9A,
    "mediumturquoise": 0x48D1CC, "mediumvioletred": 0xC71585, "midnightblue": 0x191970, "mintcream": 0xF5FFFA,
    "mistyrose": 0xFFE4E1, "moccasin": 0xFFE4B5, "navajowhite": 0xFFDEAD, "navy": 0x000080, "oldlace": 0xFDF5E6,
    "olive": 0x808000, "olivedrab": 0x6B8E23, "orange": 0xFFA500, "orangered": 0xFF4500, "orchid": 0xDA70D6,
    "palegoldenrod": 0xEEE8AA, "palegreen": 0x98FB98, "paleturquoise": 0xAFEEEE, "palevioletred": 0xDB7093,
    "papayawhip": 0xFFEFD5, "peachpuff": 0xFFDAB9, "peru": 0xCD853F, "pink": 0xFFC0CB, "plum": 0xDDA0DD,
    "powderblue": 0xB0E0E6, "purple": 0x800080, "rebeccapurple": 0x663399, "red": 0xFF0000, "rosybrown": 0xBC8F8F,
    "royalblue": 0x4169E1, "saddlebrown": 0x8B4513, "salmon": 0xFA8072, "sandybrown": 0xF4A460, "seagreen": 0x2E8B57,
    "seashell": 0xFFF5EE, "sienna": 0xA0522D, "silver": 0xC0C0C0, "skyblue": 0x87CEEB, "slateblue": 0x6A5ACD,
    "slategray": 0x708090, "slategrey": 0x708090, "snow": 0xFFFAFA, "springgreen": 0x00FF7F, "steelblue": 0x4682B4,
    "tan": 0xD2B48C, "teal": 0x008080, "thistle": 0xD8BFD8, "tomato": 0xFF6347, "turquoise": 0x40E0D0,
    "violet": 0xEE82EE, "wheat": 0xF5DEB3, "white": 0xFFFFFF, "whitesmoke": 0xF5F5F5, "yellow": 0xFFFF00,
    "yellowgreen": 0x9ACD32,
}

_NEUTRALS = (0xB9B4AC, 0xA5A8AB, 0xC6C2B8, 0x98958F, 0xAEB3AE)

_SHADES = {
    "light": (0xFFFFFF, 0.45), "pale": (0xFFFFFF, 0.5), "soft": (0xFFFFFF, 0.3), "pastel": (0xFFFFFF, 0.5),
    "baby": (0xFFFFFF, 0.5), "powder": (0xFFFFFF, 0.5), "dark": (0x000000, 0.4), "deep": (0x000000, 0.3),
    "dusty": (0xA8A29C, 0.4), "muted": (0xA8A29C, 0.4), "antique": (0xB9A58B, 0.35), "warm": (0xE0A060, 0.15),
    "cool": (0x7090C0, 0.15), "hot": (0xFF0060, 0.35), "burnt": (0x7A3A10, 0.35),
}
"""A word before a colour → what it is mixed with, and how much of that."""


def colour_rgb(words: str) -> RGB:
    """Give how a colour of this name is drawn.

    "#8FA9BF" stands for itself; then whole names are looked up ("dusty rose"), then a
    colour with a word before it ("pale sage"), then any word that is a colour, the
    last first ("garden green"). Unknown words give a grey that is always the same for
    the same words.
    """
    name = _plain(words)
    if _is_number(name):
        return _split(int(name[1:], 16))
    parts = name.split()
    for first in range(len(parts)):
        known = _named(" ".join(parts[first:]))
        if known is not None:
            return _shaded(known, parts[:first])
    return next((rgb for rgb in map(_named, reversed(parts)) if rgb is not None), _neutral(name))


def is_known_colour(words: str) -> bool:
    """Tell whether `colour_rgb` understands a colour, and does not give a grey for it."""
    name = _plain(words)
    parts = name.split()
    starts = [" ".join(parts[first:]) for first in range(len(parts))]
    return _is_number(name) or any(_named(each) is not None for each in (*starts, *parts))


def _plain(words: str) -> str:
    return " ".join(words.casefold().replace("-", " ").split())


def _is_number(name: str) -> bool:
    return len(name) == 7 and name[0] == "#" and all(sign in "0123456789abcdef" for sign in name[1:])


def mixed(first: RGB, second: RGB, share: float) -> RGB:
    """Give `first` with a share (0 to 1) of `second` in it."""
    red, green, blue = (round(a + (b - a) * share) for a, b in zip(first, second, strict=True))
    return red, green, blue


def lightness(rgb: RGB) -> float:
    """Give how light a colour looks on a grey printer: 0 black to 1 white (weights of ITU-R BT.601)."""
    red, green, blue = rgb
    return (0.299 * red + 0.587 * green + 0.114 * blue) / 255


def _named(name: str) -> RGB | None:
    joined = name.replace(" ", "")
    found = _EVERYDAY.get(joined, _STANDARD.get(joined))
    return None if found is None else _split(found)


def _shaded(rgb: RGB, before: list[str]) -> RGB:
    for word in reversed(before):
        if word in _SHADES:
            other, share = _SHADES[word]
            rgb = mixed(rgb, _split(other), share)
    return rgb


def _neutral(name: str) -> RGB:
    return _split(_NEUTRALS[zlib.crc32(name.encode()) % len(_NEUTRALS)])


def _split(number: int) -> RGB:
    return number >> 16, number >> 8 & 255, number & 255
