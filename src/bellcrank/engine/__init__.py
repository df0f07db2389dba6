"""The engine: piston and volume, air, flow through leaks, compression, mixture, governor, spark and its timing."""
