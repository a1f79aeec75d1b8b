"""The trade's words for what the club does and for what else a shot table holds.

General vocabulary of golf and its dictionaries (common practice, no source); no maker's export
is copied.
"""

from types import MappingProxyType
from typing import Final

# means: languages in the order English, German, French, Spanish, Italian, Swedish, Dutch
WORDS: Final = MappingProxyType(
    {
        "head speed": (
            "head speed|club speed|club head speed|swing speed|club velocity|speed club"
            "|clubhead velocity|speed of club",
            "schlägerkopfgeschwindigkeit|schlägergeschwindigkeit|kopfgeschwindigkeit"
            "|schwunggeschwindigkeit|schlägerkopfgeschw|schlägertempo",
            "vitesse de club|vitesse du club|vitesse de tête|vitesse de tête de club"
            "|vitesse de la tête de club|vitesse de swing|vitesse tête",
            "velocidad de palo|velocidad de cabeza|velocidad de la cabeza del palo"
            "|velocidad de swing|velocidad de cabeza de palo|vel palo",
            "velocità bastone|velocità testa|velocità della testa|velocità testa bastone"
            "|velocità della testa del bastone|velocità dello swing",
            "klubbhastighet|klubbhuvudhastighet|klubbhuvudets hastighet|svinghastighet",
            "clubsnelheid|clubhoofdsnelheid|clubkopsnelheid|zwaaisnelheid|swingsnelheid",
        ),
        "attack": (
            "attack|attack angle|angle of attack|aoa|club attack angle|attack angle club",
            "eintreffwinkel|angriffswinkel|eintauchwinkel|auftreffwinkel schläger|anstellwinkel",
            "angle d'attaque|attaque",
            "ángulo de ataque|ataque",
            "angolo di attacco|angolo d'attacco|attacco",
            "attackvinkel|anfallsvinkel|träffvinkel",
            "aanvalshoek|invalshoek",
        ),
        "path": (
            "path|club path|swing path|club head path|path angle|club path angle|path of club",
            "schwungpfad|schlägerpfad|schwungbahn|pfad|schlägerweg|schwungweg|schlägerbahn|pfadwinkel",
            "chemin de club|chemin du club|chemin|chemin de swing|trajectoire du club",
            "trayectoria del palo|trayectoria|trayectoria del swing|camino del palo|recorrido",
            "percorso del bastone|percorso bastone|percorso|traiettoria del bastone"
            "|traiettoria bastone",
            "klubbana|klubbbana|svingbana|klubbans bana|svängbana",
            "clubpad|zwaaipad|swingpad|pad|zwaaibaan",
        ),
        "face": (
            "face|face angle|club face|club face angle|face angle to target|face to target"
            "|face target|face direction",
            "schlagfläche|schlagflächenwinkel|schlagflächenstellung|schlagfläche zum ziel"
            "|schlagflächenausrichtung|blattstellung",
            "angle de face|face de club|orientation de la face|angle de la face"
            "|angle de face de club|face cible",
            "ángulo de cara|cara|cara del palo|ángulo de la cara|ángulo de la cara del palo"
            "|orientación de la cara",
            "angolo faccia|faccia|angolo della faccia|faccia del bastone|angolo della faccia"
            " del bastone|orientamento faccia",
            "bladvinkel|blad|klubbladsvinkel|klubbladets vinkel|bladets vinkel",
            "clubbladhoek|bladhoek|clubblad|clubblad hoek|slagvlakhoek|slagvlak",
        ),
        "face to path": (
            "face to path|face path|face angle to path|face relative to path|club face to path"
            "|face to path angle|face to club path",
            "schlagfläche zu pfad|schlagfläche zum pfad|schlagfläche zum schwungpfad"
            "|schlagfläche pfad|face zu pfad|blatt zu pfad",
            "face par rapport au chemin|face chemin|face par rapport à la trajectoire|face au"
            " chemin",
            "cara a trayectoria|cara respecto a trayectoria|cara respecto a la trayectoria"
            "|cara trayectoria",
            "faccia rispetto al percorso|faccia percorso|faccia rispetto alla traiettoria"
            "|faccia traiettoria",
            "blad mot bana|blad mot svingbana|bladvinkel mot bana|blad till bana",
            "blad ten opzichte van pad|clubblad ten opzichte van pad|blad naar pad|blad tot pad",
        ),
        "dynamic loft": (
            "dynamic loft|dyn loft|delivered loft|loft at impact|loft dynamic",
            "dynamischer loft|loft dynamisch|loft im treffmoment",
            "loft dynamique|loft à l'impact",
            "loft dinámico|loft en el impacto",
            "loft dinamico|loft all'impatto",
            "dynamiskt loft|dynamisk loft",
            "dynamische loft|loft dynamisch",
        ),
        "strike toe": (
            "strike toe|strike toe heel|strike heel toe|toe heel|heel toe|impact toe heel"
            "|impact heel toe|strike horizontal|horizontal strike|impact horizontal"
            "|horizontal impact|horizontal impact location|impact location horizontal"
            "|horizontal impact position|horizontal face impact|strike x|impact x|mark toe"
            "|mark toe heel|toe|lateral impact|impact lateral|impact toe"
            "|horizontal strike location",
            "treffpunkt spitze ferse|treffpunkt spitze hacke|treffpunkt horizontal"
            "|treffpunkt seitlich|treffpunkt quer|spitze ferse|spitze hacke|treffpunkt spitze"
            "|horizontaler treffpunkt",
            "impact pointe talon|pointe talon|impact talon pointe|point d'impact horizontal",
            "impacto punta talón|punta talón|impacto horizontal|impacto talón punta"
            "|punto de impacto horizontal",
            "impatto punta tacco|punta tacco|impatto orizzontale|punto di impatto orizzontale",
            "träff tå häl|tå häl|träffpunkt sida|träffpunkt horisontell|träffpunkt tå",
            "trefpunt teen hiel|teen hiel|trefpunt horizontaal|impact teen hiel"
            "|horizontaal trefpunt|treffpunkt teen",
        ),
        "strike high": (
            "strike high|strike high low|strike low high|high low|low high|impact high low"
            "|impact low high|strike vertical|vertical strike|impact vertical|vertical impact"
            "|vertical impact location|impact location vertical|vertical impact position"
            "|vertical face impact|strike y|impact y|mark high|mark high low|strike height"
            "|impact height|height on face|impact high|vertical strike location",
            "treffpunkt hoch tief|treffpunkt vertikal|treffpunkt höhe|hoch tief"
            "|treffpunkt hoch|vertikaler treffpunkt",
            "impact haut bas|haut bas|point d'impact vertical|hauteur d'impact",
            "impacto alto bajo|alto bajo|impacto vertical|punto de impacto vertical"
            "|altura de impacto",
            "impatto alto basso|alto basso|impatto verticale|punto di impatto verticale"
            "|altezza di impatto",
            "träff hög låg|hög låg|träffpunkt höjd|träffpunkt vertikal|träffpunkt hög",
            "trefpunt hoog laag|hoog laag|trefpunt verticaal|impact hoog laag|trefpunt hoogte"
            "|verticaal trefpunt",
        ),
        "mark set": (
            "mark set|set of marks|marks set|mark group",
            "markengruppe|abdruckgruppe|markierungsgruppe",
            "groupe de marques",
            "grupo de marcas",
            "gruppo di segni",
            "märkgrupp",
            "markeringsgroep",
        ),
        "read": (
            "read|was read|tracked|valid|is valid|detected",
            "gelesen|erfasst|gültig|erkannt",
            "lu|lue|détecté|valide",
            "leído|leída|válido|detectado",
            "letto|valido|rilevato",
            "läst|registrerad|giltig",
            "gelezen|geldig|geregistreerd",
        ),
        "feel": (
            "feel|feeling|felt",
            "gefühl",
            "sensation|ressenti",
            "sensación|sensaciones",
            "sensazione",
            "känsla",
            "gevoel",
        ),
        "note": (
            "note|notes|comment|comments|remark|remarks",
            "notiz|notizen|bemerkung|bemerkungen|kommentar|anmerkung",
            "remarque|remarques|commentaire|commentaires",
            "nota|notas|comentario|comentarios|observación|observaciones",
            "commento|commenti|osservazioni",
            "anteckning|anteckningar|kommentarer|anmärkning",
            "opmerking|opmerkingen|notitie|notities",
        ),
        "ignore": (
            "ignore|smash|smash factor|speed ratio|ball speed per club speed|efficiency|run|roll"
            "|roll out|spin loft|loft|lie|face loft|low point|swing plane|swing direction"
            "|swing radius|impact loft|closure rate|landing speed|landing height|landing spin"
            "|score|temperature|humidity|pressure|altitude|wind|tag|tags|session|session id|id"
            "|device|bay|ball type|ball model|surface|tee height|curve|shot type|shape|hand"
            "|dynamic lie|lie angle|tempo|battery|air density|elevation|shot shape|club length",
            "treffmoment faktor|ausrollen|rollweite|schwungebene|schwungrichtung|temperatur"
            "|luftdruck|höhe über meer|wind richtung|balltyp|sitzung|schlagform",
            "roulement|plan de swing|ratio de vitesse|température|vent|humidité|pression"
            "|forme du coup",
            "rodada|rodamiento|plano de swing|temperatura|viento|humedad|presión",
            "rotolo|piano di swing|vento|umidità|pressione|corsa",
            "rull|svingplan|vind|luftfuktighet",
            "uitrol|zwaaivlak|temperatuur|luchtvochtigheid",
        ),
    }
)
