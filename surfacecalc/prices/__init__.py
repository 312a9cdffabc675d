"""What a piece costs and brings: supplies, hours, overhead, margin, tax. All money is decimal."""
