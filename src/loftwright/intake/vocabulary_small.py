"""The small words about a table: particles, sides, sums, yes and no, in several languages."""

from types import MappingProxyType
from typing import Final

UMLAUTS: Final = MappingProxyType(str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa"}))


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


STOP: Final = _words(
    "of the to de del della dello dell di du des la le les el il al alla d l der die das dem des"
    " zum zur zu van het av w my in y"
)
SHORT: Final = MappingProxyType(
    {
        "ang": "angle",
        "dev": "deviation",
        "dir": "direction",
        "dist": "distance",
        "dyn": "dynamic",
        "hgt": "height",
        "hor": "horizontal",
        "horiz": "horizontal",
        "ht": "height",
        "spd": "speed",
        "vert": "vertical",
    }
)
CALCULATED: Final = _words(
    "calc calculated est estimated estimate normalised normalized norm modelled modeled derived"
    " berechnet geschatzt normalisiert calcule estime normalise"
    " calculado calculada estimado estimada normalizado calcolato calcolata stimato stimata"
    " normalizzato beraknad uppskattad berekend geschat 計算 推定 계산 추정"
)
MEASURED: Final = _words(
    "measured meas gemessen mesure medido medida misurato misurata uppmatt matt"
    " gemeten 実測 実測値 측정값"
)
SIDE_WORDS: Final = MappingProxyType(
    {
        "right": "r|right|rechts|droite|derecha|destra|hoger|右|우|오른쪽",
        "left": "l|left|links|gauche|izquierda|sinistra|vanster|左|좌|왼쪽",
        "open": "o|open|offen|ouverte|ouvert|abierta|abierto|aperta|oppen|開き",
        "closed": "c|closed|geschlossen|fermee|ferme|cerrada|cerrado|chiusa|stangd|gesloten|閉じ",
        "in-to-out": "in to out|in out|i o|inside out|in-to-out|in-out|inside-out|i-o|von innen",
        "out-to-in": "out to in|out in|o i|outside in|out-to-in|out-in|outside-in|o-i|von aussen",
        "toe": "t|toe|spitze|pointe|punta|ta|teen|トウ|トゥ|토우|토",
        "heel": "heel|ferse|hacke|talon|tacco|hal|hiel|ヒール|힐",
        "high": "high|hoch|haut|alto|alta|hog|hoog|上|상",
        "low": "low|tief|bas|bajo|baja|basso|bassa|lag|laag|下|하",
        "up": "up|u",
        "down": "down|d|dn",
    }
)
SUMS: Final = frozenset(
    {"average", "averages", "avg", "mittelwert", "mittelwerte", "durchschnitt", "moyenne"}
    | {"moyennes", "promedio", "genomsnitt", "medelvarde", "gemiddelde", "gemiddeld"}
    | {"standardabweichung", "standardavvikelse", "平均", "平均値", "標準偏差", "평균", "표준편차"}
)
# These sum up when they are all that stands in the cell.
SUMS_ALONE: Final = frozenset(
    {"mean", "means", "std", "stdev", "stddev", "std dev", "st dev", "sd", "standard deviation"}
    | {"deviation", "mittel", "streuung", "moy", "ecart-type", "ecart type", "media", "medie"}
    | {"deviazione standard", "desviacion estandar", "medel", "gem", "ø", "σ", "μ", "variance"}
    | {"varianz", "consistency", "mean value", "x̄"}
)
# These may be names; they count only where a ball's number or time would stand.
SUMS_BY_PLACE: Final = frozenset(
    {"min", "max", "minimum", "maximum", "median", "total", "sum", "summe", "gesamt", "range"}
    | {"best", "somme", "suma", "somma", "totale", "mediane", "mediana", "最大", "最小", "합계"}
    | {"최대", "최소", "spread", "count", "n", "anzahl"}
)
YES: Final = frozenset(
    {"yes", "y", "true", "1", "ja", "j", "oui", "o", "si", "s", "x", "ok", "read", "wahr", "vrai"}
    | {"verdadero", "vero", "sant", "waar", "valid", "good", "はい", "예", "네"}
)
NO: Final = frozenset(
    {"no", "n", "false", "0", "nein", "non", "nej", "nee", "not read", "missed", "miss", "falsch"}
    | {
        "faux",
        "falso",
        "falskt",
        "onwaar",
        "invalid",
        "no read",
        "lost",
        "いいえ",
        "아니오",
        "아니요",
    }
)
