"""Bolted joints."""
