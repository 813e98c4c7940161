"""How cable and boxes are set in the wall: free conductor, support and setback.

NEC 300.14, 314.17, 314.20 and 334.30. Inches.
"""

from __future__ import annotations

FREE_CONDUCTOR_IN = 6.0  # 300.14, from where it leaves sheath or raceway
FREE_OUTSIDE_IN = 3.0  # 300.14, outside an opening that is under 8 in in any dimension
SUPPORT_APART_IN = 54.0  # 334.30: 4-1/2 ft
SUPPORT_FROM_BOX_IN = 12.0  # 334.30
SUPPORT_FROM_CLAMPLESS_BOX_IN = 8.0  # 314.17: single-gang nonmetallic box without a clamp, along the sheath
SETBACK_NONCOMBUSTIBLE_IN = 0.25  # 314.20
