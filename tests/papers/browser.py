"""A browser without a screen, spoken to through two pipes: open a page, tap, ask, and hear what it complains of."""

from __future__ import annotations

import base64
import fcntl
import json
import os
import shutil
import signal
from pathlib import Path
from typing import Any, Self

PROGRAMS = ("chromium", "chromium-browser")
_FLAGS = (
    *("--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking"),
    *("--disable-dev-shm-usage", "--remote-debugging-pipe", "--allow-file-access-from-files"),
)


def program() -> str:
    """Return the browser of this machine, '' where there is none."""
    return next((found for name in PROGRAMS if (found := shutil.which(name))), "")


class Browser:
    """One page in one window. ``complaints`` gathers errors, refused styles and scripts, and requests to outside."""

    def __init__(self, folder: Path) -> None:
        """Start the browser with a fresh profile in ``folder``."""
        self.complaints: list[str] = []
        self._number = 0
        self._rest = b""
        theirs_in, self._out = os.pipe()
        self._in, theirs_out = os.pipe()
        high = [fcntl.fcntl(end, fcntl.F_DUPFD_CLOEXEC, 10) for end in (theirs_in, theirs_out)]
        silent = os.open(os.devnull, os.O_WRONLY)
        self._process = os.posix_spawn(
            program(),
            [program(), *_FLAGS, f"--user-data-dir={folder}", "about:blank"],
            os.environ,
            file_actions=[
                (os.POSIX_SPAWN_DUP2, high[0], 3),
                (os.POSIX_SPAWN_DUP2, high[1], 4),
                (os.POSIX_SPAWN_DUP2, silent, 2),
            ],
        )
        for end in (theirs_in, theirs_out, *high, silent):
            os.close(end)
        target = next(t for t in self._ask("Target.getTargets")["targetInfos"] if t["type"] == "page")
        attach = self._ask("Target.attachToTarget", targetId=target["targetId"], flatten=True)
        self._session = str(attach["sessionId"])
        for domain in ("Page", "Runtime", "Log", "Network", "DOM"):
            self.tell(f"{domain}.enable")

    def __enter__(self) -> Self:
        """Return the browser itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """End the browser and wait until it is gone."""
        os.kill(self._process, signal.SIGTERM)
        os.waitpid(self._process, 0)
        os.close(self._out)
        os.close(self._in)

    def tell(self, method: str, **values: Any) -> dict[str, Any]:
        """Send a command to the page and return the answer."""
        return self._ask(method, session=self._session, **values)

    def open(self, page: Path, size: tuple[int, int], *, script: bool = True) -> None:
        """Show a file in a window of a touch screen, with the network off."""
        wide, high = size
        self.tell("Emulation.setDeviceMetricsOverride", width=wide, height=high, deviceScaleFactor=1, mobile=True)
        self.tell("Emulation.setTouchEmulationEnabled", enabled=True)
        self.tell("Emulation.setScriptExecutionDisabled", value=not script)
        self.tell("Network.emulateNetworkConditions", offline=True, latency=0, downloadThroughput=0, uploadThroughput=0)
        self.tell("Page.navigate", url=page.resolve().as_uri())
        self._until("Page.loadEventFired")

    def ask(self, script: str) -> Any:
        """Return the value of an expression on the page."""
        found = self.tell("Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in found, found["exceptionDetails"]
        return found["result"].get("value")

    def tap(self, finding: str) -> None:
        """Touch the middle of what an expression finds, as a finger does."""
        self.ask(f"({finding}).scrollIntoView({{block: 'center'}})")
        x, y = self.ask(
            f"(() => {{ const b = ({finding}).getBoundingClientRect(); "
            "return [b.x + b.width / 2, b.y + b.height / 2]; })()"
        )
        self.tell("Input.dispatchTouchEvent", type="touchStart", touchPoints=[{"x": x, "y": y}])
        self.tell("Input.dispatchTouchEvent", type="touchEnd", touchPoints=[])
        self.ask("new Promise(done => setTimeout(() => done(0), 30))")

    def press(self, key: str) -> None:
        """Press a key of the keyboard."""
        codes = {"Tab": 9, "Enter": 13, "Escape": 27, "ArrowRight": 39, "ArrowLeft": 37, " ": 32}
        text = {"Enter": "\r", " ": " "}.get(key, "")
        for kind in ("keyDown", "keyUp"):
            more = {"text": text} if text and kind == "keyDown" else {}
            self.tell("Input.dispatchKeyEvent", type=kind, key=key, code=key, windowsVirtualKeyCode=codes[key], **more)

    def give_file(self, selector: str, file: Path) -> None:
        """Put a file into a file field."""
        root = self.tell("DOM.getDocument")["root"]["nodeId"]
        node = self.tell("DOM.querySelector", nodeId=root, selector=selector)["nodeId"]
        self.tell("DOM.setFileInputFiles", files=[str(file)], nodeId=node)
        self.ask("new Promise(done => setTimeout(() => done(0), 100))")

    def picture(self) -> bytes:
        """Return what the window shows as PNG."""
        return base64.b64decode(self.tell("Page.captureScreenshot")["data"])

    def _ask(self, method: str, session: str = "", **values: Any) -> dict[str, Any]:
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": values}
        if session:
            message["sessionId"] = session
        os.write(self._out, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._read()
            if answer.get("id") == self._number:
                assert "error" not in answer, answer
                result: dict[str, Any] = answer["result"]
                return result

    def _until(self, event: str) -> None:
        while self._read().get("method") != event:
            pass

    def _read(self) -> dict[str, Any]:
        while b"\0" not in self._rest:
            more = os.read(self._in, 1 << 20)
            assert more, "the browser went away"
            self._rest += more
        first, _, self._rest = self._rest.partition(b"\0")
        message: dict[str, Any] = json.loads(first)
        self._listen(message)
        return message

    def _listen(self, message: dict[str, Any]) -> None:
        """Keep what the browser complains of."""
        kind, values = message.get("method", ""), message.get("params", {})
        if kind == "Runtime.exceptionThrown":
            self.complaints.append(str(values["exceptionDetails"]))
        if kind == "Log.entryAdded" and values["entry"]["level"] in ("error", "warning"):
            self.complaints.append(str(values["entry"]["text"]))
        if kind == "Network.requestWillBeSent":
            address = str(values["request"]["url"])
            if not address.startswith(("file:", "data:", "blob:", "about:")):
                self.complaints.append(f"asked for {address}")
