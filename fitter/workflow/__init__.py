"""Carries plain values from station to station: read, solve, check, measure, draw."""
