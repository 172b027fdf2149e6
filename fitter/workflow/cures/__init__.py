"""What would make an impossible project fit."""
