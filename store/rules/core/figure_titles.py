"""How a figure is called where a person reads it, and its unit; a figure that is not here goes by its own name."""

from __future__ import annotations

from store.measure.length import Length, show_length
from store.measure.numbers import show_number

TITLES: dict[str, tuple[str, str]] = {
    # boxes
    "volume_in3": ("room in it", "in³"),
    "fill_in3": ("room that is needed", "in³"),
    "fill_lines": ("the sum", ""),
    "next_box": ("smallest metal box that would do", ""),
    "missing": ("not noted yet", ""),
    "places": ("places to plug in", ""),
    "places_taken": ("of these taken", ""),
    "switched_half": ("on the switched half", ""),
    "always_on_half": ("on the half that is always on", ""),
    "either_half": ("half not said", ""),
    "nearest_power": ("nearest power that is there already", ""),
    "nearest_power_distance": ("how far that is", ""),
    "first_support": ("cable first held within", ""),
    "free_conductor": ("free wire in it, at least", ""),
    "free_outside": ("of it in front of the box", ""),
    "largest_hole": ("largest hole in a stud", ""),
    "hole_without_plate": ("largest hole that needs no plate", ""),
    "deepest_notch": ("deepest notch, always with a plate", ""),
    # circuits
    "connected_w": ("connected", "W"),
    "connected_a": ("connected", "A"),
    "design_a": ("to plan for", "A"),
    "limit_a": ("may carry", "A"),
    "room_a": ("room left", "A"),
    "room_w": ("room left", "W"),
    "continuous_limit_a": ("most for what runs 3 hours or more", "A"),
    "plug_in_limit_a": ("most for one plugged-in thing", "A"),
    "fixed_limit_a": ("most for what is fastened, if shared", "A"),
    "loads": ("what is on it", ""),
    "drop_v": ("lost at the far end", "V"),
    "drop_pct": ("lost at the far end", "%"),
    "drop_length": ("one way to the far end", ""),
    "drop_lines": ("the way", ""),
    "drop_to": ("the far end", ""),
    # openings
    "watts": ("heat behind its door, at most", "W"),
    "idle_w": ("heat when all waits", "W"),
    "air_needed_cfm": ("air that must go through", "cfm"),
    "air_moved_cfm": ("air that goes through", "cfm"),
    "fan_wanted_cfm": ("a fan sold as this would do", "cfm"),
    "fan_noise_db": ("noise of its fan, turned down as far as the heat allows", "dB"),
    "heat_lines": ("the sum of its heat", ""),
    "heat_w": ("heat behind its door, at most", "W"),
    "air_wanted_cfm": ("air to stay within 10 °F of the room", "cfm"),
    "air_wanted_m3h": ("air to stay within 10 °F of the room", "m³/h"),
    "cooled_by": ("carried off by", ""),
    "rise_f": ("warmer than the room by", "°F"),
    "rise_c": ("warmer than the room by", "°C"),
    "sag": ("its board comes to sag", ""),
    "limit": ("sag that is allowed", ""),
    "sag_seen": ("sag that is seen", ""),
    "sag_lines": ("the sum of its board", ""),
    "sag_with_books": ("its board would sag, full of books", ""),
    "longest_with_books": ("longest such board for books", ""),
    # walls
    "bottom_plates": ("bottom plates", ""),
    "framing_lines": ("framing, piece by piece", ""),
    "lumber_lengths": ("lengths to buy", ""),
    "lumber_lines": ("lumber to buy and cut", ""),
    "board_ft2": ("drywall to buy", "ft²"),
    "board_waste_pct": ("of it waste", "%"),
    "board_screws": ("drywall screws", ""),
    "tape_ft": ("joint tape", "ft"),
    "compound_gal": ("joint compound", "gal"),
    "bead_ft": ("corner bead", "ft"),
    "board_lines": ("drywall, sheet by sheet", ""),
    "coat_days": ("a coat dries", "days"),
    "coat_lines": ("coats", ""),
    # cabinets
    "each_door_width": ("each door wide", ""),
    "each_door_height": ("each door high", ""),
    "each_door_lb": ("each door weighs", "lb"),
    "hinges_a_door": ("hinges for each door", ""),
    "slide_length": ("drawer slide", ""),
    "tie_back_n": ("pull on its tie-back", "N"),
    "cabinet_lines": ("to cut for it", ""),
    # lights
    "light_w": ("draws", "W"),
    "light_a": ("draws", "A"),
    "driver_w": ("driver to buy, at least", "W"),
    "driver_size_w": ("next size sold", "W"),
    "class_2_outputs": ("Class 2 outputs it needs", ""),
    "wire_gauge": ("wire that keeps to 3 %, AWG", ""),
    "light_lines": ("the sum", ""),
    "mirror_up": ("its mirror in the TV, off the floor", ""),
    # fixings
    "needed_n": ("on the screw that is loaded hardest", "N"),
    "allowed_n": ("that screw holds", "N"),
    "margin": ("holds so many times the load", ""),
    "screws_needed": ("screws of this kind that would do", ""),
    "hold_lines": ("the sum", ""),
    "blocking": ("blocking behind it", ""),
    # cables
    "path_from": ("path taken from", ""),
    "waste_pct": ("added for waste", "%"),
    "waste_from": ("that figure", ""),
    "slack_start": ("left over at from", ""),
    "slack_start_from": ("that figure", ""),
    "slack_end": ("left over at to", ""),
    "slack_end_from": ("that figure", ""),
    "cut": ("to cut", ""),
    "buy": ("to buy", ""),
    "studs_crossed": ("studs to bore", ""),
    "plates_crossed": ("top or bottom plates to bore", ""),
    "holes": ("holes in all", ""),
    "bend_radius": ("bends no tighter than", ""),
    "loss_pct": ("loses", "% of the impedance"),
    "longest_run": ("longest run within 5 %", ""),
    "loss_db": ("loses", "dB"),
    "loss_at_mhz": ("at", "MHz"),
    # raceways
    "fill_pct": ("filled", "%"),
    "limit_pct": ("at most", "%"),
    "more_cables": ("more cables that go through", ""),
    "more_of": ("like", ""),
    "bends_left": ("bends left to the next pull", "°"),
    "hole": ("hole to bore for it", ""),
    "bundle_hole": ("hole for its cables and one plug", ""),
    "grommet": ("desk grommet for them", ""),
    "plug_hole": ("bore for its largest plug", ""),
    # heaters
    "amps": ("draws", "A"),
    "amps_at_125": ("planned at 125 %", "A"),
    "btu_per_h": ("heat", "BTU/h"),
    "planned_breaker_a": ("breaker to plan for", "A"),
    "planned_wire": ("wire to plan for", ""),
    "receptacle": ("to plug into", ""),
    "settled": ("settled", ""),
    "to_ask": ("to be asked", ""),
}


def titled(name: str, value: object, metric: bool) -> tuple[str, str]:
    """The title of a figure and its value in words."""
    title, unit = TITLES.get(name, (name.replace("_", " "), ""))
    if isinstance(value, Length):
        return title, show_length(value, metric)
    if isinstance(value, bool):
        return title, "yes" if value else "no"
    shown = show_number(round(value, 2)) if isinstance(value, int | float) else str(value)
    return title, f"{shown} {unit}".strip()
