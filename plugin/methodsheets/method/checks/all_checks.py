"""In which order are the checks of one operation made?"""

from __future__ import annotations

from methodsheets.method.checks.castings import check_skin
from methodsheets.method.checks.cores import check_core
from methodsheets.method.checks.measured import check_measured
from methodsheets.method.checks.room import check_room
from methodsheets.method.checks.standing import check_standing
from methodsheets.method.checks.threads import check_thread
from methodsheets.method.checks.tools import check_tool
from methodsheets.method.done import WorkedOperation
from methodsheets.method.open_setup import OpenSetup
from methodsheets.workshop.model import Workshop


def check_operation(workshop: Workshop, setup: OpenSetup, done: WorkedOperation) -> None:
    """Everything beside reach and metal: the tool, the way the work stands, the room on the machine, the thread."""
    check_tool(workshop, setup, done)
    check_standing(workshop, setup, done)
    check_room(setup, done)
    check_thread(done)
    check_measured(done)
    check_core(setup, done)
    check_skin(done)
