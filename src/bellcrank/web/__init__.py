"""The bench page: typed text in, one shop function, one view, one page out.

Layer: a face, beside the command line. FastAPI, Starlette and Jinja2 live only here.
"""
