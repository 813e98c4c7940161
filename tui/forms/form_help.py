"""The help of a form."""

FORM_HELP = (
    "Fill in what you know; leave the rest blank. * must be filled in, • is needed before you buy or cover. The line "
    "at the bottom reads back what you typed, or says what is wrong.\n\n"
    "First: type in the field you are in, then Enter for the next.\n\n"
    "Enter, ↓ = next field  ↑ = field above  PgUp, PgDn = 8 fields  F2 = choices, or the window of a note  letters = "
    "narrow the choices  Space = next choice  F3 = more fields  Ctrl+S = save  Esc = cancel\n\n"
    "Lengths as you say them: 6' 3-1/2, 75.5\", 75 1/2, 1.9 m, 1900 mm. Dates: Dec 9, 12/9, Friday, tomorrow. A bare "
    "number takes the unit of the job."
)
