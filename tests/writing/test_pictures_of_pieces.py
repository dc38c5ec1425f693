"""Pictures: every balloon drawn once, to scale, told apart in colour and in grey, small and soon drawn."""

from __future__ import annotations

import io
import time
from dataclasses import replace

import drawn_plans
import pytest
from drawn_plans import HAND_MADE, LOOKS, ball, outline, plan_of
from PIL import Image

from quoting.domain.drawings import Plate, Stroke
from quoting.domain.plans import Part
from quoting.writing.contact_sheet import contact_sheet
from quoting.writing.pictures.elevation import _drawn, draw_piece, has_picture, picture_size
from quoting.writing.pictures.scene import balloons_drawn
from quoting.writing.pictures.words import alternative_text

MOST_BYTES = 120_000


def image_of(plan, **more):
    return Image.open(io.BytesIO(draw_piece(plan, LOOKS, unit=more.pop("unit", "cm"), **more))).convert("RGB")


def counted(plan):
    return sum(part.count for part in plan.parts if part.fill_cm is not None)


def near(pixel, rgb, slack=28):
    return all(abs(a - b) <= slack for a, b in zip(pixel, rgb, strict=True))


def pixels_of(image):
    data = image.tobytes()
    return list(zip(data[::3], data[1::3], data[2::3], strict=True))


def share_of(image, rgb, slack=28):
    pixels = pixels_of(image)
    return sum(near(pixel, rgb, slack) for pixel in pixels) / len(pixels)


