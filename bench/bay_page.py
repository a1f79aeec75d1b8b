"""From a ball posted to the bay page painted with evidence and next club, in Chromium."""

import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

ROUNDS = 60
BALLS = 150
CLUBS = 8
BETWEEN = 1.0
"""Seconds from ball to ball: nobody hits sooner, and the newest mark has faded in by then."""
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

POST_AND_WAIT = """
async ([fitting, ball]) => {
  const before = Number(document.body.dataset.paintedRevision || 0);
  const start = performance.now();
  // The page writes the revision in the task after the frame; waiting for a frame of our own to
  // look at it would add up to one more.
  const painted = new Promise((done) => {
    new MutationObserver((_, watch) => {
      if (Number(document.body.dataset.paintedRevision || 0) <= before) return;
      watch.disconnect();
      done(performance.now());
    }).observe(document.body, { attributeFilter: ["data-painted-revision"] });
  });
  const answer = await fetch(`/api/fittings/${fitting}/shots`, {
    method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify(ball),
  });
  if (!answer.ok) throw new Error(await answer.text());
  const answered = performance.now();
  return [answered - start, await painted - start];
}
"""


def free_port() -> int:
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        return int(door.getsockname()[1])


def fill(folder: Path) -> str:
    """Put a fitting of eight clubs and 150 balls into a new store and return its id."""
    from bench.studio import filled_studio

    studio, fitting = filled_studio(folder, clubs=CLUBS, balls=BALLS)
    studio.store.close()
    return fitting


def ball(number: int) -> dict[str, object]:
    rng = np.random.default_rng(number)
    return {
        "key": f"bench-{number}",
        "ball_speed_mph": round(145.0 + float(rng.normal(0.0, 2.0)), 1),
        "launch_deg": round(12.0 + float(rng.normal(0.0, 1.0)), 1),
        "direction_deg": round(float(rng.normal(0.0, 2.0)), 1),
        "spin_rpm": round(2600.0 + float(rng.normal(0.0, 250.0))),
        "axis_deg": round(float(rng.normal(0.0, 5.0)), 1),
        "head_speed_mph": round(100.0 + float(rng.normal(0.0, 1.0)), 1),
        "attack_deg": round(float(rng.normal(0.0, 1.0)), 1),
        "path_deg": round(float(rng.normal(0.0, 1.5)), 1),
        "face_deg": round(float(rng.normal(0.0, 1.5)), 1),
    }


def main() -> None:
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        fitting = fill(folder)
        port = free_port()
        command = [sys.executable, "-m", "loftwright.cli.app", "serve", "--port", str(port)]
        script = Path(sys.executable).with_name("loftwright")
        if script.exists():
            command = [str(script), "serve", "--port", str(port)]
        server = subprocess.Popen(
            command,
            env={**os.environ, "LOFTWRIGHT_DATA": name, "OPENBLAS_NUM_THREADS": "1"},
            stdout=subprocess.DEVNULL,
        )
        try:
            wait_for(port)
            with sync_playwright() as player:
                browser = player.chromium.launch(
                    executable_path=shutil.which("chromium"), args=FLAGS
                )
                measure(browser.new_context(), port, fitting)
                browser.close()
        finally:
            server.terminate()
            server.wait(timeout=20)


def wait_for(port: int) -> None:
    until = time.monotonic() + 30.0
    while time.monotonic() < until:
        try:
            socket.create_connection(("127.0.0.1", port), timeout=0.2).close()
        except OSError:
            time.sleep(0.05)
        else:
            return
    raise SystemExit("the studio did not answer")


def measure(context: object, port: int, fitting: str) -> None:
    """Open the bay on two screens, post balls from one and print how long each took."""
    laptop = context.new_page()  # type: ignore[attr-defined]
    tablet = context.new_page()  # type: ignore[attr-defined]
    tablet.set_viewport_size({"width": 820, "height": 1180})
    laptop.set_viewport_size({"width": 1280, "height": 900})
    for page in (tablet, laptop):
        page.goto(f"http://127.0.0.1:{port}/fittings/{fitting}/bay")
        page.wait_for_selector("body[data-painted-revision]")
    laptop.bring_to_front()
    times = []
    for number in range(ROUNDS + 5):
        times.append(laptop.evaluate(POST_AND_WAIT, [fitting, ball(number)]))
        time.sleep(BETWEEN)
    answered, painted = np.array(times[5:]).T
    print(f"bay page, {CLUBS} clubs, {BALLS} balls and more, two screens, {ROUNDS} balls posted")
    for what, found in (("answered", answered), ("painted", painted)):
        print(
            f"  {what:9s} median {np.median(found):5.0f} ms, "
            f"p95 {np.percentile(found, 95):5.0f} ms, slowest {found.max():5.0f} ms"
        )


if __name__ == "__main__":
    main()
