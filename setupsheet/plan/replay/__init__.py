"""The proof: the stock is machined again from plan.json alone, and the part must come out."""
