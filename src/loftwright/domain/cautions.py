"""What can hurt somebody in the workshop, by what a build asks for.

No legal advice: local law, the adhesive's data sheet and the makers' instructions come first.
Every caution names what it rests on; common practice is called so.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final


class Hazard(StrEnum):
    """What a caution is about."""

    CARBON_DUST = "carbon_dust"
    EPOXY = "epoxy"
    HEAT = "heat"
    SOLVENT = "solvent"
    GRINDING = "grinding"
    BENCH_LOAD = "bench_load"
    BLADE = "blade"
    PULLED_SHAFT = "pulled_shaft"
    SCREW = "screw"
    UNCURED_BOND = "uncured_bond"
    LOOSE_WEIGHT = "loose_weight"


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What a build asks for.

    Attributes
    ----------
    carbon : bool
        The shaft is of carbon fibre.
    cut : bool
        Something is cut off the shaft.
    glued : bool
        A bond is made with epoxy.
    pulled : bool
        The shaft or head comes off another club.
    ground : bool
        Metal is ground: a bore, a hosel, a weight.
    screwed : bool
        The head is held by a sleeve's screw.
    by_solvent : bool
        The grip goes on with a solvent.
    on_bench : bool
        The shaft is loaded or swung on the bench.
    weighted : bool
        Weights go into head or butt.
    """

    carbon: bool = True
    cut: bool = True
    glued: bool = True
    pulled: bool = False
    ground: bool = False
    screwed: bool = False
    by_solvent: bool = False
    on_bench: bool = False
    weighted: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution.

    Attributes
    ----------
    hazard : Hazard
    says : str
        What to do.
    basis : str
        What it rests on.
    """

    hazard: Hazard
    says: str
    basis: str


_PRACTICE: Final = "common practice, no source"
CAUTIONS: Final = {
    Hazard.CARBON_DUST: Caution(
        hazard=Hazard.CARBON_DUST,
        says="Extract the dust at the cut through a HEPA filter, and let the extraction run on "
        "afterwards. Fitted respirator, eye protection, gloves, long sleeves. No compressed air, "
        "no dry sweeping. Cut wet as well, not instead: wet sawing raised airborne dust too.",
        basis="COSHH, regulation 2 (dust counts as hazardous from 10 mg/m3 inhalable or 4 mg/m3 "
        "respirable in 8 h); Kumoi and others 2024, Annals of Work Exposures and Health; NIOSH "
        "HETA-2005-0291-3025, 2006; class of the respirator from memory",
    ),
    Hazard.EPOXY: Caution(
        hazard=Hazard.EPOXY,
        says="Nitrile or butyl gloves, changed often, never latex. Nothing on the skin; "
        "ventilate. Stop and see a doctor on a rash or a wheeze: being sensitised can last.",
        basis="HSE RR79; EU-OSHA on epoxy resins; HSE on dermatitis in construction",
    ),
    Hazard.HEAT: Caution(
        hazard=Hazard.HEAT,
        says="The least heat that frees the bond, on the hosel; pull straight, do not twist "
        "carbon. Extract: hot resin gives off vapour. Away from solvents; sensors and batteries "
        "out first; no flame on magnesium or paint. Gloves for hot metal.",
        basis="Boatman and others 1988, Environmental Research 45:242 (vapours at 250 C); the "
        f"rest {_PRACTICE}",
    ),
    Hazard.SOLVENT: Caution(
        hazard=Hazard.SOLVENT,
        says="Little at a time, lidded, ventilated; no flame or heat gun in the same room; soaked "
        "rags into a metal bin with a lid. Tape that takes water is safer.",
        basis="HSE HSG140, 2015; SafeWork NSW on flammable substances (a litre can fill 5000 l "
        "with an explosive mixture)",
    ),
    Hazard.GRINDING: Caution(
        hazard=Hazard.GRINDING,
        says="Eye and face shield. Dust of titanium, magnesium and aluminium burns: never mix it "
        "with sparks of steel.",
        basis=f"{_PRACTICE}; NFPA 484 from memory",
    ),
    Hazard.BENCH_LOAD: Caution(
        hazard=Hazard.BENCH_LOAD,
        says="No more load than the sheet says, raised slowly, its weight tethered over a mat. "
        "Head and hands out of the line of a slipping weight and a springing shaft; goggles on. "
        "Clamp the butt in a sleeve, never in bare jaws. What cracks or creaks is locked away.",
        basis=_PRACTICE,
    ),
    Hazard.BLADE: Caution(
        hazard=Hazard.BLADE,
        says="Guard on the wheel, eye protection, the shaft in a clamp, never in the hand.",
        basis=_PRACTICE,
    ),
    Hazard.PULLED_SHAFT: Caution(
        hazard=Hazard.PULLED_SHAFT,
        says="Look at the tip under a light: cracks, white places, soft or burnt resin, lifted "
        "fibres. Flex and twist it by hand, tap it. Reject it when in doubt, cut back only within "
        "the maker's limit, and write 'pulled' on the sheet.",
        basis=_PRACTICE,
    ),
    Hazard.SCREW: Caution(
        hazard=Hazard.SCREW,
        says="Torque tool at the head maker's value, never a power driver. Tug and twist the "
        "head, and check the screw again after the first shots.",
        basis=f"{_PRACTICE}; calibration of the tool by ISO 6789 from memory",
    ),
    Hazard.UNCURED_BOND: Caution(
        hazard=Hazard.UNCURED_BOND,
        says="Tag the club with the hour before which nobody hits or waggles it, from the "
        "adhesive's own data sheet. A head that flies off injures.",
        basis="worked out here: 200 g at 50 m/s on 1.5 m pull 333 N, 0.4 MPa of a bond of 8 cm2; "
        f"a cured one holds some 20 MPa (from memory); the rest {_PRACTICE}",
    ),
    Hazard.LOOSE_WEIGHT: Caution(
        hazard=Hazard.LOOSE_WEIGHT,
        says="Fix weights in head and butt so that they cannot work loose; shake and listen.",
        basis="Equipment Rules, part 2, 1b (parts firmly fixed); how is common practice",
    ),
}
"""Every caution, in the order of the work."""


def hazards_of(work: Work) -> tuple[Hazard, ...]:
    """Return the hazards of a build, in the order in which the cautions are printed."""
    there = {
        Hazard.CARBON_DUST: work.carbon and (work.cut or work.glued or work.pulled),
        Hazard.EPOXY: work.glued,
        Hazard.HEAT: work.pulled,
        Hazard.SOLVENT: work.by_solvent,
        Hazard.GRINDING: work.ground,
        Hazard.BENCH_LOAD: work.on_bench,
        Hazard.BLADE: work.cut,
        Hazard.PULLED_SHAFT: work.pulled,
        Hazard.SCREW: work.screwed,
        Hazard.UNCURED_BOND: work.glued,
        Hazard.LOOSE_WEIGHT: work.weighted,
    }
    return tuple(hazard for hazard in Hazard if there[hazard])


def cautions_for(work: Work) -> tuple[Caution, ...]:
    """Return the cautions that a build's own parts and steps ask for."""
    return tuple(CAUTIONS[hazard] for hazard in hazards_of(work))
