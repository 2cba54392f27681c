"""The capture pages' shell: addresses that change with what lies behind them, and its weight."""

import gzip
import re
import shutil
from pathlib import Path

import pytest
from django.core.files.storage import FileSystemStorage
from django.template.loader import render_to_string

from fitshop.static_files import HashedModules
from sessions.views.room import MODULES

HOUSE = Path(__file__).parents[2]
FOLDERS = ("fitshop/static/fitshop", "fitshop/static/vendor", "sessions/static/capture")
IMPORT = re.compile(r"(?m)^(?:import|export)\b[^;\"']*?from\s*[\"']([^\"']+)[\"']")
MOST_BYTES = 150_000


class Uncompressed(HashedModules):
    """Named alike; squeezing takes most of the time and changes no name."""

    def compress_files(self, paths):
        return ()


class Collected:
    """The static files in a folder of their own, named as in a shop."""

    def __init__(self, folder: Path, storage: type[HashedModules] = Uncompressed) -> None:
        self.source, self.root, self.storage = folder / "source", folder / "root", storage
        for each in FOLDERS:
            shutil.copytree(HOUSE / each, self.source / Path(each).name)
        self.names: dict[str, str] = {}

    def collect(self) -> dict[str, str]:
        shutil.rmtree(self.root, ignore_errors=True)
        shutil.copytree(self.source, self.root)
        source = FileSystemStorage(self.source)
        names = [str(p.relative_to(self.source)) for p in self.source.rglob("*") if p.is_file()]
        storage = self.storage(location=str(self.root), base_url="/static/")
        for name, hashed, done in storage.post_process({one: (source, one) for one in names}):
            if isinstance(done, Exception):
                raise done
            if hashed is not None and not hashed.endswith((".gz", ".br")):
                self.names[name] = hashed
        return dict(self.names)

    def imports(self, hashed: str) -> list[str]:
        """The addresses that a collected module imports, from the root."""
        text = (self.root / hashed).read_text()
        found = [(self.root / hashed).parent / address for address in IMPORT.findall(text)]
        return [str(path.resolve().relative_to(self.root.resolve())) for path in found]

    def graph(self, first: str) -> set[str]:
        """Every module that the browser loads for one, under the name it is loaded by."""
        seen: set[str] = set()
        waiting = [first]
        while waiting:
            module = waiting.pop()
            if module not in seen:
                seen.add(module)
                waiting += self.imports(module)
        return seen


@pytest.fixture(scope="module")
def collected(tmp_path_factory):
    files = Collected(tmp_path_factory.mktemp("static"), HashedModules)
    files.collect()
    return files


def test_every_module_is_loaded_by_the_name_of_its_content(collected):
    loaded = collected.graph(collected.names["capture/app.js"])
    assert len(loaded) > 20
    assert loaded <= set(collected.names.values())


def test_the_shell_tells_beforehand_every_module_that_will_be_wanted(collected):
    loaded = collected.graph(collected.names["capture/app.js"])
    told = {collected.names[name] for name in (*MODULES, "capture/app.js")}
    assert told == loaded


@pytest.mark.parametrize("inner", ["capture/steps/situation.js", "vendor/htm.js"])
def test_a_changed_inner_module_changes_the_address_that_the_shell_loads(tmp_path, inner):
    files = Collected(tmp_path)
    before = files.collect()
    changed = files.source / inner
    changed.write_text(changed.read_text() + "\n// one line more\n")
    after = files.collect()
    for name in (inner, "capture/steps/trials.js", "capture/app.js"):
        assert before[name] != after[name], name
    # What knows nothing of it keeps its address, and is not loaded again.
    assert before["capture/sha256.js"] == after["capture/sha256.js"]
    assert files.graph(after["capture/app.js"]) <= set(after.values())


def test_all_of_the_shell_weighs_less_than_it_may(collected):
    """As it travels: compressed where that is smaller. Page, styles, font, icons and modules."""
    page = render_to_string("sessions/room.html", {"demo": True, "modules": MODULES})
    linked = set(re.findall(r'(?:href|src|data-sprite)="/static/([^"#?]+)"', page))
    loaded = collected.graph(collected.names["capture/app.js"])
    files = {collected.names[name] for name in linked} | loaded
    weights = {name: _weight(collected.root / name) for name in files}
    total = sum(weights.values()) + len(gzip.compress(page.encode()))
    print(f"{len(files)} files, {total} bytes")
    assert 60_000 < total < MOST_BYTES, sorted(weights.items(), key=lambda pair: -pair[1])[:8]


def _weight(path: Path) -> int:
    smaller = path.with_name(path.name + ".gz")
    return min(one.stat().st_size for one in (path, smaller) if one.exists())
