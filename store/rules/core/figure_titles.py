"""How a figure is called where a person reads it, and its unit; a figure that is not here goes by its own name."""

from __future__ import annotations

from store.measure.length import Length, show_length, show_size
from store.measure.numbers import with_unit

TITLES: dict[str, tuple[str, str]] = {
    # boxes
    "volume_in3": ("box volume", "in³"),
    "fill_in3": ("box fill needed", "in³"),
    "fill_lines": ("box fill, line by line", ""),
    "next_box": ("smallest metal box that works", ""),
    "missing": ("not entered", ""),
    "places": ("receptacles", ""),
    "places_taken": ("receptacles in use", ""),
    "switched_half": ("on the switched half", ""),
    "always_on_half": ("on the always-on half", ""),
    "either_half": ("half not entered", ""),
    "nearest_power": ("nearest existing power", ""),
    "nearest_power_distance": ("distance to it", ""),
    "first_support": ("first staple within", ""),
    "free_conductor": ("free wire, at least", ""),
    "free_outside": ("of it outside the box", ""),
    "largest_hole": ("largest hole in a stud", ""),
    "hole_without_plate": ("largest hole without a nail plate", ""),
    "deepest_notch": ("deepest notch, with a nail plate", ""),
    # circuits
    "connected_w": ("connected", "W"),
    "connected_a": ("connected", "A"),
    "design_a": ("plan for", "A"),
    "limit_a": ("limit", "A"),
    "room_a": ("room left", "A"),
    "room_w": ("room left", "W"),
    "continuous_limit_a": ("limit for loads of 3 hours or more", "A"),
    "plug_in_limit_a": ("limit for one plug-in load", "A"),
    "fixed_limit_a": ("limit for fixed loads, if shared", "A"),
    "loads": ("loads", ""),
    "drop_v": ("voltage drop", "V"),
    "drop_pct": ("voltage drop", "%"),
    "drop_length": ("one way to the far end", ""),
    "drop_lines": ("route", ""),
    "drop_to": ("far end", ""),
    # openings
    "depth_there": ("depth there, with the wall", ""),
    "finish_area": ("area, openings included", ""),
    "finish_weight": ("weight in all", ""),
    "studs_behind": ("studs behind it", ""),
    "stands_out": ("standoff", ""),
    "watts": ("heat behind its door, at most", "W"),
    "idle_w": ("heat on standby", "W"),
    "air_needed_cfm": ("air that must go through", "cfm"),
    "air_moved_cfm": ("air that goes through", "cfm"),
    "fan_wanted_cfm": ("fan to buy, at least", "cfm"),
    "fan_noise_db": ("noise of its fan, turned down as far as the heat allows", "dB"),
    "heat_lines": ("heat, line by line", ""),
    "heat_w": ("heat behind the door, at most", "W"),
    "air_wanted_cfm": ("air to stay within 10 °F of the room", "cfm"),
    "air_wanted_m3h": ("air to stay within 6 °C of the room", "m³/h"),
    "cooled_by": ("cooled by", ""),
    "rise_f": ("above room temperature by", "°F"),
    "rise_c": ("above room temperature by", "°C"),
    "sag": ("shelf sag under this load", ""),
    "limit": ("sag allowed", ""),
    "sag_seen": ("sag you can see", ""),
    "sag_lines": ("shelf, line by line", ""),
    "board_length": ("clear length between its ends", ""),
    "clear_over": ("free height over it", ""),
    "top_off_floor": ("its top, off the floor", ""),
    "sag_with_books": ("shelf sag full of books", ""),
    "longest_with_books": ("longest shelf for books", ""),
    # walls
    "bottom_plates": ("bottom plates", ""),
    "left_corner_deg": ("left corner", "°"),
    "right_corner_deg": ("right corner", "°"),
    "framing_lines": ("framing, piece by piece", ""),
    "lumber_lengths": ("lengths to buy", ""),
    "lumber_lines": ("lumber to buy and cut", ""),
    "board_ft2": ("drywall to buy", "ft²"),
    "board_waste_pct": ("of that, waste", "%"),
    "board_screws": ("drywall screws", ""),
    "tape_ft": ("joint tape", "ft"),
    "compound_gal": ("joint compound", "gal"),
    "bead_ft": ("corner bead", "ft"),
    "board_lines": ("drywall, sheet by sheet", ""),
    "coat_days": ("a coat dries", "days"),
    "coat_lines": ("coats", ""),
    # cabinets
    "each_door_width": ("each door, width", ""),
    "each_door_height": ("each door, height", ""),
    "each_door_lb": ("each door, weight", "lb"),
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
    "wire_gauge": ("wire for 3% loss, AWG", ""),
    "light_lines": ("line by line", ""),
    "mirror_up": ("its reflection in the TV, off the floor", ""),
    # fixings
    "needed_n": ("load on the most loaded screw", "N"),
    "allowed_n": ("it holds", "N"),
    "margin": ("times the load it holds", ""),
    "screws_needed": ("screws of this kind needed", ""),
    "hold_lines": ("line by line", ""),
    "blocking": ("blocking behind it", ""),
    # cables
    "path_from": ("route from", ""),
    "waste_pct": ("added for waste", "%"),
    "waste_from": ("waste from", ""),
    "slack_start": ("slack at from", ""),
    "slack_start_from": ("slack source", ""),
    "slack_end": ("slack at to", ""),
    "slack_end_from": ("slack source", ""),
    "cut": ("cut length", ""),
    "buy": ("to buy", ""),
    "studs_crossed": ("studs to bore", ""),
    "plates_crossed": ("top or bottom plates to bore", ""),
    "holes": ("holes in all", ""),
    "bend_radius": ("tightest bend", ""),
    "loss_pct": ("loss", "% of the impedance"),
    "longest_run": ("longest run within 5%", ""),
    "loss_db": ("loss", "dB"),
    "loss_at_mhz": ("at", "MHz"),
    # raceways
    "fill_pct": ("fill", "%"),
    "limit_pct": ("limit", "%"),
    "later_fill_pct": ("fill with what comes later", "%"),
    "more_cables": ("more cables that fit", ""),
    "more_of": ("like", ""),
    "bends_left": ("bends left to the next pull point", "°"),
    "hole": ("hole to bore for it", ""),
    "bundle_hole": ("hole for its cables and one plug", ""),
    "grommet": ("desk grommet for them", ""),
    "plug_hole": ("hole for its largest plug", ""),
    # heaters
    "amps": ("draws", "A"),
    "amps_at_125": ("planned at 125%", "A"),
    "btu_per_h": ("heat", "BTU/h"),
    "planned_breaker_a": ("breaker to plan for", "A"),
    "planned_wire": ("wire to plan for", ""),
    "receptacle": ("receptacle", ""),
    "settled": ("settled", ""),
    "to_ask": ("to ask", ""),
}


