"""Results drawn as SVG text: a title that states the finding, a text twin, black ink that also prints.

Layer: above the physics it draws, below knowledge. Colours come from the page's own style by class name.
"""
