"""What is told of the variants of a plan: tables for the terminal, one document."""
