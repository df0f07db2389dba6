"""The program as a person starts it: opens, answers, closes."""

import os
import re
import signal
import socket
import subprocess
import sys
import urllib.request

import pytest

pytestmark = pytest.mark.whole


def start(folder, *words):
    command = [sys.executable, "-m", "bellcrank", "open", "--data", str(folder), *words]
    environment = {name: value for name, value in os.environ.items() if "DISPLAY" not in name}
    return subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, encoding="utf-8", env=environment
    )


def test_opens_the_demo_answers_and_closes_on_ctrl_c(tmp_path):
    running = start(tmp_path, "--demo")
    told = [running.stdout.readline() for _ in range(4)]
    address = re.search(r"http://127\.0\.0\.1:\d+/", "".join(told))[0]
    assert "No browser was found here" in "".join(told)
    page = urllib.request.urlopen(address, timeout=10).read().decode()
    assert "mooring ring" in page
    running.send_signal(signal.SIGINT)
    rest, _ = running.communicate(timeout=15)
    assert "Closed." in rest
    assert "Traceback" not in rest
    assert running.returncode == 0


def test_a_taken_port_is_told_in_a_sentence(tmp_path):
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        running = start(tmp_path, "--no-browser", "--port", str(taken.getsockname()[1]))
        told, _ = running.communicate(timeout=15)
    assert "is taken" in told
    assert running.returncode == 2
