"""`make`: the main job."""

from pathlib import Path

from stitchpath.cli.cutting_list import CUTTING_LIST
from stitchpath.cli.files import plan_project
from stitchpath.cli.findings import findings_data, show_cautions, show_findings
from stitchpath.cli.folder import write_folder
from stitchpath.cli.placing import placing_data
from stitchpath.cli.progress import SLOW_HOOPINGS, progress
from stitchpath.cli.refits import load_refits, refit_lines, refitted
from stitchpath.cli.summary import show_summary, summary_data
from stitchpath.cli.terminal import plain, say, say_json, tell
from stitchpath.errors import EXIT_DONE, EXIT_PROBLEMS
from stitchpath.model.finding import Level
from stitchpath.model.plan import Plan
from stitchpath.preview.estimate_data import estimate_data


def make_project(path: Path, out: Path, *, as_json: bool) -> int:
    """Make a project's folder, whole or not at all; return the exit code."""
    bare, refits = plan_project(path, compares_fields=True), load_refits(path)
    planned = refitted(bare, refits)
    if planned.has_errors:
        return refuse(planned, as_json=as_json)
    from stitchpath.cli.outputs import BOOKLET, make_outputs  # noqa: PLC0415 - slow to import

    hoopings = sum(len(stage.hoopings) for stage in planned.stages)
    with progress("hoopings", hoopings, from_=SLOW_HOOPINGS) as advance:
        outputs = make_outputs(planned, on_made=advance)
    write_folder(out, outputs)
    if as_json:
        more = {"out": str(out), "files": sorted(outputs)} | placing_data(planned)
        say_json(summary_data(planned) | estimate_data(planned) | findings_data(planned) | more)
    else:
        say(show_summary(planned))
    if any(finding.level is Level.WARNING for finding in planned.findings):
        tell(f"\n{show_findings(planned, notes_too=False)}")
    if refits:
        tell(plain("\n" + "\n".join(refit_lines(bare, refits))))
    tell(f"\n{show_cautions(planned)}\n")
    tell(plain(f"wrote {len(outputs)} files to `{out}`"))
    tell(plain(f"cut by `{out / CUTTING_LIST}`, then begin with `{out / BOOKLET}`"))
    return EXIT_DONE


def refuse(planned: Plan, *, as_json: bool) -> int:
    """Say why a plan is not written; return the exit code."""
    if as_json:
        say_json(findings_data(planned))
    tell(f"{show_findings(planned, notes_too=False)}\nnothing was written")
    return EXIT_PROBLEMS