def tinted(image):
    """Pixels that are neither paper nor grey ink: those of coloured balloons."""
    return [(n % image.width, n // image.width) for n, p in enumerate(pixels_of(image)) if max(p) - min(p) > 40]


@pytest.mark.parametrize("name", HAND_MADE)
def test_balloons_drawn_and_hidden_are_the_balloons_counted(name):
    plan = HAND_MADE[name]()
    assert balloons_drawn(plan) + plan.hidden == counted(plan)


def test_a_long_balloon_is_drawn_as_one_though_it_goes_behind_a_pole():
    path = tuple((0.0, 10.0 * n, (5.0, 0.0, -5.0, 0.0)[n % 4]) for n in range(13))
    position = replace(ball("Sage", 0.0, 60.0, diameter=5.0), path=path)
    assert balloons_drawn(plan_of([position])) == 1


@pytest.mark.parametrize("is_large", [False, True])
@pytest.mark.parametrize("name", HAND_MADE)
def test_a_picture_is_small_in_bytes_and_within_its_format(name, is_large):
    plan = HAND_MADE[name]()
    png = draw_piece(plan, LOOKS, title=name, unit="in", larger=is_large, numbered_layers=is_large)
    assert len(png) < MOST_BYTES
    width, height = Image.open(io.BytesIO(png)).size
    assert 200 <= width <= (1100 if is_large else 640)
    assert 200 <= height <= (820 if is_large else 400)


@pytest.mark.parametrize("height", [400, 330, 270, 230, 200])
@pytest.mark.parametrize("name", HAND_MADE)
def test_the_size_is_known_before_a_picture_is_drawn(name, height):
    plan = HAND_MADE[name]()
    drawn = Image.open(io.BytesIO(draw_piece(plan, LOOKS, unit="in", height=height)))
    assert drawn.size == picture_size(plan, LOOKS, unit="in", height=height)
    assert drawn.size[1] <= height


def test_two_runs_give_the_same_bytes():
    first = draw_piece(drawn_plans.garland(), LOOKS, unit="cm")
    _drawn.cache_clear()
    assert draw_piece(drawn_plans.garland(), LOOKS, unit="cm") == first


def test_an_equal_piece_is_not_drawn_again():
    _drawn.cache_clear()
    draw_piece(drawn_plans.wall(), LOOKS, unit="cm")
    draw_piece(replace(drawn_plans.wall(), form="another name"), LOOKS, unit="cm")
    assert (_drawn.cache_info().misses, _drawn.cache_info().hits) == (1, 1)


def test_pictures_are_drawn_soon():
    """25 ms on average is the aim (both sizes, once colours are mixed); four times that here, for busy machines."""
    plans = [make() for make in HAND_MADE.values()]
    for is_large in (False, True):
        for plan in plans:
            draw_piece(plan, LOOKS, unit="cm", larger=is_large)
    _drawn.cache_clear()
    began = time.process_time()
    for is_large in (False, True):
        for plan in plans:
            draw_piece(plan, LOOKS, unit="cm", larger=is_large)
    assert (time.process_time() - began) / (2 * len(plans)) < 0.1


@pytest.mark.parametrize("item", ["Sage", "Burgundy"])
def test_every_colour_of_a_piece_is_seen(item):
    plan = plan_of([ball("Ivory", 0.0, 60.0, diameter=50.0), ball(item, 60.0, 60.0, diameter=50.0)])
    without = plan_of([ball("Ivory", 0.0, 60.0, diameter=50.0)])
    assert share_of(image_of(plan), LOOKS[item].rgb) > 0.02
    assert share_of(image_of(without), LOOKS[item].rgb) < 0.005


def test_balloons_are_to_scale_with_each_other_and_with_the_width_of_the_piece():
    """Two balloons of 20 and 60 cm whose outsides are 300 cm apart: pixels must stand in these proportions."""
    plan = plan_of([ball("Burgundy", -140.0, 130.0, diameter=20.0), ball("Burgundy", 120.0, 130.0, diameter=60.0)])
    image = image_of(plan, larger=True)
    top = image.crop((0, 0, image.width, image.height // 2))
    xs = sorted({x for x, _ in tinted(top)})
    runs = [[xs[0], xs[0]]]
    for x in xs[1:]:
        if x - runs[-1][1] > 30:
            runs.append([x, x])
        runs[-1][1] = x
    small, large = (right - left + 1 for left, right in runs[:2])
    whole = runs[1][1] - runs[0][0] + 1
    assert large / small == pytest.approx(3, rel=0.06)
    assert whole / large == pytest.approx(5, rel=0.03)


def test_a_person_of_170_cm_stands_beside_a_tall_piece_and_a_rule_beside_a_small_one():
    tall = plan_of([ball("Burgundy", 0.0, 170.0 - 20.0, diameter=40.0)])
    image = image_of(tall, larger=True)
    ys = [y for x, y in tinted(image) if x < image.width // 3]
    person = [y for y in range(image.height) for x in range(0, image.width, 2)
              if image.getpixel((x, y)) != (255, 255, 255) and near(image.getpixel((x, y)), (236, 239, 240), 3)]
    assert min(person) == pytest.approx(min(ys), abs=6)
    small = image_of(plan_of([ball("Burgundy", 0.0, 20.0, diameter=40.0)]))
    assert small.tobytes() != image.tobytes()


def test_the_front_hides_the_back():
    back, front = ball("Burgundy", 0.0, 60.0, -10.0, 40.0), ball("Ivory", 0.0, 60.0, 10.0, 60.0)
    plan = plan_of([front, back])
    legend_only = plan_of([front], more=(Part(item="Burgundy", count=1, role="ring", colour="burgundy", fill_cm=40.0),))
    assert image_of(plan).tobytes() == image_of(legend_only).tobytes()


def test_what_is_behind_a_clear_balloon_shows():
    inside, clear = ball("Burgundy", 0.0, 60.0, -10.0, 20.0), ball("Clear", 0.0, 60.0, 0.0, 60.0)
    assert share_of(image_of(plan_of([inside, clear])), LOOKS["Burgundy"].rgb, 70) > 0.01


def test_two_colours_of_one_grey_are_told_apart_by_their_signs():
    """Red and green of one lightness: on a grey printer only the signs differ."""
    looks = {name: replace(LOOKS["Ivory"], rgb=rgb, colour=name) for name, rgb in
             {"red": (214, 92, 92), "green": (82, 158, 84)}.items()}
    positions = [replace(ball("Ivory", x, 60.0, diameter=60.0), item=item, colour=item)
                 for x, item in [(0.0, "red"), (70.0, "green")]]
    parts = tuple(Part(item=item, count=1, role="ring", colour=item, fill_cm=60.0) for item in looks)
    plan = replace(plan_of([]), positions=tuple(positions), parts=parts)
    grey = Image.open(io.BytesIO(draw_piece(plan, looks, unit="cm"))).convert("L")
    left, wide = _arrow(grey)
    scale = wide / 130.0
    red, green = (_sign(grey, left + scale * (30.0 + x), scale) for x in (0.0, 70.0))
    assert max(abs(a - b) for a, b in zip(red, green, strict=True)) > 25
    same = (_sign(grey, left + scale * (30.0 + x), scale, shift=-0.3) for x in (0.0, 70.0))
    assert max(abs(a - b) for a, b in zip(*same, strict=True)) < 20  # without the signs they are one grey


def _arrow(grey):
    """Left end and length of the arrow under the piece, the longest dark row."""
    best = (0, 0)
    for y in range(grey.height):
        dark = [x for x in range(40, grey.width) if grey.getpixel((x, y)) < 150]
        run = next((n for n in range(len(dark), 1, -1) if dark[n - 1] - dark[0] == n - 1), 0)
        best = max(best, (run, dark[0] if dark else 0))
    return best[1], best[0] - 1


def _sign(grey, x, scale, shift=0.0):
    tops = [y for y in range(grey.height) if grey.getpixel((round(x), y)) < 235]
    middle = tops[0] + round(scale * (30.0 + 60.0 * shift))
    reach = round(scale * 8) if not shift else 2
    return [grey.getpixel((round(x) + dx, middle + dy)) for dy in range(-reach, reach + 1, 2)
            for dx in range(-reach, reach + 1, 2)]


def test_poles_plates_and_numbers_are_drawn():
    positions = [ball("Ivory", 0.0, 40.0 + 30 * n, -20.0, 24.0, layer=n + 2) for n in range(4)]
    marks = (Stroke(points=((0.0, 0.0, 0.0), (0.0, 170.0, 0.0)), width_cm=3.0, role="pole", layer=1),
             Plate(x_cm=0.0, y_cm=0.0, width_cm=40.0, height_cm=2.0, role="base", layer=1))
    bare = replace(plan_of(positions), outline=outline(40, 170))
    images = {image_of(plan, larger=True, numbered_layers=numbers).tobytes() for plan, numbers in [
        (bare, False), (bare, True), (replace(bare, drawing=marks[:1]), False), (replace(bare, drawing=marks), False),
        (replace(bare, drawing=marks), True)]}
    assert len(images) == 5


def test_many_colours_still_fit_the_format():
    looks = {f"C{n}": replace(LOOKS["Ivory"], rgb=(n * 9 % 256, n * 31 % 256, n * 57 % 256), colour=f"colour {n}")
             for n in range(20)}
    positions = tuple(replace(ball("Ivory", n * 12.0, 100.0), item=f"C{n}", colour=f"colour {n}") for n in range(20))
    parts = tuple(Part(item=item, count=1, role="ring", colour=item, fill_cm=25.0) for item in looks)
    png = draw_piece(replace(plan_of([]), positions=positions, parts=parts), looks, title="Twenty colours", unit="in")
    assert Image.open(io.BytesIO(png)).size[1] <= 400
    assert len(png) < MOST_BYTES


def test_names_in_other_letters_do_not_break_a_picture():
    looks = {"Ivory": replace(LOOKS["Ivory"], colour="Слоновая кость", surface="crème brûlée ½")}
    plan = plan_of([ball("Ivory", 0.0, 60.0)])
    assert len(draw_piece(plan, looks, title="Żółty łuk 🎈", unit="cm")) < MOST_BYTES


def test_nothing_to_draw_is_refused():
    empty = replace(plan_of([]), parts=(Part(item="Ivory", count=3, role="build", colour="ivory", fill_cm=20.0),))
    assert not has_picture(empty)
    with pytest.raises(ValueError, match="nothing to draw"):
        draw_piece(empty, LOOKS, unit="in")


def test_the_text_for_those_who_cannot_see_says_size_counts_and_colours():
    plan = replace(drawn_plans.bouquet(), description=("7 balloons on ribbons",))
    text = alternative_text(plan, LOOKS, title="Birthday bouquet", unit="cm")
    assert text == (
        "Drawing to scale of a Birthday bouquet, seen from the front; 96 cm wide and 2.29 m tall; 7 balloons: "
        "1 matt ivory, 1 matt sage, 1 pearl blush, 1 foil red, 1 foil silver, 1 mirror gold, 1 metallic burgundy; "
        "7 balloons on ribbons")
    assert "12 more out of sight" in alternative_text(drawn_plans.garland(), LOOKS, unit="in")


def test_a_very_long_text_is_cut():
    plan = replace(drawn_plans.bouquet(), description=("word " * 400,))
    assert len(alternative_text(plan, LOOKS, unit="in")) <= 800


def test_a_contact_sheet_holds_every_picture():
    pictures = [(name, draw_piece(make(), LOOKS, unit="cm")) for name, make in HAND_MADE.items()]
    sheet = Image.open(io.BytesIO(contact_sheet(pictures))).convert("RGB")
    assert sheet.size == (3 * 672, 2 * 466)
    for number in range(6):
        left, top = number % 3 * 672, number // 3 * 466
        cell = sheet.crop((left + 20, top + 60, left + 650, top + 450))
        assert len(set(pixels_of(cell))) > 20
    with pytest.raises(ValueError, match="no picture"):
        contact_sheet([])
