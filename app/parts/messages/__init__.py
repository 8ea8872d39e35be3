"""What the program and the browser say to each other, described once.

What comes in is held against `said.SAID` before anyone sees it; what goes out is typed here and checked before anything
runs. `python -m app.parts.messages.typescript` writes the same for the browser's code, as `static/messages.d.ts`.
"""
