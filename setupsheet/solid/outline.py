"""What a body looks like: visible and hidden edges as plain flat records (mm).

A kernel file, together with ``edge_curve.py`` and ``section.py``. Smooth seams (a slot's flank running
into its end) are left out, edges are merged (merging.py), and their order is the same in every run.
"""

from __future__ import annotations

from OCP.BRepLib import BRepLib
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

from setupsheet.solid.body import Body
from setupsheet.solid.cutters import Shape
from setupsheet.solid.edge_curve import flats_of
from setupsheet.solid.flat import Outlines
from setupsheet.solid.frame import Matrix, inverse
from setupsheet.solid.merging import merged

_SMOOTH_RAD = 1e-6


def outlines(body: Body, view: Matrix, *, hidden: bool = True) -> Outlines:
    """Return what a body shows in a view (view.py), or seen from above in a setup frame (frame.py)."""
    return seen(body.shape, view, hidden=hidden)


def seen(shape: Shape, view: Matrix, *, hidden: bool) -> Outlines:
    """Return what a shape of the kernel shows in a view; coordinates are the view's."""
    BRepLib.EncodeRegularity_s(shape, _SMOOTH_RAD)
    algorithm = HLRBRep_Algo()
    algorithm.Add(shape)
    algorithm.Projector(_projector(view))
    algorithm.Update()
    algorithm.Hide()
    result = HLRBRep_HLRToShape(algorithm)
    visible = flats_of(result.VCompound()) + flats_of(result.OutLineVCompound())
    if not hidden:
        return merged(visible, [])
    return merged(visible, flats_of(result.HCompound()) + flats_of(result.OutLineHCompound()))


def _projector(view: Matrix) -> HLRAlgo_Projector:
    x, _, z, _ = view
    back = inverse(view)
    origin = gp_Pnt(back[0][3], back[1][3], back[2][3])
    return HLRAlgo_Projector(gp_Ax2(origin, gp_Dir(z[0], z[1], z[2]), gp_Dir(x[0], x[1], x[2])))
