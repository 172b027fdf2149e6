"""Results as text and as JSON; the only place that makes sentences of findings and verdicts."""
