"""The shop's proof: how often the balls fell where they were predicted."""

from fastapi import APIRouter, Request, Response

from loftwright.services.proof import proof_of
from loftwright.web.render import render
from loftwright.web.state import Here
from loftwright.web.views.proof import proof_view

router = APIRouter(include_in_schema=False)


@router.get("/proof")
def show_proof(request: Request, studio: Here) -> Response:
    """Show the shop's proof, or that of invented golfers while there is no ball of its own."""
    proof = proof_of(studio)
    if not proof.balls and not proof.not_predicted:
        invented = proof_of(studio, invented=True)
        proof = invented if invented.balls else proof
    return render(request, "proof.html", view=proof_view(proof))