SIZES = frozenset({"largest_hole", "hole_without_plate", "deepest_notch", "sag", "sag_seen", "sag_with_books", "hole",
                   "bundle_hole", "grommet", "plug_hole", "bend_radius", "first_support", "free_conductor",
                   "free_outside", "longest_with_books"})  # fmt: skip
"""Figures that are sizes of things; other lengths are places and runs."""


TWICE = {False: frozenset({"rise_c", "air_wanted_m3h"}), True: frozenset({"rise_f", "air_wanted_cfm"})}
"""Figures that are there in both systems: which are not shown in a US job, and which not in a metric one."""
_METRIC = {
    "cfm": (1.699011, "m³/h"), "in³": (16.387064, "cm³"), "ft²": (0.09290304, "m²"), "ft": (0.3048, "m"),
    "gal": (3.785412, "L"), "lb": (0.45359237, "kg"), "BTU/h": (0.29307107, "W"),
}  # fmt: skip
_US = {"N": (0.22480894, "lb")}
"""By how much a unit is multiplied to be one of the other system, and that; NIST SP 811, appendix B."""


def titled(name: str, value: object, metric: bool) -> tuple[str, str]:
    """The title of a figure and its value in words, in the units of the job."""
    title, unit = TITLES.get(name, (name.replace("_", " "), ""))
    factor, other = (_METRIC if metric else _US).get(unit, (1.0, unit))
    if other != unit and isinstance(value, int | float):
        value, unit = value * factor, other
    if isinstance(value, Length):
        return title, (show_size if name in SIZES else show_length)(value, metric)
    if isinstance(value, bool):
        return title, "yes" if value else "no"
    if isinstance(value, int | float):
        return title, with_unit(value, unit, metric=metric, places=2)
    return title, f"{value} {unit}".strip()
