"""Content that each way in takes as it is: where hostile content starts from."""

from typing import Final

from bags import a_bag
from builds import BUILD_TABLES, BUILD_TOML
from loftwright.intake.bag_table import bag_csv
from shot_tables import invent_drives, own_rows

EFFECTS: Final = "0001.effects.parquet"

HOME: Final = """\
name = "Farrow Links"
altitude_ft = 300
temperature_f = 59
humidity_percent = 70
turf = "firm"
wind_along_mph = -5
wind_across_mph = 3
re_aim = true
[[holes]]
length_yd = 400
fairway_yd = 30
trouble = "left"
trouble_from_yd = 25
trouble_lie = "sand"
"""
HEAD: Final = """\
name = "Round figure"
mass_g = 204
cg_mm = [-38, 2, 0]
inertia_gcm2 = [[3000, 0, 0], [0, 5000, 0], [0, 0, 3500]]
bulge_mm = 305
roll_mm = inf
loft_deg = 10.5
lie_deg = 58
face_deg = 1
restitution = 0.83
source = "invented"
"""
GOLFER: Final = """\
hand = "left"
head_speed_mph = 75
loading = "smooth_early"
goal = "lower"
[own]
head = "Wayfarer"
shaft = "Heron 1"
length_inch = 45.5
loft_deg = 12
head_mass_g = 198
tip_trim_inch = 0.5
"""
MEASURED: Final = """\
[length_inch]
value = 45.25
u95 = 0.06
method = "ruler"
[swingweight]
value = "D2"
u95 = 0.5
[mass_g]
value = 323
u95 = 0.5
[frequency_cpm]
value = 252
u95 = 2
clamp_mm = 127
tip_mass_g = 205
[volume_cm3]
value = 458
u95 = 3
[grip_low_inch]
value = 0.88
u95 = 0.003
[pendulum]
pivot_inch = 2
period_s = 1.9
period_u95_s = 0.01
[built]
head_added_g = 4.5
cut_length_inch = 43.5
[rules]
competition_uses_46_inch = true
"""
READINGS: Final = """\
kind,station_mm,span_mm,load_n,deflection_mm,clamp_mm,tip_mass_g,frequency_cpm,moment_nm,twist_deg,mass_g,balance_mm,diameter_mm,sigma_percent
three_point,150,300,50,0.369,,,,,,,,,
cantilever,900,,10,21.5,127,,,,,,,,2
tip_clamped,,,,,127,205,301.2,,,,,,
frequency,,,,,127,205,258.4,,,,,,
torque,1143,,,,127,,,1.356,4.16,,,,
mass,,,,,,,,,,62.0,,,
balance,,,,,,,,,,,577,,
diameter,100,,,,,,,,,,,15.24,
"""
ROUNDS: Final = (
    "day,course,drives,fairways,total_yd,measured\n"
    "2026-10-03,Farrow Links,13,8,238.5,4\n2026-10-10,Farrow Links,14,9,,\n",
    "day;drives;fairways;total_m;measured\n2026-10-03;13;8;218,5;4\n",
)
SHEETS: Final = (
    "after 17\n18 elm 148.2 12.1 2510 mark toe-high\n"
    "19 147.5 11.8 2600 mark 5t 3h\n20 unread\nafter 23\n21 ash 149 - 2450\n",
    "first\n1 elm 66m/s 12.1 2510 dir 2L\n",
)
LINES: Final = (
    "148.2 12.1 2510 carry 240 mark 5t 3h club elm",
    "66m/s 12,1 2.510 path 2in face 1o dir 2L",
    "unread",
)
SETTINGS: Final = (
    "Col A=ball speed[mph]",
    "Path=path[deg, right +]",
    "Golfer=Ann",
    '--column "Col A=ball speed[mph]"',
    "--not-ours 3",
    "speed launch spin axis",
)
MAPPINGS: Final = '[[table]]\nheadings = "a1"\ncolumns = ["Col A=ball speed[mph]"]\n'
CODES: Final = ("GRH-36M-23Z", "yantryqfc", "222-222-222", "7KQ-4MX-9TR")
QUANTITIES: Final = ("148", "76 m/s", "5'11\"", "45,25 in", "1 furlong/fortnight", "10.5 deg")
FEED: Final = (
    '{"key": "bay-1-0017", "ball_speed_mph": 148.2, "launch_deg": 12.1, "direction_deg": -2.0, '
    '"spin_rpm": 2510, "axis_deg": 8.0, "club": "Birch", "time": "10:42:07"}'
)
FEED_FULL: Final = (
    '{"key": "2", "ball_speed_ms": 66.1, "back_spin_rpm": 2510, "side_spin_rpm": 250, '
    '"path_deg": 2, "face_to_path_deg": -1, "strike_toe_mm": 4, "strike_high_mm": -3, '
    '"carry_m": 220, "read": true, "device": "Slate"}'
)


def own_tables() -> tuple[bytes, ...]:
    """Return our own table, with and without what can be left out."""
    rows = own_rows(invent_drives(18))
    whole = "\n".join(",".join(map(str, row)) for row in rows) + "\n"
    few = "\n".join(",".join(str(cell) for cell in row[:6]) for row in rows) + "\n"
    return whole.encode(), few.encode()


def shot_tables() -> tuple[bytes, ...]:
    """Return tables of shots in several dialects and encodings."""
    (own, _) = own_tables()
    drives = invent_drives(12)
    lines = ["Schläger;Ballgeschw. (km/h);Abflug;Spin;Länge (m)"]
    strange = ["No,Player,Club,Ball speed,Launch,Back spin,Side spin,Path,Note"]
    for number, _drive in enumerate(drives):
        lines.append(f"Esche;{230 + number},4;12,{number};2{number % 9}50;2{number % 5}0")
        strange.append(
            f'{number},"Ann",Ash,14{number % 9}.2,1{number % 4}.1,2{number % 8}10,'
            f'12{number % 7} L,{number % 5}.5 R,"a ""note"""'
        )
    german = "\r\n".join(lines) + "\r\n"
    return (
        own,
        german.encode("cp1252"),
        german.encode("utf-16"),
        ("\n".join(strange) + "\nAverage,,,145.0,12.0,2500,120,2.0,\n").encode("utf-8-sig"),
        own.replace(b",", b"\t"),
        b"sep=|\n" + own.replace(b",", b"|"),
    )


def feeds() -> tuple[bytes, ...]:
    """Return balls as devices post them."""
    return FEED.encode(), FEED_FULL.encode(), b'{"key": "3", "read": false}'


def bags() -> tuple[bytes, ...]:
    """Return a bag as a table, with a point and with a comma."""
    text = bag_csv((*a_bag().in_play, *a_bag().spares))
    comma = text.replace(",", ";").replace(".", ",")
    return text.encode(), comma.encode()


def builds() -> tuple[bytes, ...]:
    """Return build files, short and with every table."""
    return BUILD_TOML.encode(), (BUILD_TOML + BUILD_TABLES).encode()
