"""All SQL of the shop: one file per thing that is kept; layer: inside ``shop``, used by nobody else."""
