"""One pull of the cord, computed: gas, fire, valves, leak, magneto, rotor, cord and hand in one set of equations.

Part of ``engine``; numba is imported here and in ``engine.gas``, nowhere else.
"""
