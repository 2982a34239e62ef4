"""The handbook: its text, the figures in it, and the pages made of both.

``text`` is written by hand in Markdown. Everything between marks in it is written by ``python -m
tepidarium_api.handbook``: figures by their calculation, tables by the contract, pictures by the drawing code.
``pages`` is the same as HTML, which the service serves.
"""
