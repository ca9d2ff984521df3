"""The same for work that is held by its faces."""

from __future__ import annotations

from tests.vocabulary.clause_samples import GRUB, PLUG, ROD, RUN, Sample, into_a_side, joined_round, on_face

ON_BLOCK: dict[str, Sample] = {
    "face": Sample("1 mm", {"": ("1 mm", "2 mm"), "to length": ("1 mm", "to length 23 mm"), "cutter": ", cutter 8 mm"}),
    "step": Sample("side left, wide 10 mm, deep 4 mm", {
        "side": ("side left, wide 10 mm, deep 4 mm", "side right, wide 10 mm, deep 4 mm"),
        "wide": ("side left, wide 10 mm, deep 4 mm", "side left, wide 11 mm, deep 4 mm"),
        "deep": ("side left, wide 10 mm, deep 4 mm", "side left, wide 10 mm, deep 5 mm"), "cutter": ", cutter 6 mm"}),
    "slot": Sample("wide 8 mm, deep 4 mm", {"wide": ("wide 8 mm, deep 4 mm", "wide 9 mm, deep 4 mm"),
        "deep": ("wide 8 mm, deep 4 mm", "wide 8 mm, deep 5 mm"), "along": ", along width", "middle": ", middle 12 mm",
        "from": ", from 10 mm", "to": ", to 30 mm", "cutter": ", cutter 5 mm"}),
    "pocket": Sample("from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm", {
        "from": ("from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm", "from (12 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm"),
        "to": ("from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm", "from (10 mm, 10 mm), to (42 mm, 30 mm), deep 4 mm"),
        "deep": ("from (10 mm, 10 mm), to (40 mm, 30 mm), deep 4 mm", "from (10 mm, 10 mm), to (40 mm, 30 mm), deep 5 mm"),
        "corner": ", corner 5 mm", "cutter": ", cutter 5 mm"}),
    "profile": Sample("points (10 mm, 10 mm), (50 mm, 10 mm), (30 mm, 30 mm), deep 4 mm", {
        "points": ("points (10 mm, 10 mm), (50 mm, 10 mm), (30 mm, 30 mm), deep 4 mm",
                   "points (10 mm, 10 mm), (50 mm, 10 mm), (30 mm, 32 mm), deep 4 mm"),
        "deep": ("points (10 mm, 10 mm), (50 mm, 10 mm), (30 mm, 30 mm), deep 4 mm",
                 "points (10 mm, 10 mm), (50 mm, 10 mm), (30 mm, 30 mm), deep 5 mm"),
        "cutter": ", cutter 6 mm", "via": ("points (10 mm, 10 mm), (30 mm, 5 mm), (50 mm, 10 mm), (30 mm, 30 mm), deep 4 mm",
                "points (10 mm, 10 mm), (30 mm, 5 mm), (50 mm, 10 mm), (30 mm, 30 mm), deep 4 mm, via (30 mm, 5 mm)"), "inside": ", inside",
        "climb": ", climb"}),
    "vee": Sample("wide 8 mm", {"wide": ("wide 8 mm", "wide 9 mm"), "middle": ", middle 12 mm", "along": ", along length",
        "angle": ", angle 60 deg", "cutter": ", cutter 16 mm"}),
    "dovetail": Sample("wide 12 mm, deep 5 mm", {"wide": ("wide 12 mm, deep 5 mm", "wide 13 mm, deep 5 mm"),
        "deep": ("wide 12 mm, deep 5 mm", "wide 12 mm, deep 4 mm"), "middle": ", middle 12 mm", "along": ", along length",
        "angle": ", angle 55 deg", "cutter": ", cutter 16 mm"}),
    "t-slot": Sample("wide 8 mm, deep 12 mm, head 14 mm, high 5 mm", {
        "wide": ("wide 8 mm, deep 12 mm, head 14 mm, high 5 mm", "wide 9 mm, deep 12 mm, head 14 mm, high 5 mm"),
        "deep": ("wide 8 mm, deep 12 mm, head 14 mm, high 5 mm", "wide 8 mm, deep 13 mm, head 14 mm, high 5 mm"),
        "head": ("wide 8 mm, deep 12 mm, head 14 mm, high 5 mm", "wide 8 mm, deep 12 mm, head 15 mm, high 5 mm"),
        "high": ("wide 8 mm, deep 12 mm, head 14 mm, high 5 mm", "wide 8 mm, deep 12 mm, head 14 mm, high 6 mm"),
        "middle": ", middle 12 mm", "along": ", along length", "cutter": ", cutter 14 mm"}),
    "chamfer": Sample("1 mm, side left", {"": ("1 mm, side left", "2 mm, side left"),
        "side": ("1 mm, side left", "1 mm, side all")}),
    "rack": Sample("module 1 mm, teeth 8", {"module": ("module 1 mm, teeth 8", "module 0.8 mm, teeth 8"),
        "teeth": ("module 1 mm, teeth 8", "module 1 mm, teeth 7"), "from": ", from 5 mm", "called": ", called teeth"}),
    "saw out": Sample("from (10 mm, 10 mm), to (40 mm, 30 mm)", {
        "from": ("from (10 mm, 10 mm), to (40 mm, 30 mm)", "from (12 mm, 10 mm), to (40 mm, 30 mm)"),
        "to": ("from (10 mm, 10 mm), to (40 mm, 30 mm)", "from (10 mm, 10 mm), to (42 mm, 30 mm)"),
        "deep": ", deep 10 mm", "through": ("from (10 mm, 10 mm), to (40 mm, 30 mm), deep 10 mm",
                                             "from (10 mm, 10 mm), to (40 mm, 30 mm), through")}),
    "drill": on_face("6 mm, deep 12 mm, places (20 mm, 10 mm)", **{
        "on circle": ", on circle 10 mm", "on radius": ", on radius 3 mm",
        "": ("6 mm, deep 12 mm, places (20 mm, 10 mm)", "7 mm, deep 12 mm, places (20 mm, 10 mm)"),
        "deep": ("6 mm, deep 12 mm, places (20 mm, 10 mm)", "6 mm, deep 13 mm, places (20 mm, 10 mm)"),
        "through": ("6 mm, deep 12 mm, places (20 mm, 10 mm)", "6 mm, through, places (20 mm, 10 mm)"),
        "from": ", from 2 mm", "point": ", point 135 deg", "called": ", called dowel"}),
    "saw off": Sample("5 mm", {"": ("5 mm", "6 mm"), "wide": ", wide 2 mm", "keep": ", keep back"}),
    "mark out": Sample("centres", {"": ("centres", "rings"), "for": ", for 7 min"}, idle={"lines": ", lines 10 mm, 20 mm"}),
    "file": Sample("smooth", {"": ("smooth", "very smooth"), "for": ", for 7 min"},
        idle={"to": ", to 18 mm", "at": ", at 30 deg", "over": ", over 10 mm", "from": ", from 2 mm"}),
    "press in": Sample("plug, places (20 mm, 20 mm)", {"": ("plug, places (20 mm, 20 mm)", "plug, places (25 mm, 20 mm)"),
        "places": ("plug, places (20 mm, 20 mm)", "plug, places (22 mm, 20 mm)"), "at": ", at 5 mm", "for": ", for 7 min",
        "end": ", end B", "turned": ", turned 30 deg", "offset": ", offset 2 mm",
        "offset at": ("plug, places (20 mm, 20 mm), offset 2 mm", "plug, places (20 mm, 20 mm), offset 2 mm, offset at 90 deg"),
        **joined_round("plug, places (20 mm, 20 mm)"), **into_a_side("plug, from face 10 mm")}, front=PLUG),
    "secure": Sample("plug, with weld, throat 1.5 mm", {
        "": ("plug, with weld, throat 1.5 mm", "main, with weld, throat 1.5 mm"),
        "with": ("plug, with weld, throat 1.5 mm", "plug, with silver solder, throat 1.5 mm"),
        "throat": ("plug, with weld, throat 1.5 mm", "plug, with weld, throat 1.2 mm"), "side": ", side back",
        "run": ", run 6 mm", "for": ", for 7 min", "called": ", called seam",
        "size": (GRUB, GRUB.replace("size 4 mm", "size 5 mm")), "long": (GRUB, GRUB.replace("long 12 mm", "long 11 mm")),
        "material": (GRUB, GRUB + ", material brass"), **into_a_side(GRUB),
        "divide": (RUN, RUN + ", divide 3"),
        "at angle": (RUN, RUN + ", at 30 deg"), "starting": (RUN + ", divide 3", RUN + ", divide 3, starting 20 deg"),
        "skip": (RUN + ", divide 3", RUN + ", divide 3, skip 2")},
        before=("drill: 10 mm, through, places (20 mm, 20 mm)", "press in: plug, at -5 mm, places (20 mm, 20 mm)"), front=ROD,
        idle={"at": ", at 2 mm"}),
    "take apart": Sample("plug", {"": ("plug", "plug 2"), "for": ", for 7 min"},
        before=("drill: 10 mm, through, places (20 mm, 10 mm), (20 mm, 30 mm)",
                "press in: plug, places (20 mm, 10 mm), (20 mm, 30 mm)"), front=PLUG),
    "round end": Sample("20 mm, places (20 mm, 20 mm)", {
        "": ("20 mm, places (20 mm, 20 mm)", "18 mm, places (20 mm, 20 mm)"),
        "places": ("20 mm, places (20 mm, 20 mm)", "20 mm, places (22 mm, 20 mm)"), "at": ", at 90 deg",
        "called": ", called eye", "for": ", for 7 min"}, before=("drill: 10 mm, through, places (20 mm, 20 mm)",)),
    "rivet": Sample("4 mm, places (20 mm, 20 mm)", {
        "": ("4 mm, places (20 mm, 20 mm)", "5 mm, places (20 mm, 20 mm)"), "head": ", head countersunk",
        "places": ("4 mm, places (20 mm, 20 mm)", "4 mm, places (22 mm, 20 mm)"), "tail": ", tail pan",
        "long": ", long 16 mm", "material": ", material brass", "called": ", called stay", "for": ", for 7 min",
        **joined_round("4 mm, places (20 mm, 20 mm)"), **into_a_side("4 mm, from face 10 mm")}, idle={"at": ", at 2 mm"}),
    "pin": Sample("4 mm, long 20 mm, places (20 mm, 20 mm)", {
        "": ("4 mm, long 20 mm, places (20 mm, 20 mm)", "5 mm, long 20 mm, places (20 mm, 20 mm)"),
        "long": ("4 mm, long 20 mm, places (20 mm, 20 mm)", "4 mm, long 22 mm, places (20 mm, 20 mm)"),
        "places": ("4 mm, long 20 mm, places (20 mm, 20 mm)", "4 mm, long 20 mm, places (22 mm, 20 mm)"),
        "at": ", at 2 mm", "material": ", material brass", "called": ", called stop", "for": ", for 7 min",
        **joined_round("4 mm, long 20 mm, places (20 mm, 20 mm)"), **into_a_side("4 mm, long 20 mm, from face 10 mm")}),
}  # fmt: skip
"""Samples of work on a six-face block."""
