"""The trade's words for a ball and its flight, in the languages of the Latin script.

General vocabulary of golf and its dictionaries (common practice, no source); no maker's export
is copied. A word that could mean two quantities stands in `AMBIGUOUS` and is asked about unless
its unit settles it.
"""

from types import MappingProxyType
from typing import Final

# means: languages in the order English, German, French, Spanish, Italian, Swedish, Dutch
WORDS: Final = MappingProxyType(
    {
        "ball": (
            "ball|ball number|ball no|ball nr|ball #|ball id|shot|shot number|shot no|shot nr"
            "|shot #|shot id|swing|swing number|number|no|nr|#|n",
            "ballnummer|schlag|schlag nr|schlagnummer|schlagzahl|nummer|lfd nr",
            "balle|numéro|numéro de balle|numéro du coup|coup|n°|num",
            "bola|pelota|golpe|número|número de golpe|número de bola|núm",
            "palla|pallina|colpo|numero|numero colpo|numero palla",
            "boll|bollnummer|slag|slagnummer|slag nr",
            "bal|balnummer|slagnr",
        ),
        "time": (
            "time|date|date time|time stamp|time of day|clock|date and time|day",
            "zeit|uhrzeit|datum|zeitstempel|datum uhrzeit|datum zeit|tag",
            "heure|date heure|horodatage|jour",
            "hora|fecha|fecha hora|fecha y hora|día",
            "ora|data|data ora|data e ora|giorno",
            "tid|klockslag|tidpunkt|datum tid|dag",
            "tijd|tijdstip|datum tijd",
        ),
        "club": (
            "club|club name|club label|club type|golf club|set up|setup|shaft|shaft name"
            "|head|head name|club head|club used|clubs|assembly|driver",
            "schläger|schlägername|schlägertyp|schlägerart|schaft|schlägerkopf|kopf",
            "canne|nom du club|type de club|manche|tête",
            "palo|palos|nombre del palo|tipo de palo|varilla|vara",
            "bastone|mazza|nome bastone|tipo di bastone|canna",
            "klubba|klubbnamn|klubbtyp|skaft",
            "golfclub|clubnaam|club naam|schacht",
        ),
        "golfer": (
            "golfer|player|name|golfer name|player name|client|customer|hitter|user",
            "spieler|spielername|kunde|spielerin",
            "joueur|nom|golfeur|nom du joueur|joueuse|prénom|client e",
            "jugador|nombre|golfista|nombre del jugador|cliente|jugadora",
            "giocatore|nome|nome giocatore|giocatrice",
            "spelare|namn|golfare|spelarens namn|kund",
            "speler|naam|spelernaam|klant",
        ),
        "ball speed": (
            "ball speed|ball velocity|initial ball speed|speed of ball|initial speed|speed ball",
            "ballgeschwindigkeit|ballgeschw|ball geschw|anfangsgeschwindigkeit|balltempo"
            "|geschwindigkeit ball",
            "vitesse de balle|vitesse de la balle|vitesse initiale|vitesse de balle initiale",
            "velocidad de bola|velocidad de la bola|velocidad de pelota|velocidad de la pelota"
            "|velocidad inicial|vel bola",
            "velocità palla|velocità della palla|velocità pallina|velocità della pallina"
            "|velocità iniziale|vel palla",
            "bollhastighet|bollfart|bollens hastighet",
            "balsnelheid|snelheid bal",
        ),
        "launch": (
            "launch|launch angle|vertical launch|vertical launch angle|launch angle vertical"
            "|launch vertical|vla|angle of launch|launch v|take off angle",
            "abflugwinkel|startwinkel|vertikaler abflugwinkel|abflugwinkel vertikal|abschlagwinkel"
            "|vertikaler startwinkel|höhenwinkel",
            "angle de lancement|angle de décollage|angle d'envol|angle de lancement vertical"
            "|angle vertical|lancement",
            "ángulo de lanzamiento|ángulo de salida|ángulo de despegue|lanzamiento"
            "|ángulo de lanzamiento vertical|ángulo vertical",
            "angolo di lancio|angolo di decollo|angolo di partenza|lancio"
            "|angolo di lancio verticale|angolo verticale",
            "utgångsvinkel|startvinkel|avgångsvinkel|vertikal utgångsvinkel",
            "lanceerhoek|vertrekhoek|verticale lanceerhoek|starthoek",
        ),
        "direction": (
            "direction|start direction|launch direction|start line|horizontal launch"
            "|horizontal launch angle|launch angle horizontal|launch horizontal|hla|azimuth"
            "|side angle|horizontal angle|launch azimuth|start angle horizontal|launch h"
            "|starting direction|starting line|initial direction",
            "startrichtung|abflugrichtung|horizontaler abflugwinkel|abflugwinkel horizontal"
            "|seitenwinkel|richtung|horizontaler startwinkel|seitlicher abflugwinkel",
            "direction de départ|direction de lancement|angle de lancement horizontal"
            "|direction initiale|angle horizontal|azimut",
            "dirección|dirección de salida|dirección de lanzamiento|dirección inicial"
            "|ángulo de lanzamiento horizontal|ángulo horizontal|acimut",
            "direzione|direzione di lancio|direzione di partenza|direzione iniziale"
            "|angolo di lancio orizzontale|angolo orizzontale",
            "riktning|startriktning|utgångsriktning|horisontell utgångsvinkel|sidovinkel",
            "richting|startrichting|vertrekrichting|lanceerrichting|horizontale lanceerhoek"
            "|zijhoek",
        ),
        "spin": (
            "spin|spin rate|total spin|ball spin|spin total|overall spin|total spin rate"
            "|ball spin rate|rate of spin",
            "drehzahl|spinrate|gesamtspin|ballspin|drall|gesamtdrall|balldrehzahl|spin gesamt",
            "taux de spin|taux de rotation|rotation|vitesse de rotation|rotation totale"
            "|rotation de balle|effet total",
            "giro|efecto|tasa de giro|velocidad de giro|giro total|efecto total|tasa de efecto",
            "rotazione|tasso di spin|spin totale|velocità di rotazione|rotazione totale|effetto",
            "spinn|spinnhastighet|total spinn|spinntal|totalspinn",
            "spinsnelheid|totale spin|draaisnelheid|rotatiesnelheid",
        ),
        "back spin": (
            "back spin|back spin rate|spin back",
            "rückwärtsdrall|rückdrall|rückwärtsspin",
            "rétro|effet rétro|rotation arrière|effet arrière|spin arrière",
            "retroceso|efecto de retroceso|giro hacia atrás|efecto hacia atrás",
            "rotazione all'indietro|effetto indietro|retro spin",
            "backspinn|bakåtspinn",
            "achterwaartse spin|terugspin",
        ),
        "side spin": (
            "side spin|side spin rate|spin side|lateral spin",
            "seitwärtsdrall|seitendrall|seitenspin|seitdrall",
            "effet latéral|spin latéral|rotation latérale",
            "efecto lateral|giro lateral|spin lateral",
            "effetto laterale|spin laterale|rotazione laterale",
            "sidspinn|sidospinn|sidospin",
            "zijspin|zijwaartse spin",
        ),
        "axis": (
            "axis|spin axis|axis tilt|spin axis tilt|spin tilt|tilt axis|axis of spin|tilt"
            "|spin axis angle|tilt of spin axis|tilt angle",
            "spinachse|drehachse|achse|achsneigung|spinachsenneigung|neigung der drehachse"
            "|drehachsenneigung|rotationsachse|drallachse",
            "axe de spin|axe de rotation|axe|inclinaison de l'axe|inclinaison de l'axe de spin"
            "|inclinaison de l'axe de rotation",
            "eje|eje de giro|eje de spin|eje de rotación|inclinación del eje|eje de efecto",
            "asse|asse di spin|asse di rotazione|inclinazione asse|inclinazione dell'asse"
            "|asse spin",
            "spinnaxel|rotationsaxel|spinn axel|axel|axellutning",
            "spinas|spin as|rotatieas|as",
        ),
        "carry": (
            "carry|carry distance|carry dist|carry length|distance carry|carry yards|carry flat",
            "flugweite|fluglänge|carrylänge|carryweite|carrydistanz|flugdistanz",
            "portée|distance portée|distance de carry|distance de vol|distance carry",
            "vuelo|distancia de vuelo|distancia carry|distancia de carry|carry distancia",
            "volo|distanza di volo|distanza carry|distanza di carry",
            "bärlängd|carrylängd|carrydistans|luftlängd",
            "draagafstand|vluchtafstand|carry afstand",
        ),
        "total": (
            "total|total distance|total dist|total length|distance total|overall distance"
            "|carry and run|carry plus run",
            "gesamtlänge|gesamtweite|gesamtdistanz|gesamtentfernung|gesamt|totallänge",
            "distance totale|longueur totale|totale",
            "distancia total",
            "distanza totale|totale distanza",
            "total längd|totallängd|totaldistans",
            "totale afstand|totaal|totaalafstand",
        ),
        "offline": (
            "offline|off line|side|lateral|side distance|lateral distance|carry side|deviation"
            "|carry offline|total offline|carry deviation|lateral deviation|side carry"
            "|side total|total side|total deviation|offline distance|distance offline|dispersion"
            "|carry lateral",
            "seitliche abweichung|abweichung|seitenabweichung|seitlich|seite|querabweichung",
            "écart latéral|déviation|latéral|écart|déviation latérale",
            "desviación lateral|desviación|distancia lateral|lado",
            "deviazione laterale|laterale|deviazione|scostamento laterale",
            "sidavvikelse|avvikelse|sidled|sidoavvikelse",
            "zijwaartse afwijking|afwijking|zijwaarts|zijafwijking",
        ),
        "peak height": (
            "peak height|apex|apex height|max height|maximum height|peak|height max|max apex"
            "|ball height|flight height",
            "scheitelhöhe|maximale höhe|gipfelhöhe|flughöhe|scheitelpunkt|max höhe|höchster punkt",
            "hauteur maximale|hauteur max|hauteur de vol|hauteur maxi",
            "altura máxima|altura max|ápice|altura de vuelo",
            "altezza massima|altezza max|apice",
            "maxhöjd|högsta höjd|topphöjd|högsta punkt",
            "maximale hoogte|piekhoogte|hoogste punt|max hoogte",
        ),
        "landing angle": (
            "landing angle|descent angle|angle of descent|land angle|angle of landing|descent",
            "landewinkel|eintrittswinkel|fallwinkel",
            "angle d'atterrissage|angle de descente|angle de chute",
            "ángulo de aterrizaje|ángulo de caída|ángulo de descenso",
            "angolo di atterraggio|angolo di discesa|angolo di caduta",
            "landningsvinkel|nedslagsvinkel",
            "landingshoek|daalhoek",
        ),
        "flight time": (
            "flight time|hang time|time of flight|air time|time in air|ball flight time",
            "flugzeit|flugdauer",
            "temps de vol|durée de vol",
            "tiempo de vuelo",
            "tempo di volo",
            "flygtid|lufttid",
            "vluchttijd|vluchtduur",
        ),
    }
)

# Words that could mean several quantities: asked about unless their unit settles it.
AMBIGUOUS: Final = MappingProxyType(
    {
        "speed|velocity|geschwindigkeit|vitesse|velocidad|velocità|hastighet|snelheid|スピード"
        "|速度|속도": ("ball speed", "head speed"),
        "distance|length|dist|länge|weite|distanz|distancia|distanza|längd|afstand|飛距離|距離"
        "|비거리|거리|yardage": ("carry", "total"),
        "angle|winkel|ángulo|angolo|vinkel|hoek|角度|각도": ("launch", "attack", "direction"),
        "height|höhe|hauteur|altura|altezza|höjd|hoogte|高さ|높이": ("peak height", "strike high"),
        "impact|strike|treffpunkt|impacto|impatto|träff|träffpunkt|trefpunt|打点|타점": (
            "strike toe",
            "strike high",
        ),
    }
)
