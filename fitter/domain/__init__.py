"""The values that travel down the road: cushions, frame sizes, wishes, layouts, findings."""
