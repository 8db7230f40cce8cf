"""Job records in, papers out: cards, findings and the job packet."""
